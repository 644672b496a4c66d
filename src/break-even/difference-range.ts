import { requireNumber, requirePositive } from '../functions/require-number.js';
import { futureMeanReach } from './future-mean-reach.js';

/** Weeks of a span, and how many of them a span needs at least. */
const WEEKS_OF_SPAN = 4;
const FEWEST_WEEKS = 3;
const WEEK_DAYS = 7;
/** Spans, and changes from one to the next, that a range needs at least. */
const FEWEST_SPANS = 3;
const FEWEST_CHANGES = 2;

/** What {@link differenceRange} works from. */
export interface WeeklyDifferences {
  /** £, one whole week after another: what the second tariff's energy costs more than the first's; NaN: not known. */
  weeklyPounds: ArrayLike<number>;
  /** £ over all days: second total less first, with standing charges. */
  differencePounds: number;
  /** Days of that difference. */
  days: number;
  /** Days that the range speaks of. */
  daysAhead: number;
  /** How often the range is to hold, share 0–1. */
  confidence: number;
}

/** How far a difference between two tariffs may be another in as many days to come. */
export interface DifferenceRange {
  /** £ over the days ahead. */
  expectedPounds: number;
  lowPounds: number;
  highPounds: number;
  /** Spans of four weeks that it rests on. */
  spans: number;
  /** £ a day: standard deviation of a span's mean. */
  deviationPoundsPerDay: number;
  degreesOfFreedom: number;
}

/**
 * Range in which the difference between two tariffs' costs lies in days to come, if use stays as it was.
 *
 * Weeks are taken by fours, so that warm or busy spells of some weeks count as one. The spread of these means is that of
 * each against the next (mean square successive difference), so that summer against winter is not taken for chance. The
 * range is that of the mean of days to come, by Student's t.
 * Source: von Neumann, Kent, Bellinson and Hart, The mean square successive difference, Annals of Mathematical
 * Statistics 12 (1941), for spread and degrees of freedom 2(n-1)²/(3n-4); Hahn and Meeker, Statistical Intervals
 * (1991), for the interval of a future mean. Both from memory.
 *
 * @param differences weekly differences in £, the whole difference in £, its days, the days ahead and the confidence
 * @returns expected difference and range in £ over the days ahead; undefined where fewer than three spans, or two pairs
 *   of neighbours, are known
 * @throws InputError when a figure is no number, days are not above 0, or the confidence is not between 0 and 1
 * @example differenceRange({ weeklyPounds: Array(52).fill(2), differencePounds: 104, days: 364, daysAhead: 364,
 *   confidence: 0.9 })?.lowPounds // 104
 */
export function differenceRange(differences: WeeklyDifferences): DifferenceRange | undefined {
  const { weeklyPounds, confidence } = differences;
  const difference = requireNumber(differences.differencePounds, 'differencePounds');
  const days = requirePositive(differences.days, 'days');
  const daysAhead = requirePositive(differences.daysAhead, 'daysAhead');
  const means = spanMeans(weeklyPounds);
  const known = means.filter((mean) => !Number.isNaN(mean));
  const changes = means.slice(1).flatMap((mean, i) => {
    const change = mean - (means[i] ?? Number.NaN);
    return Number.isNaN(change) ? [] : [change];
  });
  const [spans, pairs] = [known.length, changes.length];
  if (spans < FEWEST_SPANS || pairs < FEWEST_CHANGES) return undefined;
  const deviation = Math.sqrt(changes.reduce((sum, change) => sum + change * change, 0) / pairs / 2);
  const freedom = Math.max(1, Math.floor((2 * pairs * pairs) / (3 * pairs - 1)));
  const reachPerDay = futureMeanReach({
    deviation,
    degreesOfFreedom: freedom,
    observations: spans,
    ahead: daysAhead / (WEEKS_OF_SPAN * WEEK_DAYS),
    confidence,
  });
  const reach = reachPerDay * daysAhead;
  const expected = (difference / days) * daysAhead;
  return {
    expectedPounds: expected,
    lowPounds: expected - reach,
    highPounds: expected + reach,
    spans,
    deviationPoundsPerDay: deviation,
    degreesOfFreedom: freedom,
  };
}

/** Mean a day of each span of four weeks that has three at least; NaN of the others. */
function spanMeans(weekly: ArrayLike<number>): number[] {
  return Array.from({ length: Math.floor(weekly.length / WEEKS_OF_SPAN) }, (_, span) => {
    const weeks = Array.from({ length: WEEKS_OF_SPAN }, (_, i) => weekly[span * WEEKS_OF_SPAN + i] ?? 0);
    const known = weeks.filter((week) => !Number.isNaN(week));
    if (known.length < FEWEST_WEEKS) return Number.NaN;
    return known.reduce((sum, week) => sum + week, 0) / known.length / WEEK_DAYS;
  });
}
