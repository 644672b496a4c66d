import { Cells } from '../operands.js';
import { compareValues, FormulaError, toNumber, type Value } from '../values.js';
import { type FormulaFunction, type Operand, single } from './describe.js';

function isSame(value: Value, asked: Exclude<Value, FormulaError>): boolean {
  if (value === null || value instanceof FormulaError || asked === null) return false;
  return typeof value === typeof asked && compareValues(value, asked) === 0;
}

/** Place, from 1, of the last value that is not above the one asked for, in ascending cells. */
function lastNotAbove(cells: Cells, asked: Exclude<Value, FormulaError>): Value {
  let low = 0;
  let high = cells.size - 1;
  let found = -1;
  while (low <= high) {
    const middle = (low + high) >> 1;
    const value = cells.nth(middle);
    const isAbove =
      value === null ||
      value instanceof FormulaError ||
      typeof value !== typeof asked ||
      compareValues(value, asked) > 0;
    if (isAbove) high = middle - 1;
    else {
      found = middle;
      low = middle + 1;
    }
  }
  return found < 0 ? FormulaError.notAvailable : found + 1;
}

function match([asked, cells, kind]: readonly Operand[]): Value {
  const value = single(asked);
  if (value instanceof FormulaError) return value;
  if (cells instanceof FormulaError) return cells;
  if (!(cells instanceof Cells)) return FormulaError.notAvailable;
  const how = kind === undefined ? 1 : toNumber(single(kind));
  if (how instanceof FormulaError) return how;
  if (how > 0) return lastNotAbove(cells, value ?? 0);
  if (how < 0) return FormulaError.notAvailable;
  for (let i = 0; i < cells.size; i++) if (isSame(cells.nth(i), value ?? 0)) return i + 1;
  return FormulaError.notAvailable;
}

export const LOOKUP: Record<string, FormulaFunction> = {
  MATCH: { takes: ['value', 'cells', 'value'], work: match },
};
