import { beforeAll, describe, expect, it } from 'vitest';
import { SAMPLE_HOME } from '../../../src/sample/home.js';
import { sampleFacts } from '../../../src/sample/sample-facts.js';
import { rateSeries } from '../../../src/tariffs/index.js';
import { halfHourCalendar } from '../../../src/time/half-hour-calendar.js';
import { isoDateToSerial } from '../../../src/time/serial.js';
import { checkInputs } from '../../../src/workbook/inputs/check-inputs.js';
import { blankHeatingCells, type HeatingCells } from '../../../src/workbook/inputs/heating-cells.js';
import type { WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { allChecks } from '../../../src/workbook/model/checks.js';
import { figureName, TARIFF_PLACE } from '../../../src/workbook/model/heating/heating-figures-rows.js';
import { heatingSentence } from '../../../src/workbook/model/heating/heating-sentences.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import { filledYear, sampleReadings } from '../sample-workbooks.js';
import { checkCounts } from '../shown-by-sheet.js';
import { gappyYear, inputsOf } from './heated-year.js';
import {
  comparisonOf,
  figure,
  heatingMonths,
  libraryComparison,
  rounded,
  workedOut,
} from './heating-values.js';

describe('the heating sheets of the sample home', () => {
  let inputs: WorkbookInputs;
  let values: WorkbookValues;
  beforeAll(async () => {
    inputs = inputsOf(await filledYear());
    values = workedOut(inputs);
  });

  it('find the heat loss that the home was made with, from its gas and the weather of that year', () => {
    const truth = (SAMPLE_HOME.heatLossKwPerK * 24) / SAMPLE_HOME.boilerEfficiency;
    const found = figure(values, 'gasKwhPerDegreeDay') as number;
    expect(found / truth).toBeGreaterThan(0.98);
    expect(found / truth).toBeLessThan(1.02);
  });

  it('see the degree days, the gas and the COP that are true of it', () => {
    const facts = sampleFacts();
    const { totals, gasMonths } = comparisonOf(values);
    const sum = (key: string): number => gasMonths.reduce((all, row) => all + ((row[key] as number) ?? 0), 0);
    expect(totals.totalDegreeDays).toBeCloseTo(facts.degreeDays, 6);
    expect(sum('gasDegreeDays')).toBeCloseTo(facts.degreeDaysOnGas, 6);
    expect(sum('gasKwh') / facts.gasKwh).toBeCloseTo(1, 4);
    expect(totals.totalCop).toBeCloseTo(facts.cop, 6);
  });

  it('price each half-hour of the heat pump at the rate of the tariff chosen', () => {
    const { startUtcMs, channels } = sampleReadings().readings;
    const place = values.calculated.named(figureName(TARIFF_PLACE)) as number;
    const tariff = checkInputs(inputs, 'home.xlsx')[place - 1]!;
    expect(tariff.name).toBe(inputs.todaysTariff);
    const calendar = halfHourCalendar(startUtcMs, String(inputs.home.timeZone));
    const rates = rateSeries(tariff, calendar, inputs.home.vatShare as number, channels.pricePence);
    const pence = rates.reduce((sum, rate, i) => sum + (channels.heatPumpKwh![i] || 0) * rate, 0);
    expect(figure(values, 'totalHalfHourlyPounds')).toBeCloseTo(pence / 100, 6);
  });

  it('say in every line what the library says of the same inputs', async () => {
    for (const home of [values, workedOut(inputsOf(await gappyYear()))]) {
      const found = comparisonOf(home);
      const expected = libraryComparison(found);
      expect(rounded(found)).toEqual(rounded(expected));
    }
  });

  it('say the answer in words, that both estimates agree, and that it was a year', () => {
    expect(heatingSentence(values)).toMatch(
      /^The heat pump cost about £\d+ less than the boiler would have; over what nobody measured, from £\d+ to £\d+ less: what decides is /,
    );
    expect(figure(values, 'estimatesVerdict')).toMatch(/^The two boiler estimates agree/);
    expect(figure(values, 'yearVerdict')).toBe('A whole year was metered.');
  });

  it('say what is not counted, what (a) can’t see, what the roof gave, and whose weather the year has', () => {
    expect(values.calculated.named('heating_not_counted')).toMatch(
      /^Not counted, because blank at the right: the boiler’s own electricity, servicing of the boiler, servicing of the heat pump\.$/,
    );
    expect(values.calculated.named('thermostat_not_seen')).toMatch(/as warm as last year/);
    const share = values.calculated.named('percent_from_roof');
    expect(share).toBeGreaterThan(0);
    expect(share).toBeLessThan(30);
    expect(values.calculated.named('heating_from_roof')).toMatch(/^At least \d+ % of the heat pump’s/);
    expect(values.calculated.named('usual_weather_of_one_year')).toMatch(
      /^The usual weather is that of one year/,
    );
    const settings = {
      ...inputs.heating.settings,
      boilerElectricityKwhPerDay: 0.4,
      boilerServicingPoundsPerYear: 90,
      heatPumpServicingPoundsPerYear: 150,
      roomsWarmerC: 0,
      yearDegreeDays: 2150,
    };
    const typed = workedOut({ ...inputs, heating: { ...inputs.heating, settings } }).calculated;
    for (const name of ['heating_not_counted', 'thermostat_not_seen', 'usual_weather_of_one_year']) {
      expect(typed.named(name), name).toBe('');
    }
  });

  it('speak the currency of the home', () => {
    const abroad = { ...inputs, home: { ...inputs.home, currency: '€' } };
    expect(heatingSentence(workedOut(abroad))).toContain('€');
  });

  it('rest on last year’s gas alone where there is no heat meter, and say so', () => {
    const { values: channels } = inputs.readings;
    const none = new Float64Array(channels.heatOutputKwh.length).fill(Number.NaN);
    const without = comparisonOf(
      workedOut({
        ...inputs,
        readings: { ...inputs.readings, values: { ...channels, heatOutputKwh: none } },
      }),
    );
    expect(without.totals.monthsFromHeat).toBe(0);
    expect(without.totals.totalDifferenceFromMeterPounds).toBe(
      figure(values, 'totalDifferenceFromMeterPounds'),
    );
    expect(without.months[3]!.monthNote).toBe('Last year’s gas meter only: no heat meter this month.');
    expect(without.totals.estimatesVerdict).toBe('No month has both estimates, so nothing confirms the one.');
  });

  it('estimate a year from five months whose range holds the whole year’s figure', () => {
    const months = { fromMonth: isoDateToSerial('2025-10-01'), toMonth: isoDateToSerial('2026-02-28') };
    const { degreeDays } = sampleFacts();
    const settings = { ...inputs.heating.settings, yearDegreeDays: degreeDays, costBasis: 'single rate' };
    const heating = { ...inputs.heating, settings };
    const whole = comparisonOf(workedOut({ ...inputs, heating })).totals;
    const { year } = comparisonOf(workedOut({ ...inputs, ...months, heating }));
    expect(year.yearVerdict).toMatch(/^5 months compared are not a year: the annual figure is an estimate/);
    const apart =
      (year.yearDifferenceFromHeatPounds as number) - (whole.totalDifferenceFromHeatPounds as number);
    expect(Math.abs(apart)).toBeLessThan(year.yearFromHeatRangePounds as number);
  });

  it('say that one winter month is not a year, and give no annual figure', () => {
    const january = isoDateToSerial('2026-01-01');
    const { year, totals } = comparisonOf(workedOut({ ...inputs, fromMonth: january, toMonth: january }));
    expect(year.yearVerdict).toMatch(/^One winter month compared is not a year\./);
    expect(year.yearHeatPumpPounds).toBe('');
    expect(totals.monthsCompared).toBe(1);
  });

  it('pass their own checks', () => {
    const counts = checkCounts(values);
    const names = allChecks(values.book)
      .filter(({ name, kind }) => /^(Heat|Gas|Temper)/.test(name) && kind === 'fault')
      .map(({ name }) => name);
    expect(names.length).toBeGreaterThan(10);
    expect(names.filter((name) => counts[name] !== 0)).toEqual([]);
  });

  describe('where import has gaps while the heat pump ran', () => {
    /** 1 November, after the 31 days of October and the hour that autumn adds. */
    const first = 31 * 48 + 2;
    /** November without the import of its first days. */
    const without = (days: number, settings: HeatingCells['settings'] = {}): WorkbookValues =>
      where((i) => i >= first && i < first + 48 * days, settings);
    const where = (isMissing: (i: number) => boolean, settings: HeatingCells['settings']): WorkbookValues => {
      const importKwh = inputs.readings.values.importKwh.map((kwh, i) => (isMissing(i) ? Number.NaN : kwh));
      const { readings, heating } = inputs;
      const asked = { ...heating, settings: { ...heating.settings, ...settings } };
      return workedOut({
        ...inputs,
        heating: asked,
        readings: { ...readings, values: { ...readings.values, importKwh } },
      });
    };
    const november = (of: WorkbookValues) => heatingMonths(of, ['metersNote'])[1]!;
    const leftOut = 'Heating: months without a cost, as the import has gaps while the heat pump ran';

    it('price what it took there like the rest of the month', () => {
      const gappy = without(1);
      const { startUtcMs, channels } = sampleReadings().readings;
      const place = gappy.calculated.named(figureName(TARIFF_PLACE)) as number;
      const calendar = halfHourCalendar(startUtcMs, String(inputs.home.timeZone));
      const tariff = checkInputs(inputs, 'home.xlsx')[place - 1]!;
      const rates = rateSeries(tariff, calendar, inputs.home.vatShare as number, channels.pricePence);
      const sum = (from: number, of: (i: number) => number): number =>
        Array.from({ length: first + 30 * 48 - from }, (_, i) => of(from + i)).reduce((a, b) => a + b, 0);
      const kwh = (i: number): number => channels.heatPumpKwh![i] || 0;
      const priced = first + 48;
      const average = sum(priced, (i) => kwh(i) * rates[i]!) / sum(priced, kwh);
      expect(november(gappy).costHalfHourlyPounds).toBeCloseTo((average * sum(first, kwh)) / 100, 6);
      expect(november(gappy).electricityKwh).toBe(november(values).electricityKwh);
      const [all, most] = [values, gappy].map((of) => Number(november(of).costBatteryPounds));
      expect(Math.abs(most! / all! - 1)).toBeLessThan(0.05);
      expect([november(gappy).metersNote, checkCounts(gappy)[leftOut]]).toEqual(['', 0]);
    });

    it('leave its cost out where it is more than the share that is asked for, and say so', () => {
      const gappy = without(21);
      const { metersNote, costHalfHourlyPounds, costBatteryPounds, differenceBestPounds } = november(gappy);
      expect(metersNote).toBe('Import has gaps.');
      expect([costHalfHourlyPounds, costBatteryPounds, differenceBestPounds]).toEqual(['', '', '']);
      expect(checkCounts(gappy)[leftOut]).toBe(1);
      expect(checkCounts(values)[leftOut]).toBe(0);
    });

    it('count the month all the same at a single rate, which needs no half-hours', () => {
      const gappy = without(21, { costBasis: 'single rate' });
      expect(november(gappy).costChosenPounds).toBe(november(gappy).costSingleRatePounds);
      expect(november(gappy).costChosenPounds).toBeGreaterThan(0);
      expect(checkCounts(gappy)[leftOut]).toBe(0);
    });

    it('leave the cost out too where no share is asked for and nothing has a price', () => {
      const gappy = without(30, { leastCoverageShare: 0 });
      expect(november(gappy)).toMatchObject({ costHalfHourlyPounds: '', costBatteryPounds: '' });
    });

    it('tell the roof’s share of what has a price alone', () => {
      const share = (of: WorkbookValues): number => Number(of.calculated.named('percent_from_roof'));
      // Two days of five in each month.
      const gappy = where((i) => Math.floor(i / 48) % 5 > 1, {});
      expect(share(values)).toBeGreaterThan(5);
      expect(Math.abs(share(gappy) - share(values))).toBeLessThanOrEqual(2);
    });
  });

  it('leave out what has gaps, month by month, and count it', async () => {
    const gappy = workedOut(inputsOf(await gappyYear()));
    const months = heatingMonths(gappy, ['metersNote']);
    expect(months[1]!.monthNote).toBe('Last year’s gas meter only: no heat meter this month.');
    expect(months[1]!.differenceFromMeterPounds).toBeTypeOf('number');
    expect(months[2]!.metersNote).toBe('The heat meter has gaps: its heat is left out.');
    expect(months[2]!.degreeDaysUsed).toBe('');
    expect(months[4]!.metersNote).toBe('Heat pump readings have gaps: the month is left out.');
    const counts = checkCounts(gappy);
    expect(counts['Heating: months left out because the heat pump’s readings have gaps']).toBe(1);
    expect(counts['Heating: months whose heat meter has gaps']).toBe(1);
    expect(counts['Heating: months without heat']).toBe(2);
    expect(counts['Heating: months without degree days']).toBe(1);
  });

  it('miss degree days once something of the gas or the boiler is typed, not before', () => {
    const missing = 'Heating: months without degree days';
    const blank = blankHeatingCells();
    const { values: channels } = inputs.readings;
    const outdoorC = new Float64Array(channels.outdoorC.length).fill(Number.NaN);
    const readings = { ...inputs.readings, values: { ...channels, outdoorC } };
    const countOf = (heating: Partial<HeatingCells>): unknown =>
      checkCounts(workedOut({ ...inputs, readings, heating: { ...blank, ...heating } }))[missing];
    expect(countOf({})).toBe(0);
    // Electricity, weather and what a new workbook holds ask for no boiler.
    expect(countOf({ settings: { ...blank.settings, singleRatePence: 26, yearDegreeDays: 2100 } })).toBe(0);
    const asked: Partial<HeatingCells>[] = [
      { settings: { ...blank.settings, boilerEfficiency: 0.85 } },
      { settings: { ...blank.settings, gasRatePence: 6 } },
      { rates: blank.rates.with(0, { ...blank.rates[0]!, gasRate: 6 }) },
      { gas: blank.gas.with(23, { ...blank.gas[23]!, kwh: 900 }) },
      { gas: blank.gas.with(0, { ...blank.gas[0]!, volume: 80 }) },
    ];
    for (const heating of asked) expect(countOf(heating)).toBe(12);
  });
});
