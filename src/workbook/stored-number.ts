import type { FormulaValue } from './model/sheet-model.js';

/** Digits that a stored value keeps in long columns: far below what any figure shows, and a third less to store. */
const DIGITS = 12;

/**
 * A value as it is stored beside a formula of a long column.
 *
 * @param value as worked out
 * @returns the same to twelve digits; a spreadsheet program works it out in full whenever it calculates
 */
export function storedNumber(value: FormulaValue): FormulaValue {
  return typeof value === 'number' && !Number.isInteger(value) ? Number(value.toPrecision(DIGITS)) : value;
}
