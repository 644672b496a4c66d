import { InputError } from '../errors.js';

/**
 * Refuses rows that are no half-hours one after the other: power is a limit of each of them, and order counts. Autumn may
 * say its two half-hours twice, spring may leave two out, and so may readings with a gap.
 *
 * @param localStart wall-clock start of each row, spreadsheet serial
 * @returns the same starts
 * @throws InputError naming the row that goes back or is no half-hour on, or where most steps are longer
 * @example requireHalfHours(Float64Array.of(46_000, 46_000 + 1 / 48))
 */
export function requireHalfHours(localStart: Float64Array): Float64Array {
  const halfHours = localStart.map((serial) => Math.round(serial * 48 * 1e4) / 1e4);
  let [steps, single] = [0, 0];
  for (let i = 1; i < halfHours.length; i++) {
    const step = halfHours[i]! - halfHours[i - 1]!;
    const isRepeated = step === 0 || (step === -1 && halfHours[i] === halfHours[i - 2]);
    if (step < 0 && !isRepeated) {
      throw new InputError(
        `localStart goes back in row ${i + 1} of the range`,
        'Sort the half-hours by time.',
      );
    }
    if (!Number.isInteger(step)) {
      throw new InputError(
        `localStart goes on by ${Math.round(step * 30)} minutes in row ${i + 1} of the range`,
        'Give half-hours, a row each.',
      );
    }
    if (isRepeated) continue;
    steps++;
    if (step === 1) single++;
  }
  if (2 * single < steps) {
    throw new InputError(
      `localStart has ${steps - single} steps of more than half an hour in ${steps}`,
      'Give half-hours, a row each: power is a limit for each of them.',
    );
  }
  return localStart;
}
