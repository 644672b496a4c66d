import { MONTH_DAYS } from '../../src/outlook/calendar-year.js';
import { YEAR_CONFIDENCE, yearCost } from '../../src/outlook/year-cost.js';
import { HOME_KINDS, type HomeKind, type HomeYear, homeYears } from './year-homes.js';

/** How a prediction came out. */
export interface Outcome {
  place: string;
  year: number;
  kind: HomeKind;
  monthsKnown: number;
  /** Calendar month, 0 to 11, of the first that is shown. */
  firstMonth: number;
  /** Whether the range held the whole year whose months were hidden, and the year after. */
  heldThis: boolean;
  heldNext: boolean;
  /** Error of this year and half the width of both ranges, as shares of what the year cost. */
  error: number;
  reachThis: number;
  reachNext: number;
}

const MONTHS = MONTH_DAYS.length;
const means = (daily: readonly number[], month: readonly number[]): number[] =>
  MONTH_DAYS.map((_, m) => {
    const of = daily.filter((_, d) => month[d] === m);
    return of.reduce((sum, value) => sum + value, 0) / of.length;
  });
const yearOf = (daily: readonly number[]): number =>
  daily.reduce((sum, pounds, m) => sum + pounds * MONTH_DAYS[m]!, 0);

/**
 * Hides months of whole years of homes in real weather, and predicts the year.
 *
 * @param homes of each kind, in each year at each place
 * @param withTemperatures whether degree days are known
 * @param monthsKnown how many months in a row are shown; every other start is tried
 */
export function backtest(
  homes: readonly HomeYear[],
  withTemperatures: boolean,
  monthsKnown: readonly number[],
): Outcome[] {
  return homes.flatMap((home) => {
    const daily = means(home.dailyPounds, home.month);
    const degreeDays = means(home.degreeDays, home.month);
    const [truth, next] = [yearOf(daily), yearOf(means(home.nextPounds, home.nextMonth))];
    return monthsKnown.flatMap((known) =>
      Array.from({ length: known === MONTHS ? 1 : MONTHS / 2 }, (_, i): Outcome[] => {
        const isKnown = (m: number): boolean => (m - 2 * i + MONTHS) % MONTHS < known;
        const found = yearCost({
          dailyPounds: daily.map((pounds, m) => (isKnown(m) ? pounds : Number.NaN)),
          degreeDays: withTemperatures ? degreeDays : degreeDays.map(() => Number.NaN),
          usualDegreeDays: home.usualDegreeDays,
          standingPoundsPerDay: 0,
          coldestMonth: 1,
        });
        if (found.kind !== 'year') return [];
        const reachNext = found.highPounds - found.pounds;
        return [
          {
            place: home.place,
            year: home.year,
            kind: home.kind,
            monthsKnown: known,
            firstMonth: 2 * i,
            heldThis: Math.abs(truth - found.pounds) <= found.notMeteredReachPounds + 1e-9,
            heldNext: Math.abs(next - found.pounds) <= reachNext,
            error: Math.abs(truth - found.pounds) / Math.abs(truth),
            reachThis: found.notMeteredReachPounds / Math.abs(truth),
            reachNext: reachNext / Math.abs(truth),
          },
        ];
      }).flat(),
    );
  });
}

/** Coverage of some outcomes, and how far chance may take it: places and years have one weather each. */
export function coverage(
  outcomes: readonly Outcome[],
  held: 'heldThis' | 'heldNext',
): { share: number; chance: number; cases: number } {
  const shareOf = (some: readonly Outcome[]): number => some.filter((o) => o[held]).length / some.length;
  const groups = new Map<string, Outcome[]>();
  for (const outcome of outcomes) {
    const key = `${outcome.place} ${outcome.year}`;
    groups.set(key, [...(groups.get(key) ?? []), outcome]);
  }
  const shares = [...groups.values()].map(shareOf);
  const share = shareOf(outcomes);
  const between = Math.sqrt(
    shares.reduce((sum, of) => sum + (of - share) ** 2, 0) / (shares.length - 1) / shares.length,
  );
  const binomial = Math.sqrt((YEAR_CONFIDENCE * (1 - YEAR_CONFIDENCE)) / outcomes.length);
  return { share, chance: Math.max(between, binomial), cases: outcomes.length };
}

/**
 * The lowest share that the range held in one place, or in one year, by itself.
 *
 * @param outcomes of several places and years
 * @param held of the year whose months were hidden, or of the year after
 * @param by what is taken by itself
 * @returns share, 0–1
 */
export function lowestShare(
  outcomes: readonly Outcome[],
  held: 'heldThis' | 'heldNext',
  by: 'place' | 'year',
): number {
  const groups = new Set(outcomes.map((outcome) => outcome[by]));
  return Math.min(
    ...[...groups].map((group) => {
      const of = outcomes.filter((outcome) => outcome[by] === group);
      return of.filter((outcome) => outcome[held]).length / of.length;
    }),
  );
}

export { HOME_KINDS, homeYears };
