import type { FormulaValue } from './model/sheet-model.js';

/** Digits that a stored value keeps in long columns: far below what any figure shows, and a third less to store. */
const DIGITS = 12;
/** From here on a number may be a time: twelve digits of it are milliseconds off, which a program shows as the minute before. */
const DATES = 10_000;

/**
 * A value as it is stored beside a formula of a long column.
 *
 * @param value as worked out
 * @returns the same to twelve digits, in full where it may be a time; a spreadsheet program works it out in full whenever it calculates
 */
export function storedNumber(value: FormulaValue): FormulaValue {
  if (typeof value !== 'number' || Number.isInteger(value) || Math.abs(value) >= DATES) return value;
  return Number(value.toPrecision(DIGITS));
}
