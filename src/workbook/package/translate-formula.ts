import { type CellPosition, parseCellRef } from './cell-reference.js';
import { MovableFormula } from './movable-formula.js';

function position(cell: string | CellPosition): CellPosition {
  return typeof cell === 'string' ? parseCellRef(cell) : cell;
}

/**
 * A formula as it reads after being copied from one cell to another.
 *
 * @param formula formula of A1 style, without the equals sign
 * @param fromCell the cell that it stands in, for example `B2`
 * @param toCell the cell that it is copied to
 * @returns the formula with its relative references moved; `#REF!` where one would leave the sheet
 * @throws RangeError when a cell's name can't be read
 * @example translateFormula('$A2*LOG10(B$1)', 'C2', 'D5') // '$A5*LOG10(C$1)'
 */
export function translateFormula(
  formula: string,
  fromCell: string | CellPosition,
  toCell: string | CellPosition,
): string {
  return new MovableFormula(formula, position(fromCell)).at(position(toCell));
}
