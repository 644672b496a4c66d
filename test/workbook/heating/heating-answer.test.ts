import { beforeAll, describe, expect, it } from 'vitest';
import { SAMPLE_HOME } from '../../../src/sample/home.js';
import { sampleFacts } from '../../../src/sample/sample-facts.js';
import { isoDateToSerial } from '../../../src/time/serial.js';
import { evaluateWorkbook } from '../../../src/workbook/evaluate/evaluate-workbook.js';
import type { WorkbookResults } from '../../../src/workbook/evaluate/workbook-results.js';
import type { WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { allChecks } from '../../../src/workbook/model/checks.js';
import { heatingSentence } from '../../../src/workbook/model/heating/heating-sentences.js';
import { filledYear } from '../sample-workbooks.js';
import { gappyYear, inputsOf } from './heated-year.js';

describe('the heating sheets of the sample home', () => {
  let inputs: WorkbookInputs;
  let results: WorkbookResults;
  beforeAll(async () => {
    inputs = inputsOf(await filledYear());
    results = evaluateWorkbook(inputs);
  });

  it('find the heat loss that the home was made with, from its gas and the weather of that year', () => {
    const truth = (SAMPLE_HOME.heatLossKwPerK * 24) / SAMPLE_HOME.boilerEfficiency;
    const found = results.heating.comparison.gasFit.gasKwhPerDegreeDay as number;
    expect(found / truth).toBeGreaterThan(0.98);
    expect(found / truth).toBeLessThan(1.02);
  });

  it('see the degree days, the gas and the COP that are true of it', () => {
    const facts = sampleFacts();
    const { totals, gasMonths } = results.heating.comparison;
    const sum = (key: string): number => gasMonths.reduce((all, row) => all + ((row[key] as number) ?? 0), 0);
    expect(totals.totalDegreeDays).toBeCloseTo(facts.degreeDays, 6);
    expect(sum('gasDegreeDays')).toBeCloseTo(facts.degreeDaysOnGas, 6);
    expect(sum('gasKwh') / facts.gasKwh).toBeCloseTo(1, 4);
    expect(totals.totalCop).toBeCloseTo(facts.cop, 6);
  });

  it('price each half-hour of the heat pump at the rate of the tariff chosen', () => {
    const { halfHours, tariffs } = results;
    const { heatPumpKwh } = inputs.readings.values;
    let pence = 0;
    halfHours.used.forEach((used, row) => {
      if (used === 1)
        pence += (heatPumpKwh[row] || 0) * tariffs[results.todays]!.halfHours.unitRatePence[row]!;
    });
    expect(results.heating.comparison.totals.totalHalfHourlyPounds).toBeCloseTo(pence / 100, 6);
  });

  it('say the answer in words, that both estimates agree, and that it was a year', () => {
    expect(heatingSentence(results)).toMatch(
      /^The heat pump cost £\d+ to £\d+ less than the boiler would have\./,
    );
    expect(results.heating.comparison.totals.estimatesVerdict).toMatch(/^The two boiler estimates agree/);
    expect(results.heating.comparison.year.yearVerdict).toBe('A whole year was metered.');
  });

  it('speak the currency of the home', () => {
    const abroad = { ...inputs, home: { ...inputs.home, currency: '€' } };
    expect(heatingSentence(evaluateWorkbook(abroad))).toContain('€');
  });

  it('rest on last year’s gas alone where there is no heat meter, and say so', () => {
    const { values } = inputs.readings;
    const none = new Float64Array(values.heatOutputKwh.length).fill(Number.NaN);
    const without = evaluateWorkbook({
      ...inputs,
      readings: { ...inputs.readings, values: { ...values, heatOutputKwh: none } },
    }).heating.comparison;
    expect(without.totals.monthsFromHeat).toBe(0);
    expect(without.totals.totalDifferenceFromMeterPounds).toBe(
      results.heating.comparison.totals.totalDifferenceFromMeterPounds,
    );
    expect(without.months[3]!.monthNote).toBe('Last year’s gas meter only: no heat meter this month.');
    expect(without.totals.estimatesVerdict).toBe('No month has both estimates, so nothing confirms the one.');
  });

  it('estimate a year from five months whose range holds the whole year’s figure', () => {
    const months = { fromMonth: isoDateToSerial('2025-10-01'), toMonth: isoDateToSerial('2026-02-28') };
    const { degreeDays } = sampleFacts();
    const settings = { ...inputs.heating.settings, yearDegreeDays: degreeDays, costBasis: 'single rate' };
    const heating = { ...inputs.heating, settings };
    const whole = evaluateWorkbook({ ...inputs, heating }).heating.comparison.totals;
    const { year } = evaluateWorkbook({ ...inputs, ...months, heating }).heating.comparison;
    expect(year.yearVerdict).toMatch(/^5 months are not a year: the annual figure is an estimate/);
    const apart =
      (year.yearDifferenceFromHeatPounds as number) - (whole.totalDifferenceFromHeatPounds as number);
    expect(Math.abs(apart)).toBeLessThan(year.yearFromHeatRangePounds as number);
  });

  it('say that one winter month is not a year, and give no annual figure', () => {
    const january = isoDateToSerial('2026-01-01');
    const { year, totals } = evaluateWorkbook({ ...inputs, fromMonth: january, toMonth: january }).heating
      .comparison;
    expect(year.yearVerdict).toMatch(/^One winter month is not a year\./);
    expect(year.yearHeatPumpPounds).toBe('');
    expect(totals.monthsCompared).toBe(1);
  });

  it('pass their own checks', () => {
    const found = allChecks().filter(
      ({ name, kind, count }) => /^(Heat|Gas|Temper)/.test(name) && kind === 'fault' && count(results) > 0,
    );
    expect(found.map(({ name }) => name)).toEqual([]);
  });

  it('leave out what has gaps, month by month, and count it', async () => {
    const gappy = evaluateWorkbook(inputsOf(await gappyYear()));
    const { comparison, months } = gappy.heating;
    expect(comparison.months[1]!.monthNote).toBe('Last year’s gas meter only: no heat meter this month.');
    expect(comparison.months[1]!.differenceFromMeterPounds).toBeTypeOf('number');
    expect(months[2]!.metersNote).toBe('The heat meter has gaps: its heat is left out.');
    expect(comparison.months[2]!.degreeDaysUsed).toBe('');
    expect(months[4]!.metersNote).toBe('Heat pump readings have gaps: the month is left out.');
    const counts = Object.fromEntries(allChecks().map(({ name, count }) => [name, count(gappy)]));
    expect(counts['Heating: months left out because the heat pump’s readings have gaps']).toBe(1);
    expect(counts['Heating: months whose heat meter has gaps']).toBe(1);
    expect(counts['Heating: months without heat']).toBe(2);
    expect(counts['Heating: months without degree days']).toBe(1);
  });
});
