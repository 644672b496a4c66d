import { describedFunctions } from '../../functions/index.js';
import { SHEETS } from '../layout.js';
import type { Book } from './book.js';
import { label } from './cells.js';
import { sheetTop } from './column-headers.js';
import type { Cell, SheetModel } from './sheet-model.js';

/** Number of the workbook's layout: a fill or a verify knows by it whether a workbook is one of ours, and which. */
export const LAYOUT_VERSION = 3;
export const LAYOUT_NAME = 'home_tariff_workbook_layout';
export const LAYOUT_CELL = 'B4';
/** Cell with the calendar days that the workbook holds: a fill and a verify make everything else by it. */
export const DAYS_CELL = 'B5';

const ASSUMPTIONS: readonly [string, string][] = [
  [
    'Time',
    'Windows are wall-clock times of the home’s zone unless a tariff says UTC. A window past midnight belongs to the day on which it starts. A change of rates holds from local midnight (common practice, no source).',
  ],
  [
    'Comparison',
    'All tariffs are compared on the same half-hours, on the flows as they would be without the battery that ran, and, where one is entered on Battery, with that one by its rule. What was paid is the channels as metered, on today’s tariff. Half-hours that were not metered count in no tariff; coverage says how many.',
  ],
  [
    'Money',
    'Rates are in hundredths of the currency per kWh, or per day. A tariff says whether its rates, and the half-hourly price where it follows one, hold VAT. Every bill line (energy, standing charge, export credit) is rounded half up to the hundredth once a month, as a bill does on its line. Export carries no VAT.',
  ],
  ['Standing charge', 'Runs on every calendar day from the first reading to the last, whatever was metered.'],
  [
    'Off-peak',
    'Import in half-hours at the lowest of a tariff’s rates; a single rate or a half-hourly price has none.',
  ],
  [
    'Heating',
    'The boiler that is no longer there is estimated twice: (a) last year’s gas, its weather part scaled by degree days, at this period’s gas rates; (b) heat delivered ÷ boiler efficiency at the same rates. Hot water is on both sides or on neither. A month counts where its meters cover enough half-hours; degree days are never filled in unless that was chosen.',
  ],
  [
    'Bills',
    'A bill is held against its days as metered, on its tariff at the rates of those days, whatever rates the answer is priced at. Rate 1 is the base rate, rate 2 that of window 1 and of windows at the same rate, rate 3 every other; by a half-hourly price all is rate 1. A difference of kWh is weighed at the tariff’s rate, one of rates at the billed kWh, with VAT (common practice, no source).',
  ],
  [
    'Exit fee',
    'Part of what a switch saves in its first year, in the sentence and beside the difference; never inside a total.',
  ],
];

/** What the figures mean: assumptions, units, functions with their sources. */
export function notesSheet({ shape }: Book): SheetModel {
  const cells: Cell[] = [
    ...sheetTop('Notes', 'What the figures mean, how they are worked out, and where the methods come from.'),
    label('A4', 'Layout', 'label'),
    label(LAYOUT_CELL, LAYOUT_VERSION, 'integer'),
    label('A5', 'Days that it holds', 'label'),
    label(DAYS_CELL, shape.days, 'integer'),
    label('A6', 'Assumptions', 'section'),
  ];
  let row = 7;
  for (const [topic, text] of ASSUMPTIONS) {
    cells.push(
      label(`A${row}`, topic, 'labelStrong'),
      label(`B${row}`, text, 'labelWrap', { mergeTo: `F${row}` }),
    );
    row++;
  }
  row++;
  cells.push(label(`A${row}`, 'Functions of the library', 'section'));
  row++;
  const headers = [
    'Function',
    'What it gives',
    'Arguments, with units',
    'Result',
    'Source',
    'Formula, with its arguments named',
  ];
  headers.forEach((text, i) => {
    cells.push(label(`${'ABCDEF'[i]}${row}`, text, 'headerLeft'));
  });
  row++;
  for (const described of describedFunctions) {
    const names = described.arguments.map((argument) => argument.name);
    const argumentText = described.arguments
      .map(
        (argument) => `${argument.name} (${argument.unit})${argument.optional === true ? ', optional' : ''}`,
      )
      .join('; ');
    const texts = [
      described.name,
      described.summary,
      argumentText,
      `${described.result.description} (${described.result.unit})`,
      described.source,
      described.formula === undefined ? 'no native formula; in the library only' : described.formula(names),
    ];
    texts.forEach((text, i) => {
      cells.push(
        label(`${'ABCDEF'[i]}${row}`, text, i === 0 ? 'labelStrong' : i === 5 ? 'hintWrap' : 'labelWrap'),
      );
    });
    row++;
  }
  return {
    name: SHEETS.notes,
    tab: 'notes',
    widths: { A: 28, B: 40, C: 44, D: 34, E: 34, F: 60 },
    heights: Object.fromEntries(ASSUMPTIONS.map((_, i) => [7 + i, 34])),
    protected: true,
    landscape: true,
    cells,
    formulaColumns: [],
    inputColumns: [],
    conditional: [],
  };
}
