import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CellArgument } from '../../src/functions/described-function.js';
import { TIMER_FUNCTIONS } from '../../src/timers/described.js';
import { describeTwoFaces } from '../functions/two-faces.js';

const thousandths = (min: number, max: number) =>
  fc.integer({ min: min * 1000, max: max * 1000 }).map((value) => value / 1000);

/** kWh that fit, often to the last half-hour; few rates, so that many are equal. */
const session = fc
  .tuple(
    fc.integer({ min: 5, max: 110 }).map((tenths) => tenths / 10),
    fc.array(fc.oneof(fc.constantFrom(7.5, 9, 24.86), thousandths(-10, 60)), { minLength: 1, maxLength: 14 }),
    fc.oneof(fc.integer({ min: 0, max: 14 }), thousandths(0, 14)),
  )
  .map(([kw, rates, halfHours]): CellArgument[] => [
    (Math.min(halfHours, rates.length) * kw) / 2,
    kw,
    rates.map((rate) => [rate]),
  ]);

describeTwoFaces('timer functions', TIMER_FUNCTIONS, { leastCostOfSession: session });

describe('timer functions in cells', () => {
  const hours = TIMER_FUNCTIONS.find(({ cellName }) => cellName === 'CHEAPEST_HOURS')!;
  const withArgument = (index: number, value: CellArgument): CellArgument[] =>
    hours.example.arguments.map((given, i) => (i === index ? value : given));

  it('take times of day that lost their last digits', () => {
    expect(hours.compute(withArgument(4, 0.062_499_9))).toBe(hours.example.result);
  });

  it.each([
    ['a time off the half-hour', 3, 0.26, 'allowedFrom is 0.26'],
    ['a date for a time', 4, 46_000, 'allowedTo is 46000'],
    ['hours without length', 4, 0, 'allowedFrom and allowedTo are the same'],
    ['a start at the end of the day', 3, 1, 'allowedFrom is 24:00'],
    ['a blank power', 5, null, 'powerKw is blank'],
    ['a power of nothing', 5, 0, "the load's power is 0 kW"],
    [
      'time that runs back',
      0,
      [[46_001], [46_000], [46_000], [46_000], [46_000]],
      'localStart goes back in row 2',
    ],
    ['a column cut short', 1, [[1], [1]], 'loadKwh has 2 half-hours and localStart 5'],
    ['a blank rate', 2, [[30], [null], [20], [8], [8]], 'unitRatePence is blank in row 2'],
    ['a negative energy', 1, [[3], [-2], [0], [0], [0]], 'loadKwh is -2 in half-hour 2'],
  ])('name %s', (_, index, value, message) => {
    expect(() => hours.compute(withArgument(index, value))).toThrow(message);
  });
});
