import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { importFiles } from '../../src/readings/import-files.js';
import { halfHourCalendar } from '../../src/time/half-hour-calendar.js';
import { serialToLocalMs } from '../../src/time/serial.js';
import { movedLoad } from '../../src/timers/moved-load.js';
import type { MovableLoad, Timer } from '../../src/timers/timer.js';
import { anyTimer, kwhBySession, startsFrom, weekLoad } from './random-weeks.js';

const NIGHT: Timer = { isOn: true, hours: { fromMinutes: 30, toMinutes: 270 }, powerKw: 7 };

/** A load from a London noon on that takes kWh at the places given. */
function loadFrom(noonUtcMs: number, count: number, kwhAt: Record<number, number>): MovableLoad {
  const loadKwh = new Float64Array(count);
  for (const [at, kwh] of Object.entries(kwhAt)) loadKwh[Number(at)] = kwh;
  return { localSerial: startsFrom('Europe/London', noonUtcMs, count), loadKwh };
}

/** The half-hours with kWh, as `[clock, kWh]`. */
function taken(load: MovableLoad, kwh: Float64Array): [string, number][] {
  return [...kwh].flatMap((each, i): [string, number][] =>
    each === 0 ? [] : [[new Date(serialToLocalMs(load.localSerial[i]!)).toISOString().slice(11, 16), each]],
  );
}

