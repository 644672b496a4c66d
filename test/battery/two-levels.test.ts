import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ruleInput } from '../../scripts/lib/bench/battery-rule/cases.js';
import { benchHomes } from '../../scripts/lib/bench/battery-rule/homes.js';
import { BENCH_TARIFFS } from '../../scripts/lib/bench/battery-rule/tariffs.js';
import { type Battery, runBatteryRule } from '../../src/battery/index.js';
import { leastCostSchedule } from '../../src/battery/least-cost-schedule.js';
import { runsOfWeek } from '../../src/battery/levels-of-week.js';
import { rateGrid } from '../../src/tariffs/rate-grid.js';
import { EVERY_DAY, type RateWindow } from '../../src/tariffs/tariff.js';
import { WEEK_RUNS } from '../../src/workbook/sheets/shape.js';
import { tariffArbitrary } from '../tariffs/arbitraries.js';

const [HOME] = benchHomes();

const batteryOf = (usableKwh: number): Battery => ({
  usableKwh,
  chargeKw: 3.6,
  dischargeKw: 3.6,
  chargeEfficiency: 0.95,
  dischargeEfficiency: 0.95,
  reserveKwh: 0,
  startKwh: 0,
  wearPencePerKwh: 0,
  chargeFromGrid: true,
  mayFeedCar: false,
  mayExport: false,
});

function inputOf(name: string) {
  const found = BENCH_TARIFFS.find(({ tariff }) => tariff.name === name);
  if (HOME === undefined || found === undefined) throw new RangeError(`there is no ${name}`);
  return ruleInput(HOME, found.tariff);
}

/** Pounds that the rule saves over the sample home's year. */
function saves(name: string, usableKwh: number): number {
  const input = inputOf(name);
  const end = runBatteryRule(input, batteryOf(0)).totals.endValuePencePerKwh;
  const cost = (kwh: number): number => runBatteryRule(input, batteryOf(kwh), end).totals.netCostPence;
  return (cost(0) - cost(usableKwh)) / 100;
}

/** The least cost's saving, pounds. */
function bestSaves(name: string, usableKwh: number): number {
  const input = inputOf(name);
  const without = runBatteryRule(input, batteryOf(0)).totals;
  const least = leastCostSchedule(input, batteryOf(usableKwh), without.endValuePencePerKwh).totals;
  return (without.netCostPence - least.netCostPence) / 100;
}

describe('the rule of two levels over the sample home’s year', () => {
  // Base 24 p, 02–05 at 10 p, 16–20 at 38 p: the rule before it saved £417 with 10 kWh and £113 with 11 kWh.
  it('does not collapse where the cheap hours fill the battery only just', () => {
    const [ten, eleven] = [saves('night and peak', 10), saves('night and peak', 11)];
    expect(ten).toBeGreaterThan(417);
    expect(eleven).toBeGreaterThan(ten);
  });

  it.each(['weekend', 'weekend, wide', 'weekend night'])('never loses on a tariff of the %s', (name) => {
    for (const usableKwh of [3, 7, 11, 18]) expect(saves(name, usableKwh)).toBeGreaterThan(0);
  });

  it.each([
    'night 7 h',
    'night 7 h by UTC',
    'evening peak',
    'night and peak',
    'four rates, close',
    'weekend',
    'half-hourly price',
  ])('reaches three quarters of the best schedule’s saving: %s', (name) => {
    for (const usableKwh of [5, 11]) {
      expect(saves(name, usableKwh) / bestSaves(name, usableKwh)).toBeGreaterThanOrEqual(0.75);
    }
  });

  it.each(['night 7 h, narrow', 'two peaks', 'four rates'])(
    'saves no less with a bigger battery: %s',
    (name) => {
      const saved = [3, 5, 7, 9.5, 11, 14, 18].map((kwh) => saves(name, kwh));
      saved.forEach((pounds, i) => {
        expect(pounds).toBeGreaterThanOrEqual(0.98 * (saved[i - 1] ?? 0));
      });
    },
  );
});

describe('the runs of a week', () => {
  const rates = [24, 10, 38, 16, 30];
  const weekOf = (windows: readonly RateWindow[]): Float64Array =>
    Float64Array.from(rateGrid({ windows }), (band) => rates[band] ?? 0);

  it('are no more than the workbook has rows for, whatever the windows', () => {
    fc.assert(
      fc.property(tariffArbitrary, ({ windows }) => {
        expect(runsOfWeek(weekOf(windows), batteryOf(10)).length).toBeLessThanOrEqual(WEEK_RUNS);
      }),
      { seed: 5, numRuns: 200 },
    );
  });

  it('fill those rows with four windows a day', () => {
    const window = (from: number): RateWindow => ({
      fromMinutes: from * 60,
      toMinutes: from * 60 + 60,
      days: EVERY_DAY,
    });
    expect(runsOfWeek(weekOf([2, 7, 16, 20].map(window)), batteryOf(10)).length).toBe(WEEK_RUNS);
  });
});
