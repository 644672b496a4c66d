import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { twoSidedTQuantile } from '../../src/heating/two-sided-t-quantile.js';
import { MONTH_DAYS, shortnessOfDays, usualCold } from '../../src/outlook/calendar-year.js';
import {
  COMMON,
  type MonthsOfYear,
  OTHER_YEAR_C,
  type YearCost,
  yearCost,
} from '../../src/outlook/year-cost.js';

const DEGREE_DAYS = [10, 9, 8, 6, 3, 1, 0, 0, 1, 4, 7, 9];
const NONE = MONTH_DAYS.map(() => Number.NaN);
const SHORT = shortnessOfDays();
const SEED = { seed: 11, numRuns: 60 };

const told = (months: Partial<MonthsOfYear>): YearCost => {
  const year = yearCost({
    dailyPounds: NONE,
    degreeDays: DEGREE_DAYS,
    usualDegreeDays: DEGREE_DAYS,
    standingPoundsPerDay: 0.5,
    ...months,
  });
  if (year.kind !== 'year') throw new Error(year.reason);
  return year;
};
const without = (daily: readonly number[], hidden: readonly number[]): number[] =>
  daily.map((pounds, m) => (hidden.includes(m) ? Number.NaN : pounds));

/** Five to eleven months that are known, of twelve. */
const hidden = fc.uniqueArray(fc.integer({ min: 0, max: 11 }), { minLength: 1, maxLength: 7 });
const costs = fc.array(fc.double({ min: 0.5, max: 12, noNaN: true }), { minLength: 12, maxLength: 12 });

