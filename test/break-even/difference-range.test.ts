import fc from 'fast-check';
import { mean, quantile, sampleStandardDeviation, sampleWithReplacement, sum } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { differenceRange } from '../../src/break-even/difference-range.js';
import { futureMeanReach } from '../../src/break-even/future-mean-reach.js';
import { type RandomStream, seededRandom } from '../../src/sample/seeded-random.js';

const YEAR_WEEKS = 52;
const CONFIDENCE = 0.9;
const rangeOf = (weeklyPounds: readonly number[], confidence = CONFIDENCE, daysAhead = 364) =>
  differenceRange({
    weeklyPounds,
    differencePounds: sum([...weeklyPounds].filter((week) => !Number.isNaN(week))),
    days: weeklyPounds.length * 7,
    daysAhead,
    confidence,
  });

/** Normal noise with a memory of the week before, and a season. */
class Household {
  private readonly random: RandomStream;
  private before = 0;

  constructor(
    seed: number,
    private readonly memory: number,
    private readonly season: number,
    private readonly level = 2,
  ) {
    this.random = seededRandom(`household ${seed}`);
    for (let i = 0; i < 20; i++) this.step();
  }

  private step(): number {
    this.before = this.memory * this.before + Math.sqrt(1 - this.memory ** 2) * this.random.normal();
    return this.before;
  }

  year(): number[] {
    return Array.from(
      { length: YEAR_WEEKS },
      (_, week) => this.level + this.season * Math.cos((2 * Math.PI * week) / YEAR_WEEKS) + this.step(),
    );
  }
}

/** In how many of many households the year after lies within the range of the year before. */
function held(memory: number, season: number, households = 600): { share: number; width: number } {
  const years = Array.from({ length: households }, (_, i) => {
    const home = new Household(i + 1, memory, season);
    const range = rangeOf(home.year());
    if (range === undefined) throw new Error('no range of a year');
    const after = sum(home.year());
    return {
      holds: after >= range.lowPounds && after <= range.highPounds,
      width: range.highPounds - range.lowPounds,
    };
  });
  return {
    share: years.filter(({ holds }) => holds).length / households,
    width: mean(years.map(({ width }) => width)),
  };
}

const week = fc.double({ min: -50, max: 50, noNaN: true });
const year = fc.array(week, { minLength: 12, maxLength: 60 });

