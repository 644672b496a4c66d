import type { HostNames } from './lay-out-examples.js';

/** Before a function's name in Excel; Excel puts a full stop between the two. */
export const EXCEL_NAMESPACE = 'TARIFF';

/** How each host's files and people write the names of functions. */
export const HOST_NAMES = {
  // Calc saves the name of the add-in with that of the function, and shows the short one.
  calc: { inFile: (name) => `HOME.TARIFF.FUNCTIONS.${name}`, typed: (name) => name },
  // How Excel saves the custom functions of an add-in.
  excel: {
    inFile: (name) => `_xldudf_${EXCEL_NAMESPACE}_${name}`,
    typed: (name) => `${EXCEL_NAMESPACE}.${name}`,
  },
  sheets: { inFile: (name) => name, typed: (name) => name },
} as const satisfies Record<string, HostNames>;

export type Host = keyof typeof HOST_NAMES;

/** What to do where a cell of the examples shows no value. */
export const HOST_ADVICE: Record<Host, string> = {
  calc: '#NAME? in a cell: install the extension and load this file again. Err:502: type =WHAT_IS_WRONG("NAME"; …) with the same arguments to read why.',
  excel:
    '#NAME? in a cell: load the add-in, then press Ctrl+Alt+F9. #VALUE!: point at the mark beside the cell to read why.',
  sheets:
    '#NAME? in a cell: put the script into this spreadsheet (Extensions, Apps Script). #ERROR!: point at the cell to read why.',
};

/** File name of the examples. */
export const EXAMPLES_FILE = 'examples.xlsx';
