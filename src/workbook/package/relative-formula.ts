import { type CellPosition, parseCellRef } from './cell-reference.js';
import { MovableFormula } from './movable-formula.js';

/**
 * A formula with its references written as distances: cells of a column that hold "the same" formula give the same
 * text, so that a whole column is compared with one definition.
 *
 * @param formula formula of A1 style, without the equals sign
 * @param cell the cell that it stands in
 * @returns the formula with references of R1C1 style
 * @example relativeFormula('A2*$B$1', 'C2') // 'R[0]C[-2]*R1C2'
 */
export function relativeFormula(formula: string, cell: string | CellPosition): string {
  return new MovableFormula(formula, typeof cell === 'string' ? parseCellRef(cell) : cell).relative();
}
