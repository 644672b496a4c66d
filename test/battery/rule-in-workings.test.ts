import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Battery, BatteryInput } from '../../src/battery/battery.js';
import { runBatteryRule } from '../../src/battery/battery-rule.js';
import { type HouseUse, storedEnergyCost } from '../../src/battery/stored-energy-cost.js';
import { PATHS } from '../../src/cli/paths.js';
import { seededRandom } from '../../src/sample/seeded-random.js';
import type { Column, Line } from '../../src/workbook/book/terms.js';
import { calculateWorkbook } from '../../src/workbook/calculate-inputs.js';
import type { BatteryCells } from '../../src/workbook/inputs/battery-cells.js';
import { blankReadings } from '../../src/workbook/inputs/blank-readings.js';
import { parseStartingInputs } from '../../src/workbook/inputs/parse-starting-inputs.js';
import { blankTariffCells } from '../../src/workbook/inputs/tariff-cells.js';
import type { ReadingRows, TariffCells } from '../../src/workbook/inputs/workbook-inputs.js';
import { batterySpan } from '../../src/workbook/model/battery/battery-span.js';
import { declareBook } from '../../src/workbook/model/book.js';
import { clockTable } from '../../src/workbook/model/clock-table.js';
import { workbookModel } from '../../src/workbook/model/workbook-model.js';
import { randomHouseCase } from './random-house-case.js';

const DAYS = 5;
const SLOTS = 48;
/** A Monday in winter: no clock changes. */
const FIRST_DAY = 46_034;
const ROWS_A_DAY = 50;
const ZONE = 'Europe/London';
const book = declareBook(DAYS + 1);
const start = parseStartingInputs(readFileSync(PATHS.sampleInputs, 'utf8'), PATHS.sampleInputs);

interface Rates {
  tariff: TariffCells;
  exportRate: number;
  /** p/kWh by half-hour of the day, without a half-hourly price. */
  fixed: readonly number[];
  base: number;
  isPriced: boolean;
  price: Float64Array;
}

/** Rates of any kind: flat, a cheap night, a dear evening, a half-hourly price on top, exporting below or above. */
function ratesOf(seed: number): Rates {
  const random = seededRandom(`rates ${seed}`).uniform;
  const between = (low: number, high: number): number =>
    Math.round((low + (high - low) * random()) * 100) / 100;
  const isPriced = random() < 0.4;
  const base = isPriced ? between(1, 12) : between(20, 35);
  const night = random() < 0.6 ? base * between(0.2, 0.6) : base;
  const peak = random() < 0.6 ? base * between(1, 1.6) : base;
  const exportRate = between(0, 90);
  const tariff = { ...blankTariffCells(), name: 'Any', halfHourlyPriced: isPriced ? 'yes' : 'no' };
  tariff.windows = tariff.windows.map((window, k) =>
    k > 1 ? window : { from: (k === 0 ? 0 : 32) / SLOTS, to: (k === 0 ? 10 : 38) / SLOTS, days: 'every day' },
  );
  tariff.periods = tariff.periods.map((period, p) =>
    p > 0 ? period : { ...period, standing: 50, base, windowRates: [night, peak, null, null], exportRate },
  );
  return {
    tariff,
    exportRate,
    base,
    isPriced,
    fixed: Array.from({ length: SLOTS }, (_, s) => (s < 10 ? night : s >= 32 && s < 38 ? peak : base)),
    price: Float64Array.from({ length: DAYS * SLOTS }, () => (isPriced ? between(-5, 30) : 0)),
  };
}

function readingsOf(input: BatteryInput, use: HouseUse, price: Float64Array): ReadingRows {
  const count = DAYS * SLOTS;
  const rows = blankReadings(book.shape.readingRows);
  rows.count = count;
  for (let i = 0; i < count; i++) {
    const [imported = 0, exported = 0] = [input.importKwh[i], input.exportKwh[i]];
    rows.startSerial[i] = FIRST_DAY + i / SLOTS;
    rows.values.importKwh[i] = imported;
    rows.values.exportKwh[i] = exported;
    rows.values.solarKwh[i] = (use.demandKwh[i] ?? 0) - imported + exported;
    rows.values.carKwh[i] = input.carKwh[i] ?? 0;
    rows.values.heatPumpKwh[i] = use.heatPumpKwh[i] ?? 0;
    rows.values.pricePence[i] = price[i] ?? 0;
  }
  return rows;
}

function cellsOf(battery: Battery): BatteryCells {
  const yesNo = (flag: boolean): string => (flag ? 'yes' : 'no');
  return {
    ...battery,
    roundTripEfficiency: null,
    chargeFromGrid: yesNo(battery.chargeFromGrid),
    mayFeedCar: yesNo(battery.mayFeedCar),
    mayExport: yesNo(battery.mayExport),
    priceFixed: null,
    pricePerKwh: null,
    tariff: null,
  };
}