describe('the range of a difference in days to come', () => {
  it('is of no width where all weeks are alike, and is the difference', () => {
    const range = rangeOf(Array(52).fill(2));
    expect(range).toMatchObject({ lowPounds: 104, highPounds: 104, expectedPounds: 104, spans: 13 });
    // 2(n-1)²/(3n-4) of 13, to a whole number.
    expect(range?.degreesOfFreedom).toBe(8);
  });

  it('by hand: three spans at 1, 3 and 2 a day', () => {
    const weekly = [7, 7, 7, 7, 21, 21, 21, 21, 14, 14, 14, 14];
    const range = differenceRange({
      weeklyPounds: weekly,
      differencePounds: 168,
      days: 84,
      daysAhead: 84,
      confidence: 0.5,
    });
    // Changes 2 and -1: √((4 + 1) / 2 / 2); t of one degree of freedom at 50 % is 1; √(1/3 + 1/3); 84 days.
    const reach = 1 * Math.sqrt(5 / 4) * Math.sqrt(2 / 3) * 84;
    expect(range?.deviationPoundsPerDay).toBeCloseTo(Math.sqrt(5 / 4), 12);
    expect(range?.lowPounds).toBeCloseTo(168 - reach, 9);
    expect(range?.highPounds).toBeCloseTo(168 + reach, 9);
  });

  it('turns with the sign, grows with the amounts and with the confidence, and knows no change of level', () => {
    fc.assert(
      fc.property(year, fc.double({ min: 0.1, max: 9, noNaN: true }), (weekly, factor) => {
        const range = rangeOf(weekly);
        const [mirrored, scaled, shifted, surer] = [
          rangeOf(weekly.map((pounds) => -pounds)),
          rangeOf(weekly.map((pounds) => factor * pounds)),
          rangeOf(weekly.map((pounds) => pounds + 7)),
          rangeOf(weekly, 0.95),
        ];
        if (!range || !mirrored || !scaled || !shifted || !surer) throw new Error('no range');
        expect(mirrored.lowPounds).toBeCloseTo(-range.highPounds, 6);
        expect(scaled.highPounds).toBeCloseTo(factor * range.highPounds, 5);
        expect(shifted.deviationPoundsPerDay).toBeCloseTo(range.deviationPoundsPerDay, 9);
        expect(surer.lowPounds).toBeLessThanOrEqual(range.lowPounds);
        expect(range.lowPounds).toBeLessThanOrEqual(range.expectedPounds);
      }),
      { seed: 5, numRuns: 100 },
    );
  });

  it('says nothing of fewer than three spans, or without two neighbours; a span lives with one week missing', () => {
    const weeks = (count: number) => Array.from({ length: count }, (_, i) => (i % 5) + 1);
    const without = (from: readonly number[], ...gone: number[]) =>
      from.map((pounds, i) => (gone.includes(i) ? Number.NaN : pounds));
    expect(rangeOf(weeks(11))).toBeUndefined();
    expect(rangeOf(weeks(12))?.spans).toBe(3);
    expect(rangeOf(without(weeks(12), 4))?.spans).toBe(3);
    expect(rangeOf(without(weeks(12), 4, 5))).toBeUndefined();
    // Three spans are left of four, but only two of them are neighbours.
    expect(rangeOf(without(weeks(16), 4, 5))).toBeUndefined();
  });

  it('refuses what is no number, no days and no confidence', () => {
    const usual = { weeklyPounds: Array(52).fill(2), differencePounds: 104, days: 364, daysAhead: 364 };
    expect(() => differenceRange({ ...usual, confidence: 1 })).toThrow(/confidence/);
    expect(() => differenceRange({ ...usual, confidence: 0.9, days: 0 })).toThrow(/days/);
    expect(() => differenceRange({ ...usual, confidence: 0.9, differencePounds: Number.NaN })).toThrow(
      /differencePounds/,
    );
    expect(() =>
      futureMeanReach({ deviation: -1, degreesOfFreedom: 3, observations: 4, ahead: 1, confidence: 0.9 }),
    ).toThrow(/deviation/);
  });

  it('holds the year after nine times in ten, within what 600 households allow', () => {
    // Three standard errors of a share of 600: 0.037.
    const { share } = held(0, 0);
    expect(Math.abs(share - CONFIDENCE)).toBeLessThan(0.037);
  });

  it('loses little where weeks remember one another, and is wider, not wrong, where there are seasons', () => {
    expect(held(0.3, 0).share).toBeGreaterThan(0.84);
    const [calm, seasonal] = [held(0.3, 0), held(0.3, 3)];
    expect(seasonal.share).toBeGreaterThan(0.9);
    // Not as wide as summer against winter: the spread of the weeks would be three times that of the noise.
    expect(seasonal.width).toBeLessThan(2 * calm.width);
  });

  it('is as wide as resampling spans of the same weeks has it', () => {
    const weekly = new Household(11, 0, 0).year();
    const spans = Array.from({ length: 13 }, (_, i) => sum(weekly.slice(4 * i, 4 * i + 4)));
    const { uniform } = seededRandom('spans');
    // A year to come and a year seen, both drawn: their difference spreads as what is to come around what was seen.
    const draws = Array.from(
      { length: 4000 },
      () => sum(sampleWithReplacement(spans, 13, uniform)) - sum(sampleWithReplacement(spans, 13, uniform)),
    );
    const resampled = quantile(draws, 0.95) - quantile(draws, 0.05);
    const range = rangeOf(weekly);
    const width = (range?.highPounds ?? 0) - (range?.lowPounds ?? 0);
    // Resampling takes the spread of the spans about their mean, and no t: both differ by known factors.
    const byNormal = 2 * 1.645 * (range?.deviationPoundsPerDay ?? 0) * 28 * Math.sqrt(2 * 13);
    const ofSpans = sampleStandardDeviation(spans) / 28 / (range?.deviationPoundsPerDay ?? 1);
    expect(resampled / (byNormal * ofSpans * Math.sqrt(12 / 13))).toBeCloseTo(1, 1);
    expect(width / byNormal).toBeCloseTo(1.8595 / 1.645, 2);
  });
});
