import { describe, expect, it } from 'vitest';
import { localMsToSerial } from '../../../src/time/serial.js';
import { ZoneClock } from '../../../src/time/zone-clock.js';
import { PROBLEM, placeReadings } from '../../../src/workbook/fill/place-readings.js';
import { blankReadings } from '../../../src/workbook/inputs/blank-readings.js';
import { clockTable } from '../../../src/workbook/model/clock-table.js';

const HALF_HOUR_MS = 1_800_000;

/** Half-hours around the change of an autumn, and what the clock shows. */
function autumn(zone: string, first: number): { starts: number[]; shown: number[] } {
  const starts = Array.from({ length: 14 }, (_, i) => first + i * HALF_HOUR_MS);
  const clock = new ZoneClock(zone, starts[0]!, starts.at(-1)!);
  return { starts, shown: starts.map((start) => start + clock.offsetMinutesAt(start) * 60_000) };
}

/** Where rows are placed that hold half-hours in an order, without offsets. */
function placed(
  zone: string,
  shown: readonly number[],
  order: readonly number[],
): { starts: number[]; problems: number[] } {
  const rows = blankReadings(order.length);
  rows.count = order.length;
  order.forEach((place, row) => {
    rows.startSerial[row] = localMsToSerial(shown[place]!);
  });
  const { instantQuarters, problem } = placeReadings(rows, clockTable(zone));
  return {
    starts: Array.from(instantQuarters, (quarters) => (quarters / 96 - 25_569) * 86_400_000).map(Math.round),
    problems: [...problem],
  };
}

describe.each([
  { zone: 'Europe/London', first: Date.UTC(2026, 9, 24, 22) },
  { zone: 'Australia/Lord_Howe', first: Date.UTC(2027, 3, 3, 12) },
])('rows of an autumn night in $zone, without offsets', ({ zone, first }) => {
  const { starts, shown } = autumn(zone, first);
  const places = starts.map((_, i) => i);
  const byClock = (up: 1 | -1): number[] => places.toSorted((a, b) => up * (shown[a]! - shown[b]!) || a - b);
  const isHourRepeated = zone === 'Europe/London';

  it.each<[string, number[]]>([
    ['as time goes by', places],
    ['sorted by what the clock shows, ascending', byClock(1)],
    ['sorted by what the clock shows, descending', byClock(-1)],
    ...(isHourRepeated ? ([['newest first', places.toReversed()]] as [string, number[]][]) : []),
  ])('%s: each is placed at its own time', (_, order) => {
    expect(new Set(shown).size).toBeLessThan(shown.length);
    const { starts: found, problems } = placed(zone, shown, order);
    expect(problems.every((problem) => problem === PROBLEM.none)).toBe(true);
    expect(found).toEqual(order.map((place) => starts[place]));
  });

  it('in any order: none is lost or placed twice', () => {
    for (const step of [3, 5, 9, 11, 13]) {
      const order = places.map((i) => (i * step) % places.length);
      const { starts: found, problems } = placed(zone, shown, order);
      expect(problems.every((problem) => problem === PROBLEM.none)).toBe(true);
      expect(found.toSorted((a, b) => a - b)).toEqual(starts);
    }
  });

  it('a half-hour that is missing leaves the others where they were', () => {
    for (const missing of places) {
      const order = places.filter((place) => place !== missing);
      const { starts: found, problems } = placed(zone, shown, order);
      expect(problems.every((problem) => problem === PROBLEM.none)).toBe(true);
      // Of twins of which one is missing, only neighbours tell which it was.
      const isTwin = shown.indexOf(shown[missing]!) !== shown.lastIndexOf(shown[missing]!);
      if (!isTwin) expect(found).toEqual(order.map((place) => starts[place]));
    }
  });
});
