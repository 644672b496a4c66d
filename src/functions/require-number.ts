import { InputError } from '../errors.js';

/**
 * Checks one number of a function's input.
 *
 * @param value the number
 * @param name name of the argument, with its unit
 * @param min smallest value allowed
 * @returns the same number
 * @throws InputError when it is no finite number or too small
 * @example requireNumber(2700, 'kwh', 0) // 2700
 */
export function requireNumber(value: number, name: string, min = Number.NEGATIVE_INFINITY): number {
  if (Number.isFinite(value) && value >= min) return value;
  const advice = Number.isFinite(min) ? `Give a number of at least ${min}.` : 'Give a number.';
  throw new InputError(`${name} is ${value}`, advice);
}

/**
 * Checks a number that something is divided by.
 *
 * @param value the number
 * @param name name of the argument, with its unit
 * @returns the same number
 * @throws InputError when it is no finite number above 0
 * @example requirePositive(2700, 'kwh') // 2700
 */
export function requirePositive(value: number, name: string): number {
  if (Number.isFinite(value) && value > 0) return value;
  throw new InputError(`${name} is ${value}`, 'Give a number above 0.');
}

/**
 * Checks that two columns have the same length and no gaps.
 *
 * @param first one number an interval
 * @param firstName its argument's name
 * @param second one number an interval
 * @param secondName its argument's name
 * @throws InputError when the lengths differ or a value is missing (NaN)
 * @example requireSameLength(times, 'localStart', kwh, 'kwh')
 */
export function requireSameLength(
  first: ArrayLike<number>,
  firstName: string,
  second: ArrayLike<number>,
  secondName: string,
): void {
  if (first.length !== second.length) {
    throw new InputError(
      `${firstName} has ${first.length} rows and ${secondName} has ${second.length}`,
      'Point at ranges of the same length.',
    );
  }
  requireNumbers(first, firstName);
  requireNumbers(second, secondName);
}

/**
 * Checks that a column has no gaps.
 *
 * @param values one number an interval
 * @param name its argument's name
 * @throws InputError naming the first row that is no finite number
 * @example requireNumbers(kwh, 'kwh')
 */
export function requireNumbers(values: ArrayLike<number>, name: string): void {
  for (let row = 0; row < values.length; row++) {
    if (!Number.isFinite(values[row])) {
      throw new InputError(`${name} is missing in row ${row + 1}`, 'Give every row a number.');
    }
  }
}
