import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Battery, BatteryInput } from '../../src/battery/battery.js';
import { runBatteryRule } from '../../src/battery/battery-rule.js';
import { type LeastCostSchedule, leastCostSchedule } from '../../src/battery/least-cost-schedule.js';
import { linearProgramme, loadSolver, type Solver, solveLinearProgramme } from './linear-programme.js';
import { type BatteryCase, randomBatteryCase } from './random-battery-case.js';

const CLOSE = 1e-9;
let solver: Solver;
beforeAll(async () => {
  solver = await loadSolver();
});

/** The largest breach of any limit, kWh, and the cost summed anew from the flows, p. */
function audit(
  { input, battery }: BatteryCase,
  schedule: LeastCostSchedule,
): { breach: number; cost: number } {
  const { chargeKwh, dischargeKwh, levelKwh, importKwh, exportKwh, totals } = schedule;
  const reserve = Math.min(battery.reserveKwh, battery.usableKwh);
  const start = Math.min(battery.startKwh, battery.usableKwh);
  let breach = 0;
  let cost = totals.endValuePencePerKwh * start;
  let level = start;
  let lowest = start;
  const hold = (excess: number): void => {
    breach = Math.max(breach, excess);
  };
  for (let i = 0; i < levelKwh.length; i++) {
    const charge = chargeKwh[i]!;
    const discharge = dischargeKwh[i]!;
    const imported = input.importKwh[i]!;
    const exported = input.exportKwh[i]!;
    const after = level + charge * battery.chargeEfficiency - discharge / battery.dischargeEfficiency;
    hold(Math.abs(after - levelKwh[i]!));
    hold(Math.abs(importKwh[i]! - exportKwh[i]! - (imported - exported) - (charge - discharge)));
    hold(levelKwh[i]! - battery.usableKwh);
    // From a start below the reserve the level may only rise until it has reached it.
    lowest = Math.min(reserve, Math.max(lowest, level));
    hold(lowest - levelKwh[i]!);
    hold(-charge);
    hold(-discharge);
    // One direction at a time: shares of the half-hour at full power are at most 1 together.
    if (battery.usableKwh > 0)
      hold((2 * charge) / battery.chargeKw + (2 * discharge) / battery.dischargeKw - 1);
    hold(-importKwh[i]!);
    hold(-exportKwh[i]!);
    const barred = battery.mayFeedCar ? 0 : input.carKwh[i]!;
    if (!battery.mayExport) hold(discharge - Math.max(0, imported - exported - barred));
    if (!battery.mayFeedCar) hold(Math.min(barred, imported) - importKwh[i]!);
    if (!battery.chargeFromGrid) hold(charge - Math.max(0, exported - imported));
    level = levelKwh[i]!;
    cost += importKwh[i]! * input.unitRatePence[i]! - exportKwh[i]! * input.exportRatePence[i]!;
    cost += discharge * battery.wearPencePerKwh;
  }
  return { breach, cost: cost - totals.endValuePencePerKwh * level };
}

const relative = (a: number, b: number): number => Math.abs(a - b) / Math.max(1, Math.abs(b));

describe('the least cost against an independent linear-programme solver', () => {
  it('is the same on 250 random weeks, and its schedule keeps every limit and costs just that', () => {
    for (let seed = 0; seed < 250; seed++) {
      const week = randomBatteryCase(seed, 336);
      const own = leastCostSchedule(week.input, week.battery);
      const { endValuePencePerKwh, netCostPence } = own.totals;
      const reference = solveLinearProgramme(
        solver,
        linearProgramme(week.input, week.battery, endValuePencePerKwh),
      );
      expect(relative(netCostPence, reference), `seed ${seed}`).toBeLessThan(1e-6);
      const { breach, cost } = audit(week, own);
      expect(breach, `seed ${seed}`).toBeLessThan(CLOSE);
      expect(relative(cost, netCostPence), `seed ${seed}`).toBeLessThan(1e-12);
    }
  });

  it('is the same on full years', () => {
    for (const seed of [3, 14]) {
      const year = randomBatteryCase(seed, 17_520);
      const own = leastCostSchedule(year.input, year.battery);
      const model = linearProgramme(year.input, year.battery, own.totals.endValuePencePerKwh);
      expect(relative(own.totals.netCostPence, solveLinearProgramme(solver, model))).toBeLessThan(1e-6);
      const { breach, cost } = audit(year, own);
      expect(breach).toBeLessThan(CLOSE);
      expect(relative(cost, own.totals.netCostPence)).toBeLessThan(1e-12);
    }
  });

  it('is the same with another value of the level at the end', () => {
    for (let seed = 500; seed < 520; seed++) {
      const { input, battery } = randomBatteryCase(seed, 96);
      for (const endValue of [-20, 0, 17, 60]) {
        const own = leastCostSchedule(input, battery, endValue).totals.netCostPence;
        const reference = solveLinearProgramme(solver, linearProgramme(input, battery, endValue));
        expect(relative(own, reference), `seed ${seed}`).toBeLessThan(1e-6);
      }
    }
  });

  it('is the same from below the reserve, over every time at which it could be reached', () => {
    let crossings = 0;
    for (let seed = 700; seed < 760; seed++) {
      const { input, battery: anyBattery } = randomBatteryCase(seed, 30);
      const usableKwh = Math.max(anyBattery.usableKwh, 1);
      const battery = { ...anyBattery, usableKwh, reserveKwh: usableKwh * 0.6, startKwh: usableKwh * 0.1 };
      const own = leastCostSchedule(input, battery);
      const value = own.totals.endValuePencePerKwh;
      const lengths: (number | 'always')[] = ['always', ...Array.from({ length: 30 }, (_, k) => k + 1)];
      const reference = Math.min(
        ...lengths.map((only) => solveLinearProgramme(solver, linearProgramme(input, battery, value, only))),
      );
      expect(relative(own.totals.netCostPence, reference), `seed ${seed}`).toBeLessThan(1e-6);
      expect(audit({ input, battery }, own).breach, `seed ${seed}`).toBeLessThan(CLOSE);
      if (own.totals.endLevelKwh >= battery.reserveKwh - CLOSE) crossings++;
    }
    // Both outcomes are tried: reserve reached, and never reached.
    expect(crossings).toBeGreaterThan(5);
    expect(crossings).toBeLessThan(60);
  });
});

