import { YEAR_CONFIDENCE } from '../../../src/outlook/year-cost.js';
import {
  backtest,
  coverage,
  homeYears,
  lowestShare,
  type Outcome,
} from '../../../test/outlook/backtest-years.js';

/** Months in a row that are shown of each year. */
const KNOWN = [5, 6, 7, 8, 9, 10, 11, 12];
const HOMES = 12;

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
const median = (values: number[]): number =>
  values.sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

function row(cells: readonly string[]): string {
  return cells.map((cell, i) => (i === 0 ? cell.padEnd(14) : cell.padStart(12))).join(' ');
}

function lines(outcomes: readonly Outcome[]): string[] {
  return KNOWN.map((known) => {
    const of = outcomes.filter(({ monthsKnown }) => monthsKnown === known);
    const [year, next] = [coverage(of, 'heldThis'), coverage(of, 'heldNext')];
    return row([
      `${known} months`,
      String(of.length),
      known === 12 ? '–' : percent(year.share),
      known === 12 ? '–' : percent(year.chance),
      percent(median(of.map(({ error }) => error))),
      `± ${percent(median(of.map(({ reachThis }) => reachThis)))}`,
      percent(next.share),
      percent(next.chance),
      `± ${percent(median(of.map(({ reachNext }) => reachNext)))}`,
      ...(['heldThis', 'heldNext'] as const).flatMap((held) =>
        (['place', 'year'] as const).map((by) =>
          known === 12 && held === 'heldThis' ? '–' : percent(lowestShare(of, held, by)),
        ),
      ),
    ]);
  });
}

/**
 * What a year costs, from some of its months: how often the range held it, by number of months known.
 *
 * @returns a table for the terminal
 */
export function yearTable(): string {
  const homes = homeYears(HOMES, 'bench ');
  const header = [
    'months known',
    'cases',
    'held',
    'chance',
    'error',
    'range',
    'year after',
    'chance',
    'range',
    'held, place',
    'held, year',
    'after, place',
    'after, year',
  ];
  return [
    `A year's cost from some of its months; the range is to hold ${percent(YEAR_CONFIDENCE)}.`,
    'Homes of our own in the weather of Seattle and New York, 2012 to 2015 (NOAA, by vega-datasets).',
    'Chance: one standard error, between places and years, which have one weather for all homes.',
    'Error and ranges: medians, as shares of what the year cost. Place, year: the lowest of each by itself.',
    'The constants were set on other homes in this same weather: no place and no year is held out of them.',
    ...([true, false] as const).flatMap((withTemperatures) => [
      '',
      withTemperatures ? 'With outdoor temperatures' : 'Without',
      row(header),
      ...lines(backtest(homes, withTemperatures, KNOWN)),
    ]),
  ].join('\n');
}
