import { FormulaError } from '../values.js';
import { type FormulaFunction, ofAllNumbers, ofNumbers } from './describe.js';

/**
 * Rounds half away from zero, on the shortest decimal text of the number, as spreadsheet programs do.
 *
 * @param value any finite number
 * @param digits digits after the point, 0 or more
 * @returns the rounded number
 * @example roundDecimal(2.675, 2) // 2.68
 */
export function roundDecimal(value: number, digits: number): number {
  // Shifts the point in the decimal text: multiplying would bring in binary noise.
  const shifted = shiftPoint(Math.abs(value), digits);
  if (!Number.isFinite(shifted)) return value;
  const rounded = shiftPoint(Math.round(shifted), -digits);
  return value < 0 ? -rounded + 0 : rounded;
}

function shiftPoint(value: number, places: number): number {
  const [digits = '0', exponent = '0'] = String(value).split('e');
  return Number(`${digits}e${Number(exponent) + places}`);
}

export const MATHS: Record<string, FormulaFunction> = {
  ABS: ofNumbers((x = 0) => Math.abs(x)),
  INT: ofNumbers((x = 0) => Math.floor(x)),
  MOD: ofNumbers((x = 0, by = 0) => (by === 0 ? FormulaError.divisionByZero : x - by * Math.floor(x / by))),
  ROUND: ofNumbers((x = 0, digits = 0) => roundDecimal(x, Math.trunc(digits))),
  ROUNDUP: ofNumbers((x = 0, digits = 0) => {
    const step = 10 ** -Math.trunc(digits);
    return Math.sign(x) * Math.ceil(Math.abs(x) / step) * step;
  }),
  SQRT: ofNumbers((x = 0) => (x < 0 ? FormulaError.number : Math.sqrt(x))),
  EXP: ofNumbers((x = 0) => Math.exp(x)),
  SUM: ofAllNumbers((numbers) => numbers.reduce((sum, number) => sum + number, 0)),
  MIN: ofAllNumbers((numbers) => numbers.reduce((least, number) => Math.min(least, number), numbers[0] ?? 0)),
  MAX: ofAllNumbers((numbers) => numbers.reduce((most, number) => Math.max(most, number), numbers[0] ?? 0)),
  AVERAGE: ofAllNumbers((numbers) =>
    numbers.length === 0
      ? FormulaError.divisionByZero
      : numbers.reduce((sum, number) => sum + number, 0) / numbers.length,
  ),
};
