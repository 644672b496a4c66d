import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cheapestHours } from '../../src/timers/cheapest-hours.js';
import { loadCost } from '../../src/timers/least-cost-of-load.js';
import { movedLoad } from '../../src/timers/moved-load.js';
import type { TimerHours } from '../../src/timers/timer.js';
import { anyTimer, dailyRates, ratesOf, startsFrom, weekLoad } from './random-weeks.js';

const WHOLE_DAY: TimerHours = { fromMinutes: 0, toMinutes: 1440 };
const NIGHT: TimerHours = { fromMinutes: 1320, toMinutes: 360 };
/** p/kWh from 00:30 to 04:30, and else. */
const [CHEAP, DEAR] = [7, 30];

/** Four January days from a noon on, charged from 18:00 on each evening with kWh a half-hour of those given. */
function evenings(...kwh: number[][]): { localSerial: Float64Array; loadKwh: Float64Array } {
  const localSerial = startsFrom('Europe/London', Date.UTC(2026, 0, 5, 12), 192);
  const loadKwh = new Float64Array(192);
  for (const [evening, halfHours] of kwh.entries()) loadKwh.set(halfHours, evening * 48 + 12);
  return { localSerial, loadKwh };
}

const byClock = (localSerial: Float64Array, rate: (minutes: number) => number): Float64Array =>
  localSerial.map((serial) => rate(Math.round((serial % 1) * 1440) % 1440));

const twoRates = (localSerial: Float64Array): Float64Array =>
  byClock(localSerial, (minutes) => (minutes >= 30 && minutes < 270 ? CHEAP : DEAR));

describe('the cheapest hours', () => {
  it('are the cheap window where it holds every session', () => {
    const load = evenings([3, 3], [3, 3, 3], [1]);
    const found = cheapestHours(load, { hours: WHOLE_DAY, powerKw: 7 }, twoRates(load.localSerial));
    expect(found).toMatchObject({ text: '00:30 to 04:30', staysKwh: 0, shortSessions: 0 });
    expect(found.hours).toEqual({ fromMinutes: 30, toMinutes: 270 });
    expect(found.costPence).toBeCloseTo(16 * CHEAP, 9);
    expect(found.meteredCostPence).toBeCloseTo(16 * DEAR, 9);
  });

  it('go on after the cheap window where a session needs more, so that short ones stay cheap', () => {
    const load = evenings([3, 3, 3, 3, 3, 3], [3]);
    const rates = byClock(load.localSerial, (minutes) =>
      minutes >= 30 && minutes < 270 ? CHEAP : minutes < 360 || minutes >= 1320 ? 15 : DEAR,
    );
    const found = cheapestHours(load, { hours: NIGHT, powerKw: 4 }, rates);
    expect(found).toMatchObject({ text: '00:30 to 05:00', staysKwh: 0 });
    expect(found.costPence).toBeCloseTo(16 * CHEAP + 2 * 15 + 3 * CHEAP, 9);
  });

  it('say how much a window does not hold, and how many sessions', () => {
    const load = evenings([3, 3, 3, 3, 3, 3], [3]);
    const hours = { fromMinutes: 30, toMinutes: 270 };
    const found = cheapestHours(load, { hours, powerKw: 4 }, twoRates(load.localSerial));
    expect(found).toMatchObject({ text: '00:30 to 04:30', staysKwh: 2, shortSessions: 1 });
  });

  it('are all that are allowed where every hour costs the same', () => {
    const load = evenings([3, 3]);
    const flat = load.localSerial.map(() => 25);
    expect(cheapestHours(load, { hours: NIGHT, powerKw: 7 }, flat).text).toBe('22:00 to 06:00');
    expect(cheapestHours(load, { hours: WHOLE_DAY, powerKw: 7 }, flat).text).toBe('00:00 to 24:00');
  });

  it('are none where the load costs less as it was metered', () => {
    const load = evenings([3, 3]);
    const cheapEvening = byClock(load.localSerial, (minutes) => (minutes >= 1020 ? CHEAP : DEAR));
    expect(
      cheapestHours(load, { hours: { fromMinutes: 0, toMinutes: 360 }, powerKw: 7 }, cheapEvening),
    ).toEqual({
      hours: undefined,
      text: '',
      costPence: 6 * CHEAP,
      meteredCostPence: 6 * CHEAP,
      staysKwh: 0,
      shortSessions: 0,
    });
  });

  it('are those of the lowest rate where there is no load yet', () => {
    const load = evenings();
    expect(cheapestHours(load, { hours: NIGHT, powerKw: 7 }, twoRates(load.localSerial)).text).toBe(
      '00:30 to 04:30',
    );
  });

  it('never cost more than the load as metered, whatever rates and hours, and cost what the timer then costs', () => {
    fc.assert(
      fc.property(
        weekLoad.chain((load) => fc.tuple(fc.constant(load), anyTimer, ratesOf(load.localSerial))),
        ([load, timer, rates]) => {
          const found = cheapestHours(load, timer, rates);
          const set = { ...timer, isOn: found.hours !== undefined, hours: found.hours ?? timer.hours };
          const moved = movedLoad(load, set);
          const cost = loadCost(moved.movedKwh, rates);
          expect(cost).toBeLessThanOrEqual(loadCost(load.loadKwh, rates) + 1e-6);
          expect(found.costPence).toBeCloseTo(cost, 6);
          expect(found.staysKwh).toBeCloseTo(moved.staysKwh, 9);
          expect(found.shortSessions).toBe(moved.shortSessions);
        },
      ),
      { seed: 8, numRuns: 40 },
    );
  });

  it('are always found where the day’s lowest rate is within the hours allowed', () => {
    fc.assert(
      fc.property(weekLoad, dailyRates, fc.integer({ min: 5, max: 110 }), (load, ofDay, tenths) => {
        const rates = load.localSerial.map((serial) => ofDay[Math.round((serial % 1) * 48) % 48]!);
        expect(cheapestHours(load, { hours: WHOLE_DAY, powerKw: tenths / 10 }, rates).hours).toBeDefined();
      }),
      { seed: 9, numRuns: 40 },
    );
  });

  it('are beaten by no other start and end within those allowed', () => {
    fc.assert(
      fc.property(
        weekLoad.chain((load) => fc.tuple(fc.constant(load), ratesOf(load.localSerial))),
        fc.integer({ min: 24, max: 66 }),
        fc.integer({ min: 1, max: 5 }),
        ([load, rates], first, length) => {
          const at = (halfHour: number): number => (halfHour % 48) * 30;
          const hours = { fromMinutes: at(first), toMinutes: at(first + length) };
          const found = cheapestHours(load, { hours, powerKw: 7 }, rates);
          for (let from = first; from < first + length; from++) {
            for (let to = from + 1; to <= first + length; to++) {
              const other = { isOn: true, hours: { fromMinutes: at(from), toMinutes: at(to) }, powerKw: 7 };
              const cost = loadCost(movedLoad(load, other).movedKwh, rates);
              expect(found.costPence).toBeLessThanOrEqual(cost + 1e-6 * Math.max(1, Math.abs(cost)));
            }
          }
        },
      ),
      { seed: 10, numRuns: 40 },
    );
  });
});
