import { InputError } from '../errors.js';

/** What a number must be. */
export interface NumberLimits {
  /** Smallest value allowed. */
  min?: number;
  /** Value that must be exceeded. */
  above?: number;
  /** Largest value allowed. */
  max?: number;
}

/**
 * Checks one number of a function's input.
 *
 * @param value the number, any unit
 * @param name name of the argument, with its unit
 * @param limits what the number must be
 * @param whatToDo advice for the message
 * @returns the same number
 * @throws InputError when it is no finite number or outside the limits
 * @example requireNumber(28.71, 'unitRatePence', { above: 0 }) // 28.71
 */
export function requireNumber(
  value: number,
  name: string,
  limits: NumberLimits = {},
  whatToDo?: string,
): number {
  const must = [
    limits.above === undefined ? '' : `above ${limits.above}`,
    limits.min === undefined ? '' : `at least ${limits.min}`,
    limits.max === undefined ? '' : `at most ${limits.max}`,
  ].filter((part) => part !== '');
  const wrong =
    !Number.isFinite(value) ||
    (limits.above !== undefined && value <= limits.above) ||
    (limits.min !== undefined && value < limits.min) ||
    (limits.max !== undefined && value > limits.max);
  if (wrong) {
    const advice = must.length === 0 ? 'Give a number.' : `Give a number ${must.join(' and ')}.`;
    throw new InputError(`${name} is ${value}`, whatToDo ?? advice);
  }
  return value;
}

/**
 * Checks an efficiency given as a share.
 *
 * @param value share of the gas energy that becomes useful heat, 0–1
 * @param name name of the argument
 * @returns the same number
 * @throws InputError when it is not above 0 and at most 1.2 (a net-calorific figure can pass 1)
 * @example requireEfficiency(0.9, 'boilerEfficiency') // 0.9
 */
export function requireEfficiency(value: number, name: string): number {
  return requireNumber(value, name, { above: 0, max: 1.2 }, 'Give a share such as 0.9 (or 90%), not 90.');
}