describe('a year from months', () => {
  it('is what was metered where all of it was, and the standing charge', () => {
    fc.assert(
      fc.property(costs, (daily) => {
        const year = told({ dailyPounds: daily });
        const metered = daily.reduce((sum, pounds, m) => sum + pounds * MONTH_DAYS[m]!, 0);
        expect(year.pounds).toBeCloseTo(metered + 365 * 0.5, 6);
        expect(year.notMeteredReachPounds).toBe(0);
        expect(year.monthsMetered).toBe(12);
        expect(year.highPounds).toBeGreaterThan(year.pounds);
      }),
      SEED,
    );
  });

  it('finds months that lie on a plane of day length and degree days, whichever are hidden', () => {
    const part = fc.double({ min: -3, max: 3, noNaN: true });
    fc.assert(
      fc.property(
        part,
        part,
        fc.double({ min: 0, max: 0.8, noNaN: true }),
        hidden,
        (base, light, cold, gone) => {
          const daily = SHORT.map((short, m) => base + light * short + cold * DEGREE_DAYS[m]!);
          const year = told({ dailyPounds: without(daily, gone) });
          expect(year.pounds).toBeCloseTo(told({ dailyPounds: daily }).pounds, 5);
          expect(year.by).toBe('degree days');
        },
      ),
      SEED,
    );
  });

  it('moves with what is added to every day, and grows with what every day is multiplied by', () => {
    fc.assert(
      fc.property(costs, hidden, fc.double({ min: 0.1, max: 5, noNaN: true }), (daily, gone, more) => {
        const known = without(daily, gone);
        const [year, added, times] = [
          told({ dailyPounds: known, standingPoundsPerDay: 0 }),
          told({ dailyPounds: known.map((pounds) => pounds + more), standingPoundsPerDay: 0 }),
          told({ dailyPounds: known.map((pounds) => pounds * more), standingPoundsPerDay: 0 }),
        ];
        const reach = ({ highPounds, lowPounds }: YearCost): number => highPounds - lowPounds;
        const scale = 1e-9 * (1 + reach(year));
        expect(Math.abs(added.pounds - year.pounds - 365 * more)).toBeLessThan(1e-6 + scale);
        expect(Math.abs(reach(added) - reach(year))).toBeLessThan(1e-5 + scale);
        expect(Math.abs(times.pounds - more * year.pounds)).toBeLessThan(1e-6 + 5 * scale);
        expect(Math.abs(reach(times) - more * reach(year))).toBeLessThan(1e-5 + 5 * scale);
      }),
      SEED,
    );
  });

  it('has the range of the textbook, worked out by the inverse of the whole matrix', () => {
    const daily = [8, 7.4, 6.6, 4.9, 3.9, 2.2, 2.6, 2.1, 2.9, 4.2, 6.4, 7.1];
    const gone = [5, 6, 7];
    const year = told({ dailyPounds: without(daily, gone) });
    const known = MONTH_DAYS.map((_, m) => m).filter((m) => !gone.includes(m));
    const row = (m: number): number[] => [1, SHORT[m]!, DEGREE_DAYS[m]!];
    const cross = [0, 1, 2].map((i) =>
      [0, 1, 2].map((j) => known.reduce((s, m) => s + row(m)[i]! * row(m)[j]!, 0)),
    );
    const inverse = inverted(cross);
    const right = [0, 1, 2].map((i) => known.reduce((s, m) => s + row(m)[i]! * daily[m]!, 0));
    const b = times(inverse, right);
    const fitted = (m: number): number => row(m).reduce((s, x, i) => s + x * b[i]!, 0);
    const variance = known.reduce((s, m) => s + (daily[m]! - fitted(m)) ** 2, 0) / (known.length - 3);
    const away = [0, 1, 2].map((i) => gone.reduce((s, m) => s + MONTH_DAYS[m]! * row(m)[i]!, 0));
    const doubt = times(inverse, away).reduce((s, x, i) => s + x * away[i]!, 0);
    const spread = (months: readonly number[], common: number): number =>
      (1 - common) * months.reduce((s, m) => s + MONTH_DAYS[m]! ** 2, 0) +
      common * months.reduce((s, m) => s + MONTH_DAYS[m]!, 0) ** 2;
    const weather = (b[2]! * OTHER_YEAR_C) ** 2;
    const t = twoSidedTQuantile(0.8, known.length - 3);
    const ofMissing = variance * (doubt + spread(gone, COMMON.byWeather));
    expect(year.notMeteredReachPounds).toBeCloseTo(
      t * Math.sqrt(ofMissing + weather * spread(gone, COMMON.weather)),
      8,
    );
    const ofYear =
      ofMissing +
      2 * variance * spread(known, COMMON.habits) +
      weather *
        spread(
          MONTH_DAYS.map((_, m) => m),
          COMMON.weather,
        );
    expect(year.highPounds - year.pounds).toBeCloseTo(t * Math.sqrt(ofYear), 8);
    expect(year.pounds - year.lowPounds).toBeCloseTo(t * Math.sqrt(ofYear), 8);
  });

  it('goes by the usual shape of the year where degree days of one month are missing', () => {
    const daily = SHORT.map((short, m) => 3 + short + 2 * usualCold(1)[m]!);
    const lacking = DEGREE_DAYS.map((degreeDays, m) => (m === 3 ? Number.NaN : degreeDays));
    const months = { dailyPounds: without(daily, [6, 7, 8]), degreeDays: lacking, usualDegreeDays: NONE };
    const north = told({ ...months, coldestMonth: 1 });
    expect(north.by).toBe('season');
    expect(north.pounds).toBeCloseTo(told({ dailyPounds: daily }).pounds, 6);
    // The same home on the other side of the equator.
    const turned = (list: readonly number[]): number[] => list.map((_, m) => list[(m + 6) % 12]!);
    const south = told({ ...months, dailyPounds: without(turned(daily), [0, 1, 2]), coldestMonth: 7 });
    expect(south.pounds - north.pounds).toBeLessThan(20);
    expect(yearCost({ ...months, standingPoundsPerDay: 0 })).toEqual({
      kind: 'not enough',
      reason: 'neither degree days nor season',
    });
  });

  it('is not told from one winter month, nor from four', () => {
    for (const known of [1, 2, 3, 4]) {
      const dailyPounds = MONTH_DAYS.map((_, m) => (m < known ? 8 - m : Number.NaN));
      expect(
        yearCost({
          dailyPounds,
          degreeDays: DEGREE_DAYS,
          usualDegreeDays: DEGREE_DAYS,
          standingPoundsPerDay: 0,
        }),
      ).toEqual({ kind: 'not enough', reason: 'fewer than five months' });
    }
  });

  it('is not told where degree days go exactly with the length of the day', () => {
    const year = yearCost({
      dailyPounds: without(DEGREE_DAYS, [6]),
      degreeDays: SHORT.map((short) => 5 + 4 * short),
      usualDegreeDays: SHORT.map((short) => 5 + 4 * short),
      standingPoundsPerDay: 0,
    });
    expect(year).toEqual({ kind: 'not enough', reason: 'months too alike' });
  });

  it('refuses figures that no month has', () => {
    const daily = MONTH_DAYS.map(() => 3);
    const wrong = (change: Partial<Record<keyof MonthsOfYear, unknown>>, confidence?: number) => () =>
      yearCost(
        {
          dailyPounds: daily,
          degreeDays: DEGREE_DAYS,
          usualDegreeDays: NONE,
          standingPoundsPerDay: 0.5,
          ...change,
        } as MonthsOfYear,
        confidence,
      );
    expect(wrong({})).not.toThrow();
    expect(wrong({ dailyPounds: daily.with(2, Number.POSITIVE_INFINITY) })).toThrow(
      /dailyPounds of month 3 is Infinity/,
    );
    expect(wrong({ degreeDays: DEGREE_DAYS.with(0, -1) })).toThrow(/degreeDays of month 1 is -1/);
    expect(wrong({ usualDegreeDays: NONE.with(11, -0.5) })).toThrow(/usualDegreeDays of month 12 is -0.5/);
    expect(wrong({ coldestMonth: 2 })).toThrow(/coldestMonth is 2/);
    for (const confidence of [0, 1, 80, -0.1, Number.NaN])
      expect(wrong({}, confidence)).toThrow(`confidence is ${confidence}`);
  });

  it('refuses lists that are not of twelve months', () => {
    expect(() => told({ degreeDays: [1, 2] })).toThrow(/degreeDays has 2 figures/);
    expect(() => told({ standingPoundsPerDay: Number.NaN })).toThrow(/standingPoundsPerDay/);
  });
});

function times(matrix: readonly (readonly number[])[], vector: readonly number[]): number[] {
  return matrix.map((row) => row.reduce((sum, x, i) => sum + x * vector[i]!, 0));
}

/** By Gauss and Jordan. */
function inverted(matrix: readonly (readonly number[])[]): number[][] {
  const rows = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  rows.forEach((row, i) => {
    const pivot = row[i]!;
    row.forEach((value, j) => {
      row[j] = value / pivot;
    });
    rows.forEach((other, k) => {
      const factor = other[i]!;
      if (k !== i) {
        other.forEach((value, j) => {
          other[j] = value - factor * row[j]!;
        });
      }
    });
  });
  return rows.map((row) => row.slice(matrix.length));
}
