import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Battery, BatteryInput } from '../../src/battery/battery.js';
import { assertBattery, splitRoundTrip } from '../../src/battery/battery.js';
import { runBatteryRule } from '../../src/battery/battery-rule.js';
import { InputError } from '../../src/errors.js';
import { randomBatteryCase } from './random-battery-case.js';

// 5 kWh, 4 kW each way (2 kWh a half-hour), 80% in, 90% out, 1 kWh reserve, empty to the reserve at the start.
const HAND: Battery = {
  usableKwh: 5,
  chargeKw: 4,
  dischargeKw: 4,
  chargeEfficiency: 0.8,
  dischargeEfficiency: 0.9,
  reserveKwh: 1,
  startKwh: 1,
  wearPencePerKwh: 0,
  chargeFromGrid: true,
  mayFeedCar: true,
  mayExport: false,
};

/** One row a half-hour: rate p, export rate p, import, export, car kWh → battery AC, level, import, export kWh. */
type HandRow = readonly [
  rate: number,
  exportRate: number,
  imported: number,
  exported: number,
  car: number,
  battery: number,
  level: number,
  importWith: number,
  exportWith: number,
];

function inputOf(rows: readonly (readonly number[])[], days?: readonly number[]): BatteryInput {
  const column = (index: number): Float64Array => Float64Array.from(rows, (row) => row[index]!);
  return {
    unitRatePence: column(0),
    exportRatePence: column(1),
    importKwh: column(2),
    exportKwh: column(3),
    carKwh: column(4),
    dayIndex: Int32Array.from(rows, (_, i) => days?.[i] ?? 0),
  };
}

function expectRows(battery: Battery, rows: readonly HandRow[], days?: readonly number[]): void {
  const run = runBatteryRule(inputOf(rows, days), battery);
  const got = rows.map((_, i) => [
    run.batteryKwh[i]!,
    run.levelKwh[i]!,
    run.importKwh[i]!,
    run.exportKwh[i]!,
  ]);
  const round = (row: readonly number[]): number[] => row.map((x) => Math.round(x * 1e9) / 1e9 + 0);
  expect(got.map(round)).toEqual(rows.map((row) => round(row.slice(5))));
}

