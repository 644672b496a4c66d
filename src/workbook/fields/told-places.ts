import { SHEETS } from '../layout.js';

/** Where a workbook keeps what files were told: a row an answer, below the facts of the home. */
export const TOLD = {
  sheet: SHEETS.home,
  headRow: 15,
  firstRow: 16,
  rows: 40,
  letters: { columns: 'B', kind: 'C', name: 'D', answer: 'E', toldFor: 'F' },
} as const;

/** Columns of these rows. */
export type ToldKey = keyof typeof TOLD.letters;
export const TOLD_KEYS = Object.keys(TOLD.letters) as ToldKey[];