/** A random home, as the library takes it. */
function homeOf(seed: number) {
  const home = randomHouseCase(seed, DAYS * SLOTS);
  const rates = ratesOf(seed);
  const { battery } = home;
  const ofHalfHour = (rateAt: (i: number) => number): Float64Array =>
    Float64Array.from({ length: DAYS * SLOTS }, (_, i) => rateAt(i));
  const fixed = (i: number): number => rates.fixed[i % SLOTS] ?? 0;
  const price = (i: number): number => rates.price[i] ?? 0;
  const input: BatteryInput = {
    ...home.input,
    unitRatePence: ofHalfHour((i) => fixed(i) + price(i)),
    exportRatePence: ofHalfHour(() => rates.exportRate),
    ...(rates.isPriced ? { ruleRatePence: ofHalfHour(price) } : {}),
  };
  // Where the meters of heat pump and car say more than the home used, the workbook has a car that the battery may not
  // feed pay for its part of what was used, the library for all that its meter says: these homes' meters agree.
  const carKwh = home.input.carKwh;
  const heatPumpKwh = home.use.heatPumpKwh.map((kwh, i) =>
    Math.min(kwh, Math.max(0, (home.use.demandKwh[i] ?? 0) - (carKwh[i] ?? 0))),
  );
  const use = { ...home.use, heatPumpKwh, carKwh };
  return { input, use, battery, rates };
}

/** The workbook worked out for such a home. */
function workbookOf({ input, use, battery, rates }: ReturnType<typeof homeOf>) {
  const inputs = {
    ...start,
    battery: cellsOf(battery),
    tariffs: [rates.tariff, ...start.tariffs.slice(1).map(() => blankTariffCells())],
    todaysTariff: 'Any',
    readings: readingsOf(input, use, rates.price),
    clock: clockTable(ZONE),
  };
  const calculated = calculateWorkbook(workbookModel(inputs, book), book, inputs);
  const number = (line: Line | undefined): number => {
    const value = line === undefined ? undefined : calculated.of(line);
    if (typeof value !== 'number') throw new Error(`${line?.name} is ${String(value)}`);
    return value;
  };
  /** The cells of a half-hourly column that stand for half-hours. */
  const halfHours = (column: Column): number[] =>
    [...calculated.numbers(column)].filter((_, i) => i % ROWS_A_DAY < SLOTS).slice(0, DAYS * SLOTS);
  return { number, halfHours };
}

const sum = (values: Iterable<number>): number => [...values].reduce((a, b) => a + b, 0);
const SEEDS = Array.from({ length: 16 }, (_, seed) => seed);

describe('the battery in the workings agrees with the library', () => {
  it.each(SEEDS)('home %i', (seed) => {
    const home = homeOf(seed);
    const { input, use, battery, rates } = home;
    const { number, halfHours } = workbookOf(home);
    const { realCost, tariffs } = book.workings;
    const span = batterySpan(book);
    const [of, workings] = [span.tariffs[0], tariffs[0]];
    if (of === undefined || workings === undefined) throw new Error('no tariff');
    const storedValue = number(of.storedValue);
    const run = runBatteryRule(input, battery, storedValue);
    // With a half-hourly price the workbook's lowest rate is a bound: lowest rate of all, lowest price of all.
    if (!rates.isPriced)
      expect(storedValue).toBeCloseTo(runBatteryRule(input, battery).totals.endValuePencePerKwh, 9);
    const levels = halfHours(workings.level);
    levels.forEach((kwh, i) => {
      expect(kwh, `level of half-hour ${i}`).toBeCloseTo(run.levelKwh[i] ?? Number.NaN, 9);
    });
    halfHours(realCost.importChangeKwh).forEach((kwh, i) => {
      const due = (run.importKwh[i] ?? Number.NaN) - (input.importKwh[i] ?? Number.NaN);
      expect(kwh, `import of half-hour ${i}`).toBeCloseTo(due, 9);
    });
    expect(number(of.deliveredKwh)).toBeCloseTo(run.totals.deliveredKwh, 6);
    expect(number(of.netCostPence)).toBeCloseTo(run.totals.netCostPence, 4);
    const cost = storedEnergyCost(input, use, battery, run, { startCostPencePerKwh: storedValue });
    const months = (column: Column): number => number(span.period.get(column));
    expect(months(span.months.heatPumpPence)).toBeCloseTo(sum(cost.heatPumpPence), 5);
    expect(months(span.months.carPence)).toBeCloseTo(sum(cost.carPence), 5);
    expect(months(span.months.totalPence)).toBeCloseTo(
      sum(cost.heatPumpPence) + sum(cost.carPence) + sum(cost.restPence),
      5,
    );
    for (const law of [of.outOfBounds, of.unbalanced, of.unrounded, of.impossible])
      expect(number(law)).toBe(0);
  });

  it('on homes of every kind: some sell, some charge from the grid, some may not feed the car', () => {
    const homes = SEEDS.map((seed) => {
      const { input, battery } = homeOf(seed);
      const run = runBatteryRule(input, battery);
      return {
        sells: run.exportKwh.some((kwh, i) => kwh > (input.exportKwh[i] ?? 0) + 1e-9),
        charges: run.fillUpToKwh.some((kwh) => kwh > battery.reserveKwh),
        barred: !battery.mayFeedCar && sum(input.carKwh) > 0,
        priced: input.ruleRatePence !== undefined,
      };
    });
    for (const kind of ['sells', 'charges', 'barred', 'priced'] as const) {
      expect(homes.filter((home) => home[kind]).length, kind).toBeGreaterThanOrEqual(2);
    }
  });
});