describe('the rule, worked by hand', () => {
  it('charges in the cheapest half-hours, holds in them, serves the dear ones down to the reserve', () => {
    // To fill: (5 - 1) / 0.8 = 5 kWh AC = 2.5, so 3 half-hours of 2 kWh. Third cheapest 10 p, third dearest 30 p.
    // Worth it below 30 x 0.72 = 21.6 p. Refilling costs 10 / 0.72 = 13.89 p: the 13 p half-hour is bought, not served.
    expectRows(HAND, [
      // rate, export rate, import, export, car → battery, level, import, export
      [10, 0, 1, 0, 0, 2, 2.6, 3, 0],
      [10, 0, 1, 0, 0, 2, 4.2, 3, 0],
      [10, 0, 1, 0, 0, 1, 5, 2, 0], // 0.8 kWh of room takes 1 kWh AC
      [10, 0, 1, 0, 0, 0, 5, 1, 0], // as cheap as the others: holds
      [13, 0, 1, 0, 0, 0, 5, 1, 0],
      [30, 0, 0.9, 0, 0, -0.9, 4, 0, 0],
      [30, 0, 2.5, 0, 0, -2, 4 - 2 / 0.9, 0.5, 0], // no more than its power
      [30, 0, 5, 0, 0, -0.7, 1, 4.3, 0], // (5 - 1) x 0.9 = 3.6 in all: 3.6 - 0.9 - 2 = 0.7
      [30, 0, 1, 0, 0, 0, 1, 1, 0], // at the reserve
    ]);
  });

  it('stores solar surplus first, at any rate, and charges the rest of a cheap half-hour from the grid', () => {
    // No grid charging pays at one rate: only the sun fills it.
    expectRows(HAND, [
      [25, 5, 0, 1, 0, 1, 1.8, 0, 0],
      [25, 5, 0, 3, 0, 2, 3.4, 0, 1], // no more than its power
      [25, 5, 0.5, 0, 0, -0.5, 3.4 - 0.5 / 0.9, 0, 0],
    ]);
    expectRows({ ...HAND, chargeFromGrid: false }, [
      [5, 5, 0, 0.5, 0, 0.5, 1.4, 0, 0],
      [30, 5, 1, 0, 0, -0.36, 1, 0.64, 0],
    ]);
    expectRows({ ...HAND, usableKwh: 2.6 }, [
      [5, 5, 0, 0.5, 0, 2, 2.6, 1.5, 0], // 0.5 kWh from the sun, 1.5 kWh from the grid
      [30, 5, 1, 0, 0, -1, 2.6 - 1 / 0.9, 0, 0],
    ]);
  });

  it('does not charge from the grid where the spread loses to losses and wear', () => {
    // One half-hour fills 1 kWh: cheap 20 p, dear 27 p, 27 x 0.72 = 19.44 p.
    expectRows({ ...HAND, usableKwh: 2 }, [
      [20, 0, 1, 0, 0, 0, 1, 1, 0],
      [27, 0, 1, 0, 0, 0, 1, 1, 0],
    ]);
    // 30 x 0.72 = 21.6 p pays at 20 p, but not with 3 p of wear: 27 x 0.72 = 19.44 p.
    expectRows({ ...HAND, usableKwh: 2 }, [
      [20, 0, 1, 0, 0, 1.25, 2, 2.25, 0],
      [30, 0, 1, 0, 0, -0.9, 1, 0.1, 0],
    ]);
    expectRows({ ...HAND, usableKwh: 2, wearPencePerKwh: 3 }, [
      [20, 0, 1, 0, 0, 0, 1, 1, 0],
      [30, 0, 1, 0, 0, 0, 1, 1, 0],
    ]);
  });

  it('leaves a barred car to the grid', () => {
    expectRows({ ...HAND, startKwh: 5, mayFeedCar: false }, [
      [25, 0, 4, 0, 3.5, -0.5, 5 - 0.5 / 0.9, 3.5, 0],
      [25, 0, 1, 0, 0, -1, 5 - 1.5 / 0.9, 0, 0],
    ]);
  });

  it('sells all that it can where no rate of the day is above the export rate, and that repays the refill', () => {
    // 2.6 kWh of which 1.6 above the reserve: 1.44 kWh AC, less than one half-hour at full power (2 kWh).
    // Refilling costs 5 / 0.72 = 6.94 p, export pays 30 p, as much as the dearest half-hour.
    const seller = { ...HAND, usableKwh: 2.6, startKwh: 2.6, mayExport: true };
    expectRows(seller, [
      [30, 30, 0.36, 0, 0, -1.44, 1, 0, 1.08],
      [30, 30, 0.36, 0, 0, 0, 1, 0.36, 0], // bought back at no more than it fetched
      [5, 30, 0.1, 0, 0, 2, 2.6, 2.1, 0],
      [5, 30, 0.1, 0, 0, 0, 2.6, 0.1, 0], // holds
      [30, 30, 0, 0, 0, -1.44, 1, 0, 1.44], // whether or not a charging half-hour follows
    ]);
    // Full power is 2 kWh a half-hour: 5 kWh give 3.6 kWh AC above the reserve.
    expectRows({ ...seller, usableKwh: 5, startKwh: 5 }, [
      [30, 30, 0.36, 0, 0, -2, 5 - 2 / 0.9, 0, 1.64],
      [30, 30, 0.36, 0, 0, -1.6, 1, 0, 1.24],
      [30, 30, 0, 0, 0, 0, 1, 0, 0],
      [5, 30, 0, 0, 0, 2, 2.6, 2, 0],
      [5, 30, 0, 0, 0, 2, 4.2, 2, 0],
      [5, 30, 0, 0, 0, 1, 5, 1, 0],
    ]);
  });

  it('sells nothing where a rate of the day is above the export rate, or that does not repay refill and wear', () => {
    const seller = { ...HAND, usableKwh: 2.6, startKwh: 2.6, mayExport: true };
    const unsold: HandRow[] = [
      [30, 29, 0.36, 0, 0, -0.36, 2.2, 0, 0],
      [5, 29, 0.1, 0, 0, 0.5, 2.6, 0.6, 0],
    ];
    expectRows(seller, unsold);
    const sold: HandRow[] = [
      [30, 30, 0.36, 0, 0, -1.44, 1, 0, 1.08],
      [5, 30, 0.1, 0, 0, 2, 2.6, 2.1, 0],
    ];
    expectRows(seller, sold);
    expectRows(
      { ...seller, mayExport: false },
      unsold.map(([rate, , ...rest]): HandRow => [rate, 30, ...rest]),
    );
    // 22 p of wear leaves 8 p of 30 p for a refill of 5 / 0.72 = 6.94 p; 24 p leaves 6 p. With so much wear it does not
    // charge: that takes 30 - 22 = 8 p, of which 72 % are 5.76 p.
    expectRows({ ...seller, wearPencePerKwh: 22 }, sold);
    expectRows({ ...seller, wearPencePerKwh: 24 }, [
      [30, 30, 0.36, 0, 0, -0.36, 2.2, 0, 0],
      [5, 30, 0.1, 0, 0, -0.1, 2.2 - 0.1 / 0.9, 0, 0],
    ]);
  });

  it('sells neither beside a surplus nor while a barred car draws', () => {
    const seller = { ...HAND, usableKwh: 2.6, startKwh: 2.2, mayExport: true };
    expectRows(seller, [
      [30, 30, 0, 0.1, 0, 0.1, 2.28, 0, 0],
      [5, 30, 0, 0, 0, 0.4, 2.6, 0.4, 0],
    ]);
    // Nothing leaves the house while a barred car draws.
    expectRows({ ...seller, mayFeedCar: false }, [
      [30, 30, 3.86, 0, 3.5, -0.36, 1.8, 3.5, 0],
      [5, 30, 0.1, 0, 0, 1, 2.6, 1.1, 0],
    ]);
  });

  it('decides by the rates that are given for that, and pays by the unit rates', () => {
    // By the price of 30 p all day nothing pays; windows make 10 p and 40 p of it.
    const rows = [
      [10, 0, 1, 0, 0],
      [40, 0, 1, 0, 0],
    ];
    const small = { ...HAND, usableKwh: 2 };
    const input = inputOf(rows);
    const bought = (run: { batteryKwh: Float64Array }): boolean[] =>
      Array.from(run.batteryKwh, (kwh) => kwh > 0);
    expect(bought(runBatteryRule(input, small))).toEqual([true, false]);
    const byPrice = runBatteryRule({ ...input, ruleRatePence: Float64Array.of(30, 30) }, small);
    expect(bought(byPrice)).toEqual([false, false]);
    expect(byPrice.totals.energyCostPence).toBeLessThan(50 + 1e-9);
    expect(() => runBatteryRule({ ...input, ruleRatePence: Float64Array.of(30) }, small)).toThrow(
      'ruleRatePence has 1',
    );
  });

  it('does not sell by a half-hourly price', () => {
    const input = inputOf([[5, 20, 0, 0, 0]]);
    const seller = { ...HAND, usableKwh: 2, startKwh: 2, mayExport: true };
    expect(runBatteryRule(input, seller).exportKwh[0]).toBeGreaterThan(0);
    const byPrice = { ...input, ruleRatePence: input.unitRatePence };
    expect(runBatteryRule(byPrice, seller).exportKwh[0]).toBe(0);
  });

  it('looks ahead over midnight by the week of rates that holds', () => {
    const rows = [
      [8, 0, 1, 0, 0],
      [30, 0, 1, 0, 0],
      [12, 0, 1, 0, 0],
      [30, 0, 1, 0, 0],
    ];
    // 8 p and 12 p on one day each, known a week ahead: both are bought at, for the 30 p that follow.
    const run = runBatteryRule(inputOf(rows, [0, 0, 1, 1]), { ...HAND, usableKwh: 2 });
    expect(Array.from(run.fillUpToKwh, (kwh) => kwh > HAND.reserveKwh)).toEqual([true, false, true, false]);
  });

  it('reads the rates of a half-hour in the week that is told, not in those that happened', () => {
    const input = inputOf([[20, 0, 1, 0, 0]]);
    const small = { ...HAND, usableKwh: 2 };
    expect(runBatteryRule(input, small).fillUpToKwh[0]).toBe(0);
    // Monday begins at 20 p; all else costs 40 p.
    const week = new Float64Array(336).fill(40);
    week[0] = 20;
    const weeks = {
      ratesPence: [week],
      exportRatePence: Float64Array.of(0),
      index: Int32Array.of(0),
      slot: Int32Array.of(0),
    };
    const use = {
      ...input,
      importKwh: Float64Array.of(1, 1),
      exportKwh: new Float64Array(2),
      carKwh: new Float64Array(2),
    };
    const both = {
      ...use,
      unitRatePence: Float64Array.of(20, 40),
      exportRatePence: new Float64Array(2),
      dayIndex: Int32Array.of(0, 0),
      weeks: { ...weeks, index: Int32Array.of(0, 0), slot: Int32Array.of(0, 1) },
    };
    expect(runBatteryRule(both, small).fillUpToKwh[0]).toBeGreaterThan(HAND.reserveKwh);
    expect(() => runBatteryRule({ ...input, weeks: { ...weeks, slot: Int32Array.of(336) } }, small)).toThrow(
      'weeks.slot is 336 in half-hour 1',
    );
    expect(() =>
      runBatteryRule({ ...input, weeks: { ...weeks, ratesPence: [week.slice(1)] } }, small),
    ).toThrow('a week has 335 rates');
  });

  it('waits below the reserve for charge and gives nothing meanwhile', () => {
    expectRows({ ...HAND, startKwh: 0.2, chargeFromGrid: false }, [
      [25, 5, 1, 0, 0, 0, 0.2, 1, 0],
      [25, 5, 0, 2, 0, 2, 1.8, 0, 0],
      [25, 5, 1, 0, 0, -0.72, 1, 0.28, 0],
    ]);
  });

  it('values the level at the end: 1 kWh AC more in store at 10 p is 10 p', () => {
    const rows = [
      [10, 0, 0, 0, 0],
      [30, 0, 0, 0, 0],
    ];
    const { totals } = runBatteryRule(inputOf(rows), { ...HAND, usableKwh: 1.8 });
    expect(totals.energyCostPence).toBeCloseTo(10, 12);
    expect(totals.endValuePencePerKwh).toBeCloseTo(12.5, 12);
    expect(totals.netCostPence).toBeCloseTo(0, 12);
  });
});

