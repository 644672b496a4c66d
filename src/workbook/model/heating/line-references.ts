import type { LineReferences } from '../../../heating/comparison/heating-line.js';
import { figureName, findFigureRow } from './heating-figures-rows.js';
import { findMonthLetters } from './heating-months-rows.js';
import { GAS_LINE_LETTERS, gasName, heatingMonthName } from './heating-rows.js';

/**
 * Where the lines of the comparison find each other in the workbook.
 *
 * @param rowLetters letters of the cells in the line's own row, by key; none for a single figure
 * @param row row of the line
 */
export function lineReferences(
  rowLetters: (key: string) => string | undefined = () => undefined,
  row = 0,
): LineReferences {
  return {
    cell: (key) => {
      const letters = rowLetters(key);
      return letters === undefined ? figureName(key) : `$${letters}${row}`;
    },
    column: (key) => (GAS_LINE_LETTERS[key] === undefined ? heatingMonthName(key) : gasName(key)),
  };
}

/** References of a row of the heating months sheet. */
export const monthReferences = (row: number): LineReferences =>
  lineReferences((key) => (findFigureRow(key) === undefined ? findMonthLetters(key) : undefined), row);
/** References of a row of the gas sheet. */
export const gasReferences = (row: number): LineReferences =>
  lineReferences((key) => GAS_LINE_LETTERS[key], row);
