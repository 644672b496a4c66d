import { describe, expect, it } from 'vitest';
import { runBatteryRule } from '../../src/battery/battery-rule.js';
import { costByCapacity, withCapacity } from '../../src/battery/cost-by-capacity.js';
import { InputError } from '../../src/errors.js';
import { randomBatteryCase } from './random-battery-case.js';

const PRICE = { fixedPounds: 1000, poundsPerKwh: 300 };

describe('cost against capacity', () => {
  // Two days, night 10 p, day 30 p, 1 kWh every half-hour: 5 half-hours of night, 43 of day.
  const rates = Array.from({ length: 96 }, (_, i) => (i % 48 < 5 ? 10 : 30));
  const input = {
    importKwh: new Float64Array(96).fill(1),
    exportKwh: new Float64Array(96),
    carKwh: new Float64Array(96),
    unitRatePence: Float64Array.from(rates),
    exportRatePence: new Float64Array(96),
    dayIndex: Int32Array.from({ length: 96 }, (_, i) => Math.floor(i / 48)),
  };
  const battery = {
    usableKwh: 10,
    chargeKw: 8,
    dischargeKw: 8,
    chargeEfficiency: 0.8,
    dischargeEfficiency: 1,
    reserveKwh: 0,
    startKwh: 0,
    wearPencePerKwh: 5,
    chargeFromGrid: true,
    mayFeedCar: true,
    mayExport: false,
  };

  it('is what a pencil says', () => {
    // Each day c kWh are stored for 10 / 0.8 = 12.5 p and save 30 p less 5 p of wear: c x 12.5 p. Two days: 25 c p.
    // Before wear: 35 c p in two days, 35 c x 365 / 2 / 100 = 63.875 c £ a year. Price 1000 + 300 c £.
    const rows = costByCapacity(input, battery, [0, 4, 8], PRICE);
    expect(rows.map((row) => row.usableKwh)).toEqual([0, 4, 8]);
    const [none, four, eight] = rows as [(typeof rows)[0], (typeof rows)[0], (typeof rows)[0]];
    expect(none.ruleCostPence).toBe(2 * (5 * 10 + 43 * 30));
    expect(none).toMatchObject({ ruleSavingPence: 0, pricePounds: 0, rulePaybackYears: null });
    expect(four.ruleSavingPence).toBeCloseTo(100, 9);
    expect(eight.ruleSavingPence).toBeCloseTo(200, 9);
    expect(eight.leastCostSavingPence).toBeCloseTo(200, 9);
    expect(eight.ruleCyclesPerYear).toBeCloseTo(365, 9);
    expect(four.pricePounds).toBe(2200);
    expect(four.rulePaybackYears).toBeCloseTo(2200 / (63.875 * 4), 9);
    expect(eight.leastCostPaybackYears).toBeCloseTo(3400 / (63.875 * 8), 9);
  });

  it('never pays back where nothing is saved', () => {
    const flat = { ...input, unitRatePence: new Float64Array(96).fill(25) };
    const [row] = costByCapacity(flat, battery, [5], PRICE);
    expect(row!.rulePaybackYears).toBeNull();
    expect(row!.leastCostSavingPence).toBeCloseTo(0, 9);
  });

  it('keeps the share of reserve and start, and the plain figures of the chosen size', () => {
    const { input: home, battery: any } = randomBatteryCase(31, 336);
    expect(withCapacity({ ...any, usableKwh: 10, reserveKwh: 1, startKwh: 2 }, 5)).toMatchObject({
      usableKwh: 5,
      reserveKwh: 0.5,
      startKwh: 1,
    });
    const [row] = costByCapacity(home, any, [any.usableKwh], PRICE);
    expect(row!.ruleCostPence).toBe(runBatteryRule(home, any).totals.netCostPence);
    expect(row!.leastCostPence).toBeLessThanOrEqual(row!.ruleCostPence);
  });

  it('costs no more at its least with each kWh of capacity', () => {
    for (let seed = 0; seed < 20; seed++) {
      const { input: home, battery: any } = randomBatteryCase(seed, 336);
      const empty = { ...any, usableKwh: 10, reserveKwh: 0, startKwh: 0 };
      const rows = costByCapacity(home, empty, [0, 1, 2, 5, 10, 20], PRICE);
      rows.slice(1).forEach((row, k) => {
        expect(row.leastCostPence, `seed ${seed}`).toBeLessThanOrEqual(rows[k]!.leastCostPence + 1e-6);
      });
    }
  });

  it('refuses a negative price or capacity', () => {
    expect(() => costByCapacity(input, battery, [5], { fixedPounds: -1, poundsPerKwh: 0 })).toThrow(
      'fixed price',
    );
    expect(() => costByCapacity(input, battery, [-5], PRICE)).toThrow(InputError);
  });
});
