import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Battery, BatteryInput } from '../../src/battery/battery.js';
import { runBatteryRule } from '../../src/battery/battery-rule.js';
import { type HouseUse, storedEnergyCost } from '../../src/battery/stored-energy-cost.js';
import { InputError } from '../../src/errors.js';
import { randomHouseCase } from './random-house-case.js';

const HAND: Battery = {
  usableKwh: 4,
  chargeKw: 10,
  dischargeKw: 10,
  chargeEfficiency: 0.8,
  dischargeEfficiency: 0.5,
  reserveKwh: 0,
  startKwh: 1,
  wearPencePerKwh: 2,
  chargeFromGrid: true,
  mayFeedCar: false,
  mayExport: false,
};
const column = (...values: number[]): Float64Array<ArrayBuffer> => Float64Array.from(values);
const sum = (values: Float64Array): number => values.reduce((total, value) => total + value, 0);

describe('what energy really cost, worked by hand', () => {
  // 1 kWh stored at 10 p. 8 p grid for 2.5 kWh AC (2 kWh stored, 20 p), sun 1.25 kWh AC (1 kWh stored) at 4 p forgone
  // (5 p): 4 kWh stored for 35 p, 8.75 p each. Delivered: 8.75 / 0.5 + 2 = 19.5 p/kWh.
  const input: BatteryInput = {
    importKwh: column(1, 0, 6, 2),
    exportKwh: column(0, 1.25, 0, 0),
    carKwh: column(0, 0, 4, 0),
    unitRatePence: column(8, 60, 60, 60),
    exportRatePence: column(4, 4, 4, 4),
    dayIndex: new Int32Array(4),
  };
  const run = { batteryKwh: column(2.5, 1.25, -1, -1), levelKwh: column(3, 4, 2, 0) };
  const use: HouseUse = {
    demandKwh: column(1, 0.5, 6, 2),
    heatPumpKwh: column(0.75, 0.5, 1, 0.5),
    carKwh: column(0, 0, 4, 0),
  };
  const cost = storedEnergyCost(input, use, HAND, run, { startCostPencePerKwh: 10 });

  it('takes the average of what was stored at midnight and what the day charged', () => {
    expect([...cost.stockPence]).toEqual([26.25, 35, 17.5, 0]);
    expect([...cost.deliveredUnitPence]).toEqual([19.5, 19.5, 19.5, 19.5]);
  });

  it('carries what is left at midnight to the next day at its cost', () => {
    // Day 1 ends with 3 kWh stored for 10 + 20 = 30 p; day 2 adds 5 p: 35 p for 4 kWh.
    const days = { ...input, dayIndex: Int32Array.from([0, 1, 1, 1]) };
    const twoDays = storedEnergyCost(days, use, HAND, run, { startCostPencePerKwh: 10 });
    expect([...twoDays.stockPence]).toEqual([30, 35, 17.5, 0]);
    expect([...twoDays.deliveredUnitPence]).toEqual([22, 19.5, 19.5, 19.5]);
  });

  it('shares each half-hour in proportion, a barred car apart', () => {
    // 1: the house's own 1 kWh at 8 p, three quarters heat pump. 2: 0.5 kWh of sun at 4 p, all heat pump.
    // 3: car 4 x 60 = 240 p; the other 2 kWh: 1 x 60 + 1 x 19.5 = 79.5 p, half and half.
    // 4: 1 x 60 + 1 x 19.5 = 79.5 p over 2 kWh, a quarter heat pump.
    expect([...cost.heatPumpPence]).toEqual([6, 2, 39.75, 19.875]);
    expect([...cost.carPence]).toEqual([0, 0, 240, 0]);
    expect([...cost.restPence]).toEqual([2, 0, 39.75, 59.625]);
    expect([...cost.restKwh]).toEqual([0.25, 0, 1, 1.5]);
  });

  it('leaves out wear and the value of sun where asked', () => {
    const bare = storedEnergyCost(input, use, HAND, run, {
      startCostPencePerKwh: 10,
      includeWear: false,
      sunAtExportRate: false,
    });
    expect([...bare.stockPence]).toEqual([22.5, 30, 15, 0]);
    expect(bare.deliveredUnitPence[2]).toBe(15);
    expect(bare.heatPumpPence[1]).toBe(0);
  });

  it('lets a car that is not barred share like the others', () => {
    const shared = storedEnergyCost(input, use, { ...HAND, mayFeedCar: true }, run, {
      startCostPencePerKwh: 10,
    });
    // 5 x 60 + 1 x 19.5 = 319.5 p over 6 kWh.
    expect(shared.carPence[2]).toBeCloseTo((319.5 * 4) / 6, 12);
    expect(shared.heatPumpPence[2]).toBeCloseTo(319.5 / 6, 12);
  });

  it('refuses columns of another length and missing numbers', () => {
    const short = { ...use, heatPumpKwh: column(1) };
    expect(() => storedEnergyCost(input, short, HAND, run)).toThrow(InputError);
    const gap = { ...use, demandKwh: column(1, Number.NaN, 1, 1) };
    expect(() => storedEnergyCost(input, gap, HAND, run)).toThrow('demandKwh is NaN in half-hour 2');
  });
});