const anyCase = fc
  .record({ seed: fc.integer(), halfHours: fc.integer({ min: 1, max: 200 }) })
  .map(({ seed, halfHours }) => randomBatteryCase(seed, halfHours));
const RUNS = { seed: 20_260_101, numRuns: 400 };
const CLOSE = 1e-9;

describe('the laws of the rule', () => {
  it('conserves energy at every half-hour and in total', () => {
    fc.assert(
      fc.property(anyCase, ({ input, battery }) => {
        const run = runBatteryRule(input, battery);
        let level = run.totals.startLevelKwh;
        let stored = 0;
        for (let i = 0; i < run.levelKwh.length; i++) {
          const flow = run.batteryKwh[i]!;
          const atMeter = run.importKwh[i]! - run.exportKwh[i]! - (input.importKwh[i]! - input.exportKwh[i]!);
          expect(Math.abs(atMeter - flow)).toBeLessThan(CLOSE);
          const gained = flow > 0 ? flow * battery.chargeEfficiency : flow / battery.dischargeEfficiency;
          expect(Math.abs(level + gained - run.levelKwh[i]!)).toBeLessThan(CLOSE);
          level = run.levelKwh[i]!;
          stored += gained;
        }
        expect(Math.abs(run.totals.startLevelKwh + stored - run.totals.endLevelKwh)).toBeLessThan(1e-7);
      }),
      RUNS,
    );
  });

  it('keeps level and power within bounds and serves no more than the house takes unless it may export', () => {
    fc.assert(
      fc.property(anyCase, ({ input, battery }) => {
        const run = runBatteryRule(input, battery);
        const floor = Math.min(battery.reserveKwh, run.totals.startLevelKwh);
        for (let i = 0; i < run.levelKwh.length; i++) {
          expect(run.levelKwh[i]!).toBeGreaterThanOrEqual(floor - CLOSE);
          expect(run.levelKwh[i]!).toBeLessThanOrEqual(battery.usableKwh + CLOSE);
          expect(run.batteryKwh[i]!).toBeLessThanOrEqual(battery.chargeKw / 2 + CLOSE);
          expect(run.batteryKwh[i]!).toBeGreaterThanOrEqual(-battery.dischargeKw / 2 - CLOSE);
          expect(run.importKwh[i]!).toBeGreaterThanOrEqual(-CLOSE);
          expect(run.exportKwh[i]!).toBeGreaterThanOrEqual(-CLOSE);
          if (!battery.mayExport) expect(run.exportKwh[i]!).toBeLessThanOrEqual(input.exportKwh[i]! + CLOSE);
          if (!battery.mayFeedCar) {
            expect(run.importKwh[i]!).toBeGreaterThanOrEqual(
              Math.min(input.carKwh[i]!, input.importKwh[i]!) - CLOSE,
            );
          }
          if (!battery.chargeFromGrid)
            expect(run.importKwh[i]!).toBeLessThanOrEqual(input.importKwh[i]! + CLOSE);
        }
      }),
      RUNS,
    );
  });

  it('buys nothing to store where every half-hour costs the same', () => {
    fc.assert(
      fc.property(anyCase, fc.double({ min: 0.1, max: 80, noNaN: true }), ({ input, battery }, rate) => {
        const flat = { ...input, unitRatePence: input.unitRatePence.map(() => rate) };
        const run = runBatteryRule(flat, battery);
        expect(run.fillUpToKwh.every((kwh) => kwh <= battery.reserveKwh)).toBe(true);
        expect(run.importKwh.every((kwh, i) => kwh <= input.importKwh[i]! + CLOSE)).toBe(true);
      }),
      RUNS,
    );
  });

  it('gives the flows without a battery, bit for bit, at 0 kWh', () => {
    fc.assert(
      fc.property(anyCase, ({ input, battery }) => {
        const run = runBatteryRule(input, { ...battery, usableKwh: 0, chargeKw: 0, dischargeKw: 0 });
        expect(run.importKwh).toEqual(input.importKwh);
        expect(run.exportKwh).toEqual(input.exportKwh);
        expect(run.totals.cycles).toBe(0);
      }),
      { ...RUNS, numRuns: 50 },
    );
  });

  it('buys no further than it fills up to, and serves the home no further than it keeps', () => {
    fc.assert(
      fc.property(anyCase, ({ input, battery }) => {
        const run = runBatteryRule(input, { ...battery, mayExport: false });
        let before = run.totals.startLevelKwh;
        run.levelKwh.forEach((level, i) => {
          const fromSun = battery.chargeEfficiency * Math.max(0, input.exportKwh[i]! - input.importKwh[i]!);
          const isBought = level > before + fromSun + CLOSE;
          if (isBought) expect(level).toBeLessThanOrEqual(run.fillUpToKwh[i]! + CLOSE);
          if (level < before - CLOSE) expect(level).toBeGreaterThanOrEqual(run.keepKwh[i]! - CLOSE);
          before = level;
        });
      }),
      { ...RUNS, numRuns: 100 },
    );
  });
});

