import { SHEETS } from '../layout.js';

/**
 * Where a workbook keeps what files were told: a row an answer. Not on Readings, where people insert columns and sort rows.
 */
export const TOLD = {
  sheet: SHEETS.notes,
  titleRow: 40,
  headRow: 42,
  firstRow: 43,
  rows: 40,
  letters: { columns: 'E', kind: 'F', name: 'G', answer: 'H', toldFor: 'I' },
} as const;

/** Columns of these rows. */
export type ToldKey = keyof typeof TOLD.letters;
export const TOLD_KEYS = Object.keys(TOLD.letters) as ToldKey[];
