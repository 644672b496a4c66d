import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { leastCostByBands, type RateBand } from '../../src/timers/least-cost-by-bands.js';
import { leastCostOfLoad, loadCost } from '../../src/timers/least-cost-of-load.js';
import { leastCostOfSession } from '../../src/timers/least-cost-of-session.js';
import { allowedHalfHours, movedLoad } from '../../src/timers/moved-load.js';
import { sessionsOf } from '../../src/timers/sessions.js';
import type { MovableLoad, Timer } from '../../src/timers/timer.js';
import { loadSolver, type Solver, solveLinearProgramme } from '../battery/linear-programme.js';
import { loadProgramme } from './linear-programme.js';
import { anyTimer, dailyRates, kwhBySession, ratesOf, startsFrom, weekLoad } from './random-weeks.js';

interface PricedWeek {
  load: MovableLoad;
  timer: Timer;
  rates: Float64Array;
}

const pricedWeek: fc.Arbitrary<PricedWeek> = fc
  .tuple(weekLoad, anyTimer)
  .chain(([load, timer]) => ratesOf(load.localSerial).map((rates) => ({ load, timer, rates })));

let solver: Solver;
beforeAll(async () => {
  solver = await loadSolver();
});

describe('the least cost of a load', () => {
  it('takes the cheapest half-hours of the session first, of equally cheap ones the earlier', () => {
    const localSerial = startsFrom('Europe/London', Date.UTC(2026, 0, 5, 22), 8);
    const load = { localSerial, loadKwh: Float64Array.of(4, 3, 0, 0, 0, 0, 0, 0) };
    const rates = Float64Array.of(30, 30, 20, 8, 9, 8, 8, 30);
    const hours = { fromMinutes: 1380, toMinutes: 90 };
    const least = leastCostOfLoad(load, { hours, powerKw: 6 }, rates);
    expect([...least.movedKwh]).toEqual([0, 0, 0, 3, 0, 3, 1, 0]);
    expect(least).toMatchObject({ costPence: 56, staysKwh: 0, shortSessions: 0, beyondCheapestKwh: 0 });
  });

  it('says how many kWh the cheapest hours are too short for, and in how many sessions', () => {
    const localSerial = startsFrom('Europe/London', Date.UTC(2026, 0, 5, 12), 96);
    const loadKwh = new Float64Array(96);
    loadKwh.set([3, 3, 3], 12);
    loadKwh[60] = 2;
    const rates = localSerial.map((serial) => (Math.round((serial % 1) * 48) % 48 < 2 ? 7 : 30));
    const hours = { fromMinutes: 1320, toMinutes: 360 };
    expect(leastCostOfLoad({ localSerial, loadKwh }, { hours, powerKw: 6 }, rates)).toMatchObject({
      costPence: 8 * 7 + 3 * 30,
      staysKwh: 0,
      beyondCheapestKwh: 3,
      beyondCheapestSessions: 1,
    });
  });

  it('is that of HiGHS on 120 random weeks', () => {
    let short = 0;
    fc.assert(
      fc.property(pricedWeek, ({ load, timer, rates }) => {
        const { costPence, shortSessions } = leastCostOfLoad(load, timer, rates);
        const reference = solveLinearProgramme(solver, loadProgramme(load, timer, rates));
        short += shortSessions;
        expect(Math.abs(costPence - reference) / Math.max(1, Math.abs(reference))).toBeLessThan(1e-6);
      }),
      { seed: 5, numRuns: 120 },
    );
    expect(short).toBeGreaterThan(40);
  });

  it('keeps the kWh of every session, leaves out what the timer leaves out, and never costs more than it', () => {
    fc.assert(
      fc.property(pricedWeek, ({ load, timer, rates }) => {
        const least = leastCostOfLoad(load, timer, rates);
        const moved = movedLoad(load, timer);
        const before = kwhBySession(load.localSerial, load.loadKwh);
        for (const [session, kwh] of kwhBySession(load.localSerial, least.movedKwh)) {
          expect(kwh).toBeCloseTo(before.get(session)!, 8);
        }
        expect(least.staysKwh).toBe(moved.staysKwh);
        expect(least.shortSessions).toBe(moved.shortSessions);
        expect(least.costPence).toBeLessThanOrEqual(loadCost(moved.movedKwh, rates) + 1e-7);
      }),
      { seed: 6, numRuns: 150 },
    );
  });

  it('is that of each session’s capacity by band, without a look at the half-hours’ order', () => {
    fc.assert(
      fc.property(
        weekLoad.chain((load) => fc.tuple(fc.constant(load), anyTimer, dailyRates)),
        ([load, timer, ofDay]) => {
          const rates = load.localSerial.map((serial) => ofDay[Math.round((serial % 1) * 48) % 48]!);
          const isAllowed = allowedHalfHours(load.localSerial, timer);
          const least = leastCostOfLoad(load, timer, rates);
          for (const { first, end } of sessionsOf(load.localSerial)) {
            const capacity = new Map<number, number>();
            const allowedRates: number[] = [];
            let [kwh, cost] = [0, 0];
            for (let i = first; i < end; i++) {
              if (isAllowed[i] === 0) continue;
              capacity.set(rates[i]!, (capacity.get(rates[i]!) ?? 0) + timer.powerKw / 2);
              allowedRates.push(rates[i]!);
              kwh += least.movedKwh[i]!;
              cost += least.movedKwh[i]! * rates[i]!;
            }
            // A session that was left as it was may hold more than the stated power lets in.
            if (kwh > allowedRates.length * (timer.powerKw / 2) + 1e-9) continue;
            const bands = [...capacity].map(
              ([ratePence, capacityKwh]): RateBand => ({ ratePence, capacityKwh }),
            );
            expect(leastCostByBands(kwh, bands)).toBeCloseTo(cost, 7);
            if (kwh === 0) continue;
            expect(leastCostOfSession(kwh, timer.powerKw, allowedRates)).toBeCloseTo(cost, 7);
          }
        },
      ),
      { seed: 7, numRuns: 60 },
    );
  });

  it('refuses kWh that do not fit, and rates that are missing', () => {
    expect(() => leastCostByBands(10, [{ ratePence: 7, capacityKwh: 8 }])).toThrow('2 of 10 kWh do not fit');
    expect(() => leastCostOfSession(5, 0, [7])).toThrow("the load's power is 0 kW");
    expect(() => leastCostOfSession(5, 7, [Number.NaN])).toThrow('allowedRatesPence is missing in row 1');
    const load = { localSerial: Float64Array.of(46_023), loadKwh: Float64Array.of(1) };
    const timer = { hours: { fromMinutes: 0, toMinutes: 1440 }, powerKw: 7 };
    expect(() => leastCostOfLoad(load, timer, new Float64Array(2))).toThrow(
      'unitRatePence has 2 half-hours and localStart 1',
    );
  });
});
