import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { halfHoursWithoutReadings } from '../../src/readings/without-readings.js';

const DAY = 46_296;
const HALF_HOURS = 96;
const starts = Array.from({ length: HALF_HOURS }, (_, i) => DAY + i / 48);
const read = new Array<number>(HALF_HOURS).fill(0.1);
const TENTH = { halfHours: 10, firstSerial: DAY + 10 / 48 };
const blank = (from: number, to: number): number[] => read.slice().fill(Number.NaN, from, to);

describe('half-hours in which a battery ran, without its channels', () => {
  it.each([
    ['none where both are there', read, read, read, {}],
    ['in the middle', read, blank(10, 20), blank(10, 20), { since: TENTH }],
    ['without what it took', read, blank(10, 20), read, { since: TENTH }],
    ['without what it gave', read, read, blank(10, 20), { since: TENTH }],
    ['at the end', read, blank(48, 96), blank(48, 96), { since: { halfHours: 48, firstSerial: DAY + 1 } }],
    ['before its first', read, blank(0, 48), blank(0, 48), { before: { halfHours: 48, firstSerial: DAY } }],
    [
      'before and after',
      read,
      blank(0, 20),
      read.slice().fill(Number.NaN, 0, 10),
      { before: { halfHours: 10, firstSerial: DAY }, since: TENTH },
    ],
    ['none where it has no reading', read, blank(0, 96), blank(0, 96), {}],
    ['none where it has none of one channel, which is told elsewhere', read, blank(0, 96), read, {}],
    ['none where nothing was metered', blank(10, 20), blank(10, 20), blank(10, 20), {}],
  ])('are told: %s', (_, importKwh, into, out, told) => {
    expect(halfHoursWithoutReadings(starts, importKwh, [into, out])).toEqual(told);
  });

  it('are the same in whatever order the rows stand', () => {
    const kwh = fc.constantFrom(Number.NaN, 0, 0.3);
    const rows = fc.array(fc.tuple(kwh, kwh, kwh), { minLength: HALF_HOURS, maxLength: HALF_HOURS });
    const order = fc.shuffledSubarray([...starts.keys()], { minLength: HALF_HOURS });
    fc.assert(
      fc.property(rows, order, (values, places) => {
        const told = (at: readonly number[]) =>
          halfHoursWithoutReadings(
            at.map((i) => starts[i]!),
            at.map((i) => values[i]![0]),
            [at.map((i) => values[i]![1]), at.map((i) => values[i]![2])],
          );
        expect(told(places)).toEqual(told([...starts.keys()]));
      }),
    );
  });
});

describe('half-hours that lack the reading of a channel, from the day after its first', () => {
  const sinceDayAfter = (channel: readonly number[]) =>
    halfHoursWithoutReadings(starts, read, [channel], 'day after').since;

  it.each([
    ['none on the day of its first', blank(10, 20), undefined],
    ['on the next day', blank(50, 60), { halfHours: 10, firstSerial: DAY + 50 / 48 }],
    ['from its midnight on', blank(40, 52), { halfHours: 4, firstSerial: DAY + 1 }],
    ['none where it has no reading', blank(0, 96), undefined],
    ['none where its first is on the last day', blank(0, 60), undefined],
  ])('are told: %s', (_, channel, told) => {
    expect(sinceDayAfter(channel)).toEqual(told);
  });

  it('are the same where a midnight is a hair less than a whole number', () => {
    const hair = starts.map((start) => start - 1e-9);
    const { since } = halfHoursWithoutReadings(hair, read, [blank(40, 52)], 'day after');
    expect(since?.halfHours).toBe(4);
    expect(halfHoursWithoutReadings(hair, read, [blank(0, 48)], 'day after').since).toBeUndefined();
  });
});