describe('the least cost, worked by hand', () => {
  const battery: Battery = {
    usableKwh: 2,
    chargeKw: 4,
    dischargeKw: 4,
    chargeEfficiency: 0.8,
    dischargeEfficiency: 1,
    reserveKwh: 0,
    startKwh: 0,
    wearPencePerKwh: 0,
    chargeFromGrid: true,
    mayFeedCar: true,
    mayExport: false,
  };
  const inputOf = (rates: number[], imports: number[], exportRate = 0): BatteryInput => ({
    importKwh: Float64Array.from(imports),
    exportKwh: new Float64Array(rates.length),
    carKwh: new Float64Array(rates.length),
    unitRatePence: Float64Array.from(rates),
    exportRatePence: new Float64Array(rates.length).fill(exportRate),
    dayIndex: new Int32Array(rates.length),
  });

  it('keeps stored energy for the dearest half-hour, as the rule does where the day is the average one', () => {
    // Room for 1 kWh. Stored at 8 / 0.8 = 10 p; saved at 40 p, not at 20 p on the way. Without: 20 + 40 p; with: 10 + 20 p.
    const input = inputOf([8, 20, 40], [0, 1, 1]);
    const one = { ...battery, usableKwh: 1 };
    const { chargeKwh, dischargeKwh, totals } = leastCostSchedule(input, one);
    expect([...chargeKwh]).toEqual([1.25, 0, 0]);
    expect([...dischargeKwh]).toEqual([0, 0, 1]);
    expect(totals.netCostPence).toBeCloseTo(30, 12);
    expect(runBatteryRule(input, one).totals.netCostPence).toBeCloseTo(30, 12);
  });

  it('switches within a half-hour where a negative rate pays for the losses', () => {
    // Full with 2 kWh, one half-hour at -10 p, 1 kWh of demand: at rest it costs -10 p. Serving the house for a share s of
    // the time gives s x 1 kWh, charging at full power for the rest takes (1 - s) x 2 kWh and stores 0.8 of it. Full again
    // at the end: s = 1.6 x (1 - s), s = 1.6 / 2.6. Import: 1 - s + 2 x (1 - s) = 3 / 2.6 = 1.154 kWh, -11.54 p.
    const input = inputOf([-10], [1]);
    const { dischargeKwh, importKwh, totals } = leastCostSchedule(input, { ...battery, startKwh: 2 }, 0);
    expect(dischargeKwh[0]).toBeCloseTo(1.6 / 2.6, 12);
    expect(importKwh[0]).toBeCloseTo(3 / 2.6, 12);
    expect(totals.netCostPence).toBeCloseTo(-30 / 2.6, 12);
  });

  it('does nothing where nothing pays', () => {
    const { importKwh, totals } = leastCostSchedule(inputOf([20, 24], [1, 1]), battery);
    expect([...importKwh]).toEqual([1, 1]);
    expect(totals.netCostPence).toBe(44);
  });
});

describe('the laws of the least cost', () => {
  const anyCase = fc
    .record({ seed: fc.integer(), halfHours: fc.integer({ min: 1, max: 300 }) })
    .map(({ seed, halfHours }) => randomBatteryCase(seed, halfHours));
  const RUNS = { seed: 20_260_101, numRuns: 300 };

  it('is never beaten by the rule, from any start', () => {
    fc.assert(
      fc.property(anyCase, fc.double({ min: 0, max: 1, noNaN: true }), ({ input, battery }, share) => {
        const from = { ...battery, startKwh: share * battery.usableKwh };
        const least = leastCostSchedule(input, from).totals.netCostPence;
        const rule = runBatteryRule(input, from).totals.netCostPence;
        expect(rule).toBeGreaterThanOrEqual(least - 1e-9 * Math.max(1, Math.abs(least)));
      }),
      RUNS,
    );
  });

  it('never rises with capacity or power', () => {
    fc.assert(
      fc.property(anyCase, fc.double({ min: 1, max: 3, noNaN: true }), ({ input, battery }, more) => {
        const from = { ...battery, startKwh: battery.reserveKwh };
        const endValue = 12;
        const cost = (b: Battery): number => leastCostSchedule(input, b, endValue).totals.netCostPence;
        const base = cost(from);
        const slack = 1e-9 * Math.max(1, Math.abs(base));
        expect(cost({ ...from, usableKwh: from.usableKwh * more })).toBeLessThanOrEqual(base + slack);
        expect(cost({ ...from, chargeKw: from.chargeKw * more })).toBeLessThanOrEqual(base + slack);
        expect(cost({ ...from, dischargeKw: from.dischargeKw * more })).toBeLessThanOrEqual(base + slack);
      }),
      RUNS,
    );
  });

  it('gives the flows without a battery, bit for bit, at 0 kWh', () => {
    fc.assert(
      fc.property(anyCase, ({ input, battery }) => {
        const { importKwh, exportKwh } = leastCostSchedule(input, { ...battery, usableKwh: 0 });
        expect(importKwh).toEqual(input.importKwh);
        expect(exportKwh).toEqual(input.exportKwh);
      }),
      { ...RUNS, numRuns: 50 },
    );
  });
});
