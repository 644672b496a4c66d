import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { halfHourCalendar } from '../../../src/time/half-hour-calendar.js';
import { movedLoad } from '../../../src/timers/moved-load.js';
import { netWithTimers } from '../../../src/timers/net-with-timers.js';
import { sessionsOf } from '../../../src/timers/sessions.js';
import { type Case, type Rows, randomRows, type TimerCase, workingsCase } from '../workings/workings-case.js';
import { FLAT, PLACES } from './timer-homes.js';

const DAYS = 12;
const NONE = new Float64Array(0);

const caseArbitrary = fc.record({
  place: fc.constantFrom(...PLACES),
  seed: fc.integer({ min: 1, max: 1_000_000 }),
  from: fc.integer({ min: 0, max: 47 }),
  length: fc.integer({ min: 1, max: 47 }),
  powerKw: fc.constantFrom(1, 3.6, 7.2),
});
type Drawn = typeof caseArbitrary extends fc.Arbitrary<infer T> ? T : never;

const minutes = (slot: number): number => slot * 30;
function timerOf({ from, length, powerKw }: Drawn, isOn = true) {
  const to = (from + length) % 48 === 0 ? 48 : (from + length) % 48;
  const cells: TimerCase = { isOn: isOn ? 'yes' : 'no', from: from / 48, to: to / 48, powerKw };
  const hours = { fromMinutes: minutes(from), toMinutes: minutes(to) };
  return { cells, timer: { isOn, hours, powerKw } };
}

/** A column of the grid in the order of the readings by time. */
function byTime({ workings, numbers }: Case, column: 'importKwh' | 'exportKwh' | 'carChangeKwh', rows: Rows) {
  const rowOf = numbers(workings.halfHours.readingRow);
  const values = numbers(workings.halfHours[column]);
  const inOrder = new Float64Array(rows.startUtcMs.length).fill(Number.NaN);
  rowOf.forEach((row, i) => {
    if (row > 0) inOrder[row - 1] = values[i]!;
  });
  return inOrder;
}

function expectClose(found: ArrayLike<number>, expected: ArrayLike<number>): void {
  expect(found.length).toBe(expected.length);
  for (let i = 0; i < found.length; i++) {
    if (!(Math.abs(found[i]! - expected[i]!) < 1e-9)) {
      throw new Error(`half-hour ${i}: ${found[i]}, expected ${expected[i]}`);
    }
  }
}

describe('the car with its timer, on the grid', () => {
  it('imports and exports what the library says, in zones whose clocks change', () => {
    fc.assert(
      fc.property(caseArbitrary, (drawn) => {
        const rows = randomRows(drawn.seed, drawn.place.zone, drawn.place.first, DAYS);
        const { cells, timer } = timerOf(drawn);
        const found = workingsCase(rows, [FLAT], { days: DAYS, timers: { car: cells } });
        const { localSerial } = halfHourCalendar(rows.startUtcMs, rows.zone);
        const loadKwh = rows.channels.carKwh ?? NONE;
        const { movedKwh } = movedLoad({ localSerial, loadKwh }, timer);
        expectClose(
          byTime(found, 'carChangeKwh', rows),
          movedKwh.map((kwh, i) => kwh - loadKwh[i]!),
        );
        const net = netWithTimers(
          { importKwh: rows.channels.importKwh ?? NONE, exportKwh: rows.channels.exportKwh ?? NONE },
          [{ loadKwh, movedKwh }],
        );
        expectClose(byTime(found, 'importKwh', rows), net.importKwh);
        expectClose(byTime(found, 'exportKwh', rows), net.exportKwh);
      }),
      { seed: 12, numRuns: 40 },
    );
  });

  it('keeps the kWh of every session, gaps or none, and leaves sessions with a gap in their hours alone', () => {
    fc.assert(
      fc.property(caseArbitrary, (drawn) => {
        const rows = randomRows(drawn.seed, drawn.place.zone, drawn.place.first, DAYS, 0.02);
        const found = workingsCase(rows, [FLAT], { days: DAYS, timers: { car: timerOf(drawn).cells } });
        const change = byTime(found, 'carChangeKwh', rows);
        const { localSerial } = halfHourCalendar(rows.startUtcMs, rows.zone);
        for (const { first, end } of sessionsOf(localSerial)) {
          const sum = change.subarray(first, end).reduce((total, kwh) => total + kwh, 0);
          expect(Math.abs(sum)).toBeLessThan(1e-9);
        }
      }),
      { seed: 13, numRuns: 20 },
    );
  });

  it('is as it was, bit for bit, with the timer off', () => {
    fc.assert(
      fc.property(caseArbitrary, (drawn) => {
        const rows = randomRows(drawn.seed, drawn.place.zone, drawn.place.first, DAYS, 0.02);
        const off = workingsCase(rows, [FLAT], { days: DAYS, timers: { car: timerOf(drawn, false).cells } });
        const none = workingsCase(rows, [FLAT], { days: DAYS });
        for (const column of ['importKwh', 'exportKwh', 'usedKwh', 'carKwh', 'heatPumpKwh'] as const) {
          expect(off.numbers(off.workings.halfHours[column])).toEqual(
            none.numbers(none.workings.halfHours[column]),
          );
        }
        expect([...byTime(off, 'importKwh', rows)]).toEqual([...(rows.channels.importKwh ?? NONE)]);
        expect([...byTime(off, 'exportKwh', rows)]).toEqual([...(rows.channels.exportKwh ?? NONE)]);
      }),
      { seed: 14, numRuns: 10 },
    );
  });

  it('does not depend on the order of the readings', () => {
    // Autumn's repeated half-hours are told apart by their order alone: spring.
    const drawn: Drawn = { place: PLACES[0], seed: 5, from: 47, length: 12, powerKw: 3.6 };
    const rows = randomRows(drawn.seed, drawn.place.zone, drawn.place.first, DAYS);
    const last = rows.startUtcMs.length - 1;
    const timers = { car: timerOf(drawn).cells };
    const forwards = workingsCase(rows, [FLAT], { days: DAYS, timers });
    const order = Array.from(rows.startUtcMs, (_, i) => last - i);
    const backwards = workingsCase(rows, [FLAT], { days: DAYS, timers, order });
    expectClose(
      backwards.numbers(backwards.workings.halfHours.importKwh),
      forwards.numbers(forwards.workings.halfHours.importKwh),
    );
  });
});