describe('a battery that can not be', () => {
  it.each([
    ['usable capacity', { usableKwh: -1 }],
    ['charge power', { chargeKw: Number.NaN }],
    ['charge efficiency', { chargeEfficiency: 90 }],
    ['discharge efficiency', { dischargeEfficiency: 0 }],
    ['reserve', { reserveKwh: -0.1 }],
    ['wear', { wearPencePerKwh: Number.POSITIVE_INFINITY }],
    ['discharge power is 0 kW', { dischargeKw: 0 }],
  ])('names the %s', (name, change) => {
    expect(() => assertBattery({ ...HAND, ...change })).toThrow(InputError);
    expect(() => assertBattery({ ...HAND, ...change })).toThrow(name);
  });

  it('splits a round trip in two equal parts', () => {
    const { chargeEfficiency, dischargeEfficiency } = splitRoundTrip(0.81);
    expect(chargeEfficiency).toBeCloseTo(0.9, 15);
    expect(dischargeEfficiency).toBe(chargeEfficiency);
    expect(() => splitRoundTrip(1.2)).toThrow(InputError);
  });

  it.each([
    ['lengths', { carKwh: new Float64Array(1) }, 'carKwh has 1'],
    ['a missing number', { importKwh: Float64Array.of(1, Number.NaN) }, 'importKwh is NaN in half-hour 2'],
    ['negative energy', { exportKwh: Float64Array.of(-1, 0) }, 'exportKwh is -1 in half-hour 1'],
    ['days that jump', { dayIndex: Int32Array.of(0, 2) }, 'dayIndex is 2 in half-hour 2'],
  ])('refuses half-hours with %s', (_, change, message) => {
    const input = inputOf([
      [10, 0, 1, 0, 0],
      [20, 0, 1, 0, 0],
    ]);
    expect(() => runBatteryRule({ ...input, ...change }, HAND)).toThrow(message);
  });
});
