import { TOLD, TOLD_KEYS, type ToldKey } from '../fields/told-places.js';
import { input, label } from './cells.js';
import type { Cell, SheetModel } from './sheet-model.js';

/** Widths of their columns. */
export const TOLD_WIDTHS: SheetModel['widths'] = {
  [TOLD.letters.columns]: 44,
  [TOLD.letters.kind]: 14,
  [TOLD.letters.name]: 18,
  [TOLD.letters.answer]: 50,
  [TOLD.letters.toldFor]: 26,
};
const TOLD_HEADS: Readonly<Record<ToldKey, string>> = {
  columns: 'Columns of the file',
  kind: 'Files of',
  name: 'Called',
  answer: 'What was said',
  toldFor: 'First said of',
};

/** Defined name of the last row's first cell. */
const LAST_TOLD = 'last_told_file';
const TOLD_RULE = {
  kind: 'any',
  title: 'What files were told',
  message: 'Written by the fill. Clear a row, and the next file of that shape is asked about again.',
} as const;

/** What files were told: written by the fill, and read by the next. */
export function toldCells(): Cell[] {
  const rows = Array.from({ length: TOLD.rows }, (_, i) => TOLD.firstRow + i);
  return [
    label(`${TOLD.letters.columns}${TOLD.titleRow}`, 'What files were told', 'section'),
    label(
      `${TOLD.letters.columns}${TOLD.titleRow + 1}`,
      'A fill keeps here what was said of a file, and uses it for the next file of that shape. To forget an answer, clear its row.',
      'hint',
    ),
    ...TOLD_KEYS.map((key) => label(`${TOLD.letters[key]}${TOLD.headRow}`, TOLD_HEADS[key], 'headerLeft')),
    ...rows.flatMap((row) =>
      TOLD_KEYS.map((key) => {
        // By its name it is seen that a row was put in or taken out above.
        const isLast = row === rows.at(-1) && key === TOLD_KEYS[0];
        return input(
          `${TOLD.letters[key]}${row}`,
          null,
          'inputText',
          TOLD_RULE,
          isLast ? { name: LAST_TOLD } : {},
        );
      }),
    ),
  ];
}
