import { describe, expect, it } from 'vitest';
import { YEAR_CONFIDENCE } from '../../src/outlook/year-cost.js';
import { backtest, coverage, homeYears, lowestShare, type Outcome } from '../outlook/backtest-years.js';

/*
 * Weather: Seattle and New York, 2012 to 2015, daily, by NOAA, public domain, in the npm package vega-datasets. Homes,
 * habits and tariffs are our own; none of them is one that the constants of the method were set on. The weather is: no
 * place and no year was held out when they were set, so that these numbers say nothing of another climate. Each place is
 * therefore looked at by itself, and has a bound of its own.
 */
const KNOWN = [5, 6, 7, 8, 9, 10, 11];
const homes = homeYears(6, 'other ');
/** A place and a year have one weather for all homes: chance is measured between them, three standard errors of it. */
const CHANCES = 3;
/** And however large chance is between them, the range holds at least so often: of all, and in each place by itself. */
const LEAST = { ofAll: 0.73, inEachPlace: 0.67 } as const;

const of = (outcomes: readonly Outcome[], known: number): Outcome[] =>
  outcomes.filter(({ monthsKnown }) => monthsKnown === known);

describe.each([
  ['with outdoor temperatures', true],
  ['without', false],
] as const)('a year of which months were hidden, %s', (_, withTemperatures) => {
  const outcomes = backtest(homes, withTemperatures, [...KNOWN, 12]);

  it.each(KNOWN)('lies in four ranges of five with %i months known', (known) => {
    const { share, chance, cases } = coverage(of(outcomes, known), 'heldThis');
    expect(cases).toBeGreaterThan(1000);
    expect(chance).toBeLessThan(0.05);
    expect(Math.abs(share - YEAR_CONFIDENCE)).toBeLessThan(CHANCES * chance);
    expect(share).toBeGreaterThan(LEAST.ofAll);
    expect(lowestShare(of(outcomes, known), 'heldThis', 'place')).toBeGreaterThan(LEAST.inEachPlace);
  });

  it.each([...KNOWN, 12])('and so does the year after, with %i months known', (known) => {
    const { share, chance } = coverage(of(outcomes, known), 'heldNext');
    expect(Math.abs(share - YEAR_CONFIDENCE)).toBeLessThan(CHANCES * chance);
    expect(share).toBeGreaterThan(LEAST.ofAll);
    expect(lowestShare(of(outcomes, known), 'heldNext', 'place')).toBeGreaterThan(LEAST.inEachPlace);
  });

  it('is told the more closely the more months are known', () => {
    const median = (values: number[]): number =>
      values.sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;
    const widths = KNOWN.map((known) => median(of(outcomes, known).map(({ reachThis }) => reachThis)));
    expect(widths).toEqual([...widths].sort((a, b) => b - a));
    expect(widths.at(-1)).toBeLessThan(0.05);
    expect(widths[0]).toBeGreaterThan(0.15);
  });
});

describe('of a heated home whose readings began in May', () => {
  const outcomes = backtest(homes, true, [5, 6, 7]).filter(
    ({ kind, firstMonth }) => kind.includes('heat') && firstMonth === 4,
  );

  it.each([5, 6, 7])('the range with %i months known holds a winter that none of them showed', (known) => {
    const { share, cases } = coverage(of(outcomes, known), 'heldThis');
    expect(cases).toBeGreaterThan(100);
    expect(share).toBeGreaterThan(LEAST.inEachPlace);
  });
});

it('scaled by days alone, a winter month would be far off: no year is told from it', () => {
  expect(backtest(homes, true, [1, 2, 3, 4])).toEqual([]);
});
