import type { CellPosition } from './cell-reference.js';
import { normaliseFormula } from './normalise-formula.js';
import { relativeFormula } from './relative-formula.js';

/**
 * A formula in a form that is the same in every cell of a column that it was copied down, whichever program saved it.
 *
 * @param formula formula of A1 style, without the equals sign
 * @param cell the cell that it stands in
 * @returns its comparable form; equal forms are the same formula
 * @example comparableFormula('a2 * $B$1', 'C2') === comparableFormula('A3*$B$1', 'C3') // true
 */
export function comparableFormula(formula: string, cell: string | CellPosition): string {
  return normaliseFormula(relativeFormula(formula, cell));
}
