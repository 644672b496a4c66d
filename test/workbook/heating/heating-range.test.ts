import { beforeAll, describe, expect, it } from 'vitest';
import { compareHeating } from '../../../src/heating/compare-heating.js';
import { isoDateToSerial } from '../../../src/time/serial.js';
import { checkInputs } from '../../../src/workbook/inputs/check-inputs.js';
import type { WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { SHEETS, USUAL_DAYS } from '../../../src/workbook/layout.js';
import { heatingRows } from '../../../src/workbook/model/heating/heating-rows.js';
import { shapeOf } from '../../../src/workbook/sheets/shape.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import { filledYear } from '../sample-workbooks.js';
import { checkCounts } from '../shown-by-sheet.js';
import { inputsOf } from './heated-year.js';
import { comparisonOf, figure, libraryComparison, workedOut } from './heating-values.js';

let inputs: WorkbookInputs;
beforeAll(async () => {
  inputs = inputsOf(await filledYear());
}, 180_000);

const FIRST = heatingRows(shapeOf(USUAL_DAYS)).sensitivity + 1;
const ROWS = { boilerEfficiency: FIRST, hotWaterKwhPerDay: FIRST + 1, degreeDayBaseC: FIRST + 2 } as const;
type Varied = keyof typeof ROWS;
const at = ({ calculated }: WorkbookValues, letters: string, row: number): unknown =>
  calculated.at(SHEETS.heating, `${letters}${row}`);
const withSettings = (settings: Record<string, unknown>): WorkbookInputs => ({
  ...inputs,
  heating: { ...inputs.heating, settings: { ...inputs.heating.settings, ...settings } as never },
});

/** The difference that the library finds with one setting changed. */
function libraryDifference(values: WorkbookValues, key: Varied, to: number): number {
  const { settings, gasMonths, months } = libraryComparison(comparisonOf(values));
  const known = (rows: typeof months, keys: readonly string[]) =>
    rows.map((row) =>
      Object.fromEntries(keys.flatMap((k) => (row[k] === '' || row[k] === undefined ? [] : [[k, row[k]]]))),
    );
  const GAS = ['gasDays', 'gasKwh', 'gasDegreeDays'];
  const MONTHS = [
    'days',
    'electricityKwh',
    'heatKwh',
    'degreeDays',
    'daysWithTemperature',
    'costHalfHourlyPounds',
    'costBatteryPounds',
    'monthSingleRatePence',
    'monthGasRatePence',
    'monthGasStandingPencePerDay',
  ];
  const changed = compareHeating({
    settings: {
      ...Object.fromEntries(Object.entries(settings).filter(([, value]) => value !== '')),
      [key]: to,
    },
    gasMonths: known(gasMonths, GAS) as never,
    months: known(months, MONTHS) as never,
  });
  return changed.totals.totalDifferenceBestPounds as number;
}

const CASES: Record<string, Record<string, unknown>> = {
  'as the sample has it': {},
  'hot water on neither side': { hotWaterSide: 'neither' },
  'immersion heater now': { heatPumpSideHotWater: 'immersion heater', heatPumpSideHotWaterPence: 9 },
  'immersion heater then': { boilerSideHotWater: 'immersion heater', boilerSideHotWaterPence: 28 },
  'neither side, immersion heater then': {
    hotWaterSide: 'neither',
    boilerSideHotWater: 'immersion heater',
    boilerSideHotWaterPence: 28,
  },
};

describe('how far the heating answer may be off for what nobody measured', () => {
  it.each(Object.entries(CASES))('has what the library finds with each figure changed: %s', (_, settings) => {
    // In months that have more heat than hot water nothing meets a limit, and the change is straight.
    const cold = { fromMonth: isoDateToSerial('2025-10-01'), toMonth: isoDateToSerial('2026-04-01') };
    const ends = { leastHotWaterKwhPerDay: 3, mostHotWaterKwhPerDay: 4.5 };
    const values = workedOut({ ...withSettings({ ...settings, ...ends }), ...cold });
    for (const key of ['boilerEfficiency', 'hotWaterKwhPerDay'] as const) {
      for (const [value, difference] of [
        ['I', 'K'],
        ['J', 'L'],
      ] as const) {
        const to = at(values, value, ROWS[key]) as number;
        expect(at(values, difference, ROWS[key]), `${key} ${to}`).toBeCloseTo(
          libraryDifference(values, key, to),
          4,
        );
      }
    }
  });

  it('is within some pounds of it over a year, whose summer has less heat than hot water: an eighth of the change', () => {
    const values = workedOut(withSettings({ hotWaterSide: 'neither' }));
    const told = at(values, 'L', ROWS.hotWaterKwhPerDay) as number;
    const whole = libraryDifference(
      values,
      'hotWaterKwhPerDay',
      at(values, 'J', ROWS.hotWaterKwhPerDay) as number,
    );
    const change = Math.abs(whole - (figure(values, 'totalDifferenceBestPounds') as number));
    expect(change).toBeGreaterThan(10);
    expect(Math.abs(told - whole)).toBeLessThan(change / 8);
  });

  it('has at the lower base temperature what the whole workbook comes to with that base typed', () => {
    const values = workedOut(inputs);
    const lower = at(values, 'I', ROWS.degreeDayBaseC) as number;
    expect(lower).toBe((inputs.heating.settings.degreeDayBaseC as number) - 1);
    const typed = workedOut(withSettings({ degreeDayBaseC: lower }));
    const difference = figure(typed, 'totalDifferenceBestPounds') as number;
    expect(difference).not.toBeCloseTo(figure(values, 'totalDifferenceBestPounds') as number, 1);
    expect(at(values, 'K', ROWS.degreeDayBaseC)).toBeCloseTo(difference, 6);
    // The higher one is taken to change as much: it is near what it comes to.
    const higher = workedOut(withSettings({ degreeDayBaseC: lower + 2 }));
    const [told, whole] = [at(values, 'L', ROWS.degreeDayBaseC), figure(higher, 'totalDifferenceBestPounds')];
    expect(Math.abs((told as number) - (whole as number))).toBeLessThan(5);
  });

  it('says the estimate, the range, and what decides', () => {
    const values = workedOut(inputs);
    const [low, high] = ['heating_range_low', 'heating_range_high'].map(
      (name) => values.calculated.named(name) as number,
    );
    const best = figure(values, 'totalDifferenceBestPounds') as number;
    expect(low).toBeLessThan(best);
    expect(high).toBeGreaterThan(best);
    expect(low).toBeLessThanOrEqual(figure(values, 'totalLowPounds') as number);
    expect(high).toBeGreaterThanOrEqual(figure(values, 'totalHighPounds') as number);
    // The root of the sum of squares, by hand.
    const [less, more] = ['M', 'N'].map((letters) =>
      Math.hypot(...Object.values(ROWS).map((row) => at(values, letters, row) as number)),
    );
    expect([low, high]).toEqual([expect.closeTo(best - less!, 9), expect.closeTo(best + more!, 9)]);
    expect(values.calculated.named('heating_verdict')).toBe(
      `The heat pump cost about £${Math.round(-best)} less than the boiler would have; over what nobody measured, from £${Math.round(-high!)} to £${Math.round(-low!)} less: what decides is the boiler’s efficiency (75 to 95 %). (12 of 12 months)`,
    );
  });

  it('says that the two estimates differ where that makes the range, and how far the rest moves their mean', () => {
    const efficiency = inputs.heating.settings.boilerEfficiency as number;
    const heat = inputs.heating.settings;
    const nearly = {
      leastHotWaterKwhPerDay: heat.hotWaterKwhPerDay as number,
      mostHotWaterKwhPerDay: heat.hotWaterKwhPerDay as number,
      baseEitherWayC: 0.1,
    };
    const said = (settings: Record<string, unknown>) => {
      const values = workedOut(withSettings({ ...nearly, ...settings }));
      const [low, high, from, to] = [
        values.calculated.named('heating_range_low'),
        values.calculated.named('heating_range_high'),
        at(values, 'K', ROWS.boilerEfficiency),
        at(values, 'L', ROWS.boilerEfficiency),
      ].map((end) => Math.round(-(end as number)));
      const ends = [low, high].map((end) => -end!);
      const estimates = ['totalLowPounds', 'totalHighPounds'].map((key) =>
        Math.round(figure(values, key) as number),
      );
      const text = String(values.calculated.named('heating_verdict'));
      return { text, low, high, from, to, ends, estimates };
    };
    const narrow = said({ leastEfficiency: efficiency - 0.005, mostEfficiency: efficiency + 0.005 });
    expect(narrow.ends).toEqual(narrow.estimates);
    expect(narrow.text).toContain(
      `than the boiler would have; as the two estimates differ, from £${narrow.high} to £${narrow.low} less: of what nobody measured, the boiler’s efficiency (`,
    );
    expect(narrow.text).toContain(
      ` %) moves their mean most, from £${Math.min(narrow.from!, narrow.to!)} to £${Math.max(narrow.from!, narrow.to!)} less. (12 of 12 months)`,
    );
    expect(narrow.text).not.toContain('decides');
    const oneEnd = said({ leastEfficiency: 0.6, mostEfficiency: efficiency + 0.005 });
    expect(oneEnd.text).toMatch(
      /; over two estimates that differ and what nobody measured, from £\d+ to £\d+ less: of what .+ moves their mean most, from £\d+ to £\d+ less\./,
    );
  });

  it('says that it is too close to call where the range holds both signs, and names another input where that decides', () => {
    const close = workedOut(
      withSettings({
        gasRatePence: 3,
        costBasis: 'single rate',
        singleRatePence: 16,
        leastEfficiency: 0.6,
        mostEfficiency: 1.1,
      }),
    );
    const rates = close.inputs.heating.rates.map(() => ({
      from: null,
      gasRate: null,
      gasStanding: null,
      singleRate: null,
    }));
    const even = workedOut({ ...close.inputs, heating: { ...close.inputs.heating, rates: rates as never } });
    const [low, high] = ['heating_range_low', 'heating_range_high'].map(
      (name) => even.calculated.named(name) as number,
    );
    const said = String(even.calculated.named('heating_verdict'));
    expect([low! < 0, high! > 0]).toEqual([true, true]);
    expect(said).toContain('too close to call');
    const efficiency = inputs.heating.settings.boilerEfficiency as number;
    const sure = workedOut(
      withSettings({
        leastEfficiency: efficiency - 0.005,
        mostEfficiency: efficiency + 0.005,
        baseEitherWayC: 3,
      }),
    );
    expect(String(sure.calculated.named('heating_verdict'))).toContain(
      'what decides is the base temperature (12.5 to 18.5 °C)',
    );
  });

  it('leaves the base temperature out where degree days were typed', () => {
    const month = inputs.heating.monthDegreeDays.map((row, i) =>
      i === 0 ? { month: 46_023, degreeDays: 300 } : row,
    );
    const typed = workedOut({ ...inputs, heating: { ...inputs.heating, monthDegreeDays: month as never } });
    expect([at(typed, 'K', ROWS.degreeDayBaseC), at(typed, 'M', ROWS.degreeDayBaseC)]).toEqual(['', 0]);
    expect(String(typed.calculated.named('heating_verdict'))).toContain(
      'what decides is the boiler’s efficiency',
    );
  });

  it('refuses a range the wrong way round, as Checks says it, and takes it either way meanwhile', () => {
    const swapped = { leastHotWaterKwhPerDay: 8, mostHotWaterKwhPerDay: 2 };
    expect(() => checkInputs(withSettings(swapped), 'home.xlsx')).toThrow(
      /the hot water at most is less than the hot water at least/,
    );
    const values = workedOut(withSettings(swapped));
    expect(checkCounts(values)['Heating: what nobody measured is at most less than at least']).toBe(1);
    const usual = workedOut(inputs);
    expect(values.calculated.named('heating_range_low')).toBe(usual.calculated.named('heating_range_low'));
  });

  it('is not there before the rates and the efficiency are typed', () => {
    const blank = workedOut(withSettings({ boilerEfficiency: null }));
    expect(
      ['by_hot_water_pounds', 'by_efficiency_pounds'].map((name) => blank.calculated.named(name)),
    ).toEqual([expect.any(Number), expect.any(Number)]);
    expect(at(blank, 'K', ROWS.boilerEfficiency)).toBe('');
    const none = workedOut({
      ...inputs,
      heating: {
        ...inputs.heating,
        settings: { ...inputs.heating.settings, gasRatePence: null } as never,
        rates: inputs.heating.rates.map(() => ({
          from: null,
          gasRate: null,
          gasStanding: null,
          singleRate: null,
        })) as never,
      },
    });
    expect(String(none.calculated.named('heating_verdict'))).not.toContain('nobody measured');
  });
});