describe('the laws of what energy really cost', () => {
  const anyCase = fc
    .record({ seed: fc.integer(), halfHours: fc.integer({ min: 1, max: 300 }) })
    .map(({ seed, halfHours }) => randomHouseCase(seed, halfHours));
  const RUNS = { seed: 20_260_101, numRuns: 300 };

  it('accounts for every penny: users + sold + stock gained = import + credit forgone + wear', () => {
    fc.assert(
      fc.property(anyCase, fc.boolean(), ({ input, battery, use }, sunAtExportRate) => {
        const run = runBatteryRule(input, battery);
        const cost = storedEnergyCost(input, use, battery, run, { sunAtExportRate });
        const stock = cost.stockPence.at(-1)! - cost.startStockPence;
        const out =
          sum(cost.heatPumpPence) + sum(cost.carPence) + sum(cost.restPence) + sum(cost.soldPence) + stock;
        let paid = run.totals.wearPence + run.totals.energyCostPence;
        for (let i = 0; i < use.demandKwh.length && sunAtExportRate; i++) {
          const sun = use.demandKwh[i]! - input.importKwh[i]!;
          const stored = Math.min(input.exportKwh[i]!, Math.max(0, run.batteryKwh[i]!));
          paid += (sun + stored) * input.exportRatePence[i]!;
        }
        expect(Math.abs(out - paid)).toBeLessThan(1e-9 * Math.max(1, Math.abs(paid)) + 1e-7);
      }),
      RUNS,
    );
  });

  it("shares the house's energy out, no more and no less", () => {
    fc.assert(
      fc.property(anyCase, ({ input, battery, use }) => {
        const cost = storedEnergyCost(input, use, battery, runBatteryRule(input, battery));
        for (let i = 0; i < use.demandKwh.length; i++) {
          const parts = cost.heatPumpKwh[i]! + cost.carKwh[i]! + cost.restKwh[i]!;
          expect(Math.abs(parts - use.demandKwh[i]!)).toBeLessThan(1e-9);
        }
      }),
      RUNS,
    );
  });

  it("charges a barred car no more and no less than its own grid energy's rate", () => {
    fc.assert(
      fc.property(anyCase, ({ input, battery, use }) => {
        const barred = { ...battery, mayFeedCar: false };
        const plain = { ...use, demandKwh: input.importKwh };
        const cost = storedEnergyCost(input, plain, barred, runBatteryRule(input, barred));
        for (let i = 0; i < use.demandKwh.length; i++) {
          expect(Math.abs(cost.carPence[i]! - input.carKwh[i]! * input.unitRatePence[i]!)).toBeLessThan(1e-9);
        }
      }),
      RUNS,
    );
  });

  it('is the plain bill without a battery', () => {
    fc.assert(
      fc.property(anyCase, ({ input, battery, use }) => {
        const none = { ...battery, usableKwh: 0 };
        const plain = { ...use, demandKwh: input.importKwh };
        const cost = storedEnergyCost(input, plain, none, runBatteryRule(input, none));
        const all = sum(cost.heatPumpPence) + sum(cost.carPence) + sum(cost.restPence);
        const bill = input.importKwh.reduce((total, kwh, i) => total + kwh * input.unitRatePence[i]!, 0);
        expect(Math.abs(all - bill)).toBeLessThan(1e-7);
      }),
      { ...RUNS, numRuns: 50 },
    );
  });
});
