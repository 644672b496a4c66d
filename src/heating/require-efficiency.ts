import { InputError } from '../errors.js';

/** A figure on the net calorific value can pass 1; what is far above is a percentage typed as a number. */
const HIGHEST = 1.2;

/**
 * Checks an efficiency given as a share.
 *
 * @param value share of the gas energy that becomes useful heat, 0–1
 * @param name name of the argument
 * @returns the same number
 * @throws InputError when it is not above 0 and at most 1.2
 * @example requireEfficiency(0.9, 'boilerEfficiency') // 0.9
 */
export function requireEfficiency(value: number, name: string): number {
  if (value > 0 && value <= HIGHEST) return value;
  throw new InputError(`${name} is ${value}`, 'Give a share such as 0.9 (or 90%), not 90.');
}