describe('a load with a timer', () => {
  it('charged at tea-time starts with the hours and runs at its power until it is done', () => {
    const load = loadFrom(Date.UTC(2026, 0, 5, 12), 48, { 12: 3.5, 13: 3.5, 14: 1 });
    const moved = movedLoad(load, NIGHT);
    expect(taken(load, moved.movedKwh)).toEqual([
      ['00:30', 3.5],
      ['01:00', 3.5],
      ['01:30', 1],
    ]);
    expect(moved).toMatchObject({ staysKwh: 0, shortSessions: 0, sessions: 1 });
  });

  it('keeps what does not fit at the hours it was metered, each its share, and counts it', () => {
    const load = loadFrom(Date.UTC(2026, 0, 5, 12), 48, { 12: 3, 14: 1 });
    const moved = movedLoad(load, { ...NIGHT, hours: { fromMinutes: 1410, toMinutes: 30 }, powerKw: 2 });
    expect(taken(load, moved.movedKwh)).toEqual([
      ['18:00', 1.5],
      ['19:00', 0.5],
      ['23:30', 1],
      ['00:00', 1],
    ]);
    expect(moved).toMatchObject({ staysKwh: 2, shortSessions: 1 });
  });

  it('moves nothing where more was metered within the hours than they hold at this power', () => {
    const load = loadFrom(Date.UTC(2026, 0, 5, 12), 48, { 12: 1, 25: 3.5, 26: 3.5 });
    const moved = movedLoad(load, { ...NIGHT, hours: { fromMinutes: 30, toMinutes: 90 }, powerKw: 6 });
    expect(moved.movedKwh).toEqual(load.loadKwh);
    expect(moved).toMatchObject({ staysKwh: 1, shortSessions: 1 });
  });

  it('has two half-hours more in the night in which the clock goes back, and two fewer in spring', () => {
    const hours = { fromMinutes: 60, toMinutes: 120 };
    const timer = { ...NIGHT, hours, powerKw: 4 };
    const autumn = loadFrom(Date.UTC(2026, 9, 24, 11), 50, { 12: 8 });
    expect(taken(autumn, movedLoad(autumn, timer).movedKwh)).toEqual([
      ['01:00', 2],
      ['01:30', 2],
      ['01:00', 2],
      ['01:30', 2],
    ]);
    const spring = loadFrom(Date.UTC(2026, 2, 28, 12), 46, { 12: 3 });
    const moved = movedLoad(spring, timer);
    expect(moved.movedKwh).toEqual(spring.loadKwh);
    expect(moved).toMatchObject({ staysKwh: 3, shortSessions: 1 });
  });

  it('fills hours that span noon from noon on: a session ends there', () => {
    const load = loadFrom(Date.UTC(2026, 0, 5, 12), 48, { 12: 3 });
    const moved = movedLoad(load, { ...NIGHT, hours: { fromMinutes: 690, toMinutes: 750 }, powerKw: 4 });
    expect(taken(load, moved.movedKwh)).toEqual([
      ['12:00', 2],
      ['11:30', 1],
    ]);
  });

  it('that is off gives the same figures, bit for bit', () => {
    fc.assert(
      fc.property(weekLoad, anyTimer, (load, timer) => {
        const moved = movedLoad(load, { ...timer, isOn: false });
        expect(moved.movedKwh).toEqual(load.loadKwh);
        expect(moved).toMatchObject({ staysKwh: 0, shortSessions: 0 });
      }),
      { seed: 1, numRuns: 30 },
    );
  });

  it('has the kWh that it had in every session, also in nights of 46 and 50 half-hours', () => {
    fc.assert(
      fc.property(weekLoad, anyTimer, (load, timer) => {
        const { movedKwh } = movedLoad(load, timer);
        const before = kwhBySession(load.localSerial, load.loadKwh);
        for (const [session, kwh] of kwhBySession(load.localSerial, movedKwh)) {
          expect(kwh).toBeCloseTo(before.get(session)!, 8);
        }
      }),
      { seed: 2, numRuns: 200 },
    );
  });

  it('never runs above its power where it moved, nor outside the hours more than was metered there', () => {
    fc.assert(
      fc.property(weekLoad, anyTimer, (load, timer) => {
        const { movedKwh } = movedLoad(load, timer);
        let excess = 0;
        for (const [i, kwh] of movedKwh.entries()) {
          const metered = load.loadKwh[i]!;
          const minutes = Math.round((load.localSerial[i]! % 1) * 1440) % 1440;
          const { fromMinutes, toMinutes } = timer.hours;
          const after = minutes >= fromMinutes;
          const before = minutes < toMinutes;
          const isWithin = fromMinutes < toMinutes ? after && before : after || before;
          const most = isWithin ? timer.powerKw / 2 : metered;
          if (kwh !== metered) excess = Math.max(excess, -kwh, kwh - most);
        }
        expect(excess).toBeLessThan(1e-9);
      }),
      { seed: 3, numRuns: 200 },
    );
  });

  it('counts as staying just what is outside the hours afterwards', () => {
    fc.assert(
      fc.property(weekLoad, anyTimer, (load, timer) => {
        const moved = movedLoad(load, timer);
        const again = movedLoad({ ...load, loadKwh: moved.movedKwh }, timer);
        expect(again.staysKwh).toBeCloseTo(moved.staysKwh, 7);
        expect(again.shortSessions).toBe(moved.shortSessions);
        const change = again.movedKwh.map((kwh, i) => Math.abs(kwh - moved.movedKwh[i]!));
        expect(Math.max(...change)).toBeLessThan(1e-7);
      }),
      { seed: 4, numRuns: 100 },
    );
  });

  it('is the same whatever the order of the files', () => {
    const day = (date: string, at: string, kwh: number) => ({
      name: `${date}.csv`,
      bytes: new TextEncoder().encode(
        `Start,Import (kWh),Car (kWh)\n${Array.from({ length: 48 }, (_, i) => {
          const clock = `${String(Math.floor(i / 2)).padStart(2, '0')}:${i % 2 === 0 ? '00' : '30'}`;
          return `${date} ${clock},${kwh + 1},${clock >= at && clock < '20:00' ? kwh : 0}\n`;
        }).join('')}`,
      ),
    });
    const files = [
      day('2026-01-05', '18:00', 3.1),
      day('2026-01-06', '19:00', 2.7),
      day('2026-01-07', '17:30', 1.3),
    ];
    const movedIn = (order: number[]): Float64Array => {
      const { readings } = importFiles(
        order.map((k) => files[k]!),
        { timeZone: 'Europe/London' },
      );
      const { localSerial } = halfHourCalendar(readings.startUtcMs, readings.timeZone);
      return movedLoad({ localSerial, loadKwh: readings.channels.carKwh! }, NIGHT).movedKwh;
    };
    const moved = movedIn([0, 1, 2]);
    expect(moved).toHaveLength(144);
    expect(moved.some((kwh) => kwh > 3)).toBe(true);
    for (const order of [
      [2, 1, 0],
      [1, 2, 0],
      [0, 2, 1],
    ])
      expect(movedIn(order)).toEqual(moved);
  });

  it.each([
    ['a power of nothing', { powerKw: 0 }, "the load's power is 0 kW"],
    ['a time off the half-hour', { hours: { fromMinutes: 15, toMinutes: 60 } }, '"from" is 15 minutes'],
    ['an end beyond midnight', { hours: { fromMinutes: 30, toMinutes: 1470 } }, '"to" is 1470 minutes'],
    ['hours without length', { hours: { fromMinutes: 60, toMinutes: 60 } }, 'they end as they start'],
  ])('refuses %s', (_, wrong, message) => {
    const load = loadFrom(Date.UTC(2026, 0, 5, 12), 4, {});
    expect(() => movedLoad(load, { ...NIGHT, ...wrong })).toThrow(message);
  });

  it('refuses energies that are missing or negative, by their half-hour', () => {
    const localSerial = startsFrom('Europe/London', Date.UTC(2026, 0, 5), 2);
    const of =
      (...loadKwh: number[]) =>
      () =>
        movedLoad({ localSerial, loadKwh: Float64Array.from(loadKwh) }, NIGHT);
    expect(of(1, Number.NaN)).toThrow('loadKwh is NaN in half-hour 2');
    expect(of(-1, 0)).toThrow('loadKwh is -1 in half-hour 1');
    expect(of(1)).toThrow('loadKwh has 1 half-hours and localStart 2');
  });
});
