import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BATTERY_FUNCTIONS } from '../../src/battery/described.js';
import type { CellArgument } from '../../src/functions/described-function.js';
import { describeTwoFaces } from '../functions/two-faces.js';

const thousandths = (min: number, max: number) =>
  fc.integer({ min: min * 1000, max: max * 1000 }).map((value) => value / 1000);
const roundTrip = fc.tuple(thousandths(-20, 80), thousandths(0.3, 1), thousandths(0, 20));

describeTwoFaces('battery functions', BATTERY_FUNCTIONS, {
  deliveredUnitCost: roundTrip,
  breakEvenSpread: roundTrip,
});

describe('battery functions in cells', () => {
  const schedule = BATTERY_FUNCTIONS.find(({ cellName }) => cellName === 'BATTERY_SCHEDULE')!;
  const withArgument = (index: number, value: CellArgument): CellArgument[] =>
    schedule.example.arguments.map((given, i) => (i === index ? value : given));

  it('take TRUE and FALSE like yes and no', () => {
    const cells = [[1], [4], [4], [0.8], [1], [0], [0], [0], [true], [true], [false]];
    expect(schedule.compute(withArgument(6, cells))).toEqual(schedule.example.result);
  });

  it.each([
    ['a battery cut short', 6, [[1], [2]], 'battery has 2 rows'],
    [
      'a text for a number',
      6,
      [['big'], [4], [4], [0.8], [1], [0], [0], [0], ['yes'], ['yes'], ['no']],
      'battery holds "big" in row 1',
    ],
    [
      'a flag that is neither',
      6,
      [[1], [4], [4], [0.8], [1], [0], [0], [0], ['yes'], ['maybe'], ['no']],
      'battery holds "maybe" in row 10',
    ],
    ['time that runs back', 0, [[46_001], [46_000], [46_000], [46_000]], 'localStart goes back in row 2'],
    ['a column cut short', 1, [[1], [1]], '4'],
    ['a blank', 4, [[8], [null], [40], [40]], 'unitRatePence is blank in row 2'],
  ])('name %s', (_, index, value, message) => {
    expect(() => schedule.compute(withArgument(index, value))).toThrow(message);
  });

  const day = 46_000;
  const starts = (...halfHours: number[]): number[][] => halfHours.map((n) => [day + n / 48]);

  it.each([
    ['rows of hours', starts(0, 2, 4, 6), 'localStart has 3 steps of more than half an hour in 3'],
    ['rows of quarter hours', starts(0, 0.5, 1, 1.5), 'localStart goes on by 15 minutes in row 2'],
    ['rows out of order within a day', starts(0, 3, 1, 2), 'localStart goes back in row 3'],
    ['two rows in the wrong order', starts(1, 0, 2, 3), 'localStart goes back in row 2'],
  ])('refuse %s: power and level are those of half-hours one after the other', (_, rows, message) => {
    expect(() => schedule.compute(withArgument(0, rows))).toThrow(message);
  });

  it.each([
    ['autumn’s repeated hour', starts(2, 3, 2, 3)],
    ['spring’s hour that is left out', starts(0, 1, 4, 5)],
    ['a gap', starts(0, 1, 2, 7)],
  ])('take %s', (_, rows) => {
    expect(schedule.compute(withArgument(0, rows))).toHaveLength(4);
  });

  it('refuse an efficiency in per cent', () => {
    expect(() => BATTERY_FUNCTIONS[0]!.compute([9, 90, 0])).toThrow('round-trip efficiency is 90');
  });
});
