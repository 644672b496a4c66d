import { describe, expect, it } from 'vitest';
import { compareHeating, type HeatingInputs } from '../../src/heating/compare-heating.js';
import {
  type BacktestHome,
  type BacktestRun,
  backtest,
  type Estimate,
  holds,
  realWeatherHomes,
  sampleHome,
  scatteredHomes,
} from '../heating/backtest-homes.js';

/** Confidence at which the ranges are stated. */
const CONFIDENCE = 0.95;

const withoutGas = (inputs: HeatingInputs): HeatingInputs => ({ ...inputs, gasMonths: [] });
const withoutHeat = (inputs: HeatingInputs): HeatingInputs => ({
  ...inputs,
  months: inputs.months.map((month) => ({ ...month, heatKwh: null })),
});

/**
 * Chance of so many misses or more of ranges that miss in one case of twenty: the binomial's upper tail.
 * Source: common textbook.
 */
function chanceOf(misses: number, runs: number): number {
  let term = CONFIDENCE ** runs;
  let below = 0;
  for (let k = 0; k < misses; k++) {
    below += term;
    term *= ((runs - k) / (k + 1)) * ((1 - CONFIDENCE) / CONFIDENCE);
  }
  return 1 - below;
}

function row(name: string, runs: readonly BacktestRun[], said: readonly BacktestRun[]): string {
  const misses = said.filter((run) => !holds(run)).length;
  const widths = said.map(({ rangePounds, costPounds }) => rangePounds! / costPounds).sort((a, b) => a - b);
  const width = Math.round(100 * (widths[Math.floor(widths.length / 2)] ?? Number.NaN));
  const held = (100 * (1 - misses / said.length)).toFixed(1);
  return `${name.padEnd(44)} ${String(runs.length).padStart(5)} ${String(said.length).padStart(5)} ${held.padStart(6)} %  ± ${width} %`;
}

describe('a year from part of a year holds the whole year’s figure', () => {
  const seattle = realWeatherHomes(4, 0);
  const colder = realWeatherHomes(4, 6);
  const scattered = scatteredHomes(20, 0.1, 0.06);
  const cases: [string, BacktestHome[], Estimate, typeof withoutGas | undefined][] = [
    ['the sample, (a)', [sampleHome()], 'FromMeter', undefined],
    ['the sample, (b)', [sampleHome()], 'FromHeat', undefined],
    ['real weather, (a)', seattle, 'FromMeter', undefined],
    ['real weather, (b)', seattle, 'FromHeat', undefined],
    ['real weather, (a) without a heat meter', seattle, 'FromMeter', withoutHeat],
    ['real weather, (b) without last year’s gas', seattle, 'FromHeat', withoutGas],
    ['real weather 6 °C colder, (a)', colder, 'FromMeter', undefined],
    ['real weather 6 °C colder, (b)', colder, 'FromHeat', undefined],
    ['scattered months, (a)', scattered, 'FromMeter', undefined],
    ['scattered months, (b)', scattered, 'FromHeat', undefined],
  ];

  console.info(
    `${'runs of 3 to 11 months'.padEnd(44)}  runs  said   held   half-width of the median, of the cost`,
  );
  it.each(cases)('%s', (name, homes, estimate, change) => {
    const runs = backtest(homes, estimate, change);
    const said = runs.filter(({ saidPounds, rangePounds }) => saidPounds !== null && rangePounds !== null);
    console.info(row(name, runs, said));
    // Not only by saying nothing: three of ten runs speak, and every run of a whole heating season does.
    expect(said.length / runs.length).toBeGreaterThan(0.3);
    const misses = said.filter((run) => !holds(run)).length;
    expect(chanceOf(misses, said.length), `${misses} of ${said.length} missed`).toBeGreaterThan(0.025);
  });

  it('the sample says nothing of a year from three winter months or without one, and says why', () => {
    const { inputs } = sampleHome();
    const settings = { ...inputs.settings, yearDegreeDays: 2121 };
    const yearOf = (from: number, until: number) =>
      compareHeating({ ...inputs, settings, months: inputs.months.slice(from, until) }).year;
    // The first month is October.
    expect(yearOf(2, 5)).toMatchObject({
      yearRefusal: 'No year: all months are much colder than the year.',
      yearHeatPumpPounds: '',
      yearDifferenceFromHeatPounds: '',
      paybackYears: '',
    });
    expect(yearOf(6, 12).yearRefusal).toBe('No year: no month is as cold as it is where most heating falls.');
    expect(yearOf(0, 5)).toMatchObject({ yearRefusal: '', yearDifferenceFromHeatPounds: expect.any(Number) });
  });

  it('refuses heat that would come out below 0 on a day without heating', () => {
    const month = (x: number, heat: number) => ({
      days: 30,
      degreeDays: 30 * x,
      heatKwh: 30 * heat,
      electricityKwh: (30 * heat) / 3,
    });
    const { inputs } = sampleHome();
    const { year } = compareHeating({
      ...inputs,
      settings: { ...inputs.settings, yearDegreeDays: 1900 },
      months: [month(4, 5), month(6, 25), month(9, 56), month(12, 85)],
    });
    expect(year.yearRefusal).toBe('No year: on a day without heating, heat would come out below 0.');
    expect(year.yearHeatPumpPounds).toBe('');
  });
});
