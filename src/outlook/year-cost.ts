import { InputError } from '../errors.js';
import { requireNumber } from '../functions/require-number.js';
import { twoSidedTQuantile } from '../heating/two-sided-t-quantile.js';
import { MONTH_DAYS, shortnessOfDays, usualCold } from './calendar-year.js';

/**
 * Fewest calendar months that a year can be told from, count: three figures are fitted, and two show the scatter
 * (common practice, no source).
 */
export const FEWEST_MONTHS = 5;
/**
 * Share of the scatter that all months of a stretch have in common, 0–1: what a fit misses of one it misses of its neighbours.
 * Source: set once on homes of the project's own in weather of Seattle and New York, 2012 to 2015, by NOAA.
 */
export const COMMON = {
  /** Months not metered, by degree days. */
  byWeather: 0.3,
  /** Months not metered, by the season alone: its shape may be wrong for all of them. */
  bySeason: 1,
  /** Habits of another year. */
  habits: 0.1,
  /** Weather of another year. */
  weather: 0.1,
} as const;
/**
 * How far a month's degree days are from those of the same month of another year, °C a day (root mean square).
 * Source: Seattle and New York, 2012 to 2015, daily weather by NOAA: 1.6 to 2.1.
 */
export const OTHER_YEAR_C = 2;
/**
 * How far the cost of cold beyond that of the coldest month metered may be from what the fit says, as a share (one standard deviation):
 * heat pumps give less for a kWh the colder it is, and mild months don't show it.
 * Source: set once on the same homes: for heated ones that began in April or May the range held in six cases of ten without it, in seven with it.
 */
export const BEYOND_COLDEST = 0.3;
/** How often the range is to hold, share 0–1 (common practice, no source). */
export const YEAR_CONFIDENCE = 0.8;
/** Least share of the two fitted lines that is not the same, 0–1: below it they can't be told apart (no source). */
export const LEAST_APART = 1e-6;

/** What {@link yearCost} works from; lists are of twelve calendar months from January. */
export interface MonthsOfYear {
  /** £ a day: energy less export, at the latest rates, without the standing charge; NaN: not metered. */
  dailyPounds: ArrayLike<number>;
  /** °C·day a day of those months as they were; NaN: not known. */
  degreeDays: ArrayLike<number>;
  /** °C·day a day of the same months in other years; NaN: not known. Needed of months that were not metered. */
  usualDegreeDays: ArrayLike<number>;
  /** Standing charge, £ a day. */
  standingPoundsPerDay: number;
  /** 1 north of the equator, 7 south of it; where it is not given, degree days are needed. */
  coldestMonth?: 1 | 7 | undefined;
}

/** What a year costs. */
export interface YearCost {
  kind: 'year';
  /** £ in a year of 365 days: months as they were metered, the others by the fit. */
  pounds: number;
  /** £: range of a year to come. */
  lowPounds: number;
  highPounds: number;
  /** £ either way, for the months alone that were not metered; 0 where all were. */
  notMeteredReachPounds: number;
  monthsMetered: number;
  /** What the months that were not metered were fitted to, beside the length of the day. */
  by: 'degree days' | 'season';
}

/** Why a year can't be told. */
export interface NotEnoughForYear {
  kind: 'not enough';
  reason: 'fewer than five months' | 'neither degree days nor season' | 'months too alike';
}

/**
 * What a year costs at the latest rates, from the months there are: never by days alone.
 *
 * Months that were metered count as they are, at their daily cost over all their days. The others come from a fit of the daily cost of months to the length of
 * the day (lamps, sun on the roof, what a battery makes of it) and to degree days (heating), by ordinary least squares;
 * where degree days are missing, to their usual shape over the year. The range is that of a year to come: doubt in the
 * fit, scatter of months about it, cold that no month showed ({@link BEYOND_COLDEST}), another year's habits, and weather. What months miss together does not average out:
 * see {@link COMMON}, set once on homes of the project's own in real weather, where the range holds about as often as it says.
 * Source: prediction interval of multiple linear regression, common textbook; from memory.
 *
 * @param months daily costs, £, and degree days, °C·day a day, by calendar month; the standing charge, £ a day
 * @param confidence how often the range is to hold, share 0–1
 * @returns the year and its range, £; or the reason why there is none
 * @throws InputError when a list has not twelve months, a daily cost is infinite, degree days are infinite or below 0, the
 *   standing charge is no number, the coldest month neither 1 nor 7, or the confidence not between 0 and 1
 * @example // June, July and August are not metered.
 * yearCost({ dailyPounds: [6, 5.7, 5.1, 4.3, 3.2, NaN, NaN, NaN, 2.6, 3.7, 4.9, 5.7],
 *   degreeDays: [10, 9, 8, 6, 3, NaN, NaN, NaN, 1, 4, 7, 9],
 *   usualDegreeDays: [NaN, NaN, NaN, NaN, NaN, 1, 0, 0, NaN, NaN, NaN, NaN], standingPoundsPerDay: 0.5 }) // pounds: 1632.63
 */
export function yearCost(months: MonthsOfYear, confidence = YEAR_CONFIDENCE): YearCost | NotEnoughForYear {
  for (const key of ['dailyPounds', 'degreeDays', 'usualDegreeDays'] as const) {
    requireMonths(key, months[key], key === 'dailyPounds' ? Number.NEGATIVE_INFINITY : 0);
  }
  if (months.coldestMonth !== undefined && months.coldestMonth !== 1 && months.coldestMonth !== 7) {
    const advice = 'Give 1 north of the equator, 7 south of it, or leave it out.';
    throw new InputError(`coldestMonth is ${months.coldestMonth}`, advice);
  }
  if (!(confidence > 0 && confidence < 1))
    throw new InputError(`confidence is ${confidence}`, 'Give a share between 0 and 1, such as 0.8.');
  const standing = requireNumber(months.standingPoundsPerDay, 'standingPoundsPerDay');
  const daily = Array.from(months.dailyPounds);
  const isKnown = daily.map((pounds) => !Number.isNaN(pounds));
  const metered = places(isKnown, true);
  const missing = places(isKnown, false);
  if (metered.length < FEWEST_MONTHS) return { kind: 'not enough', reason: 'fewer than five months' };
  const cold = coldOf(months, isKnown);
  if (cold === undefined) return { kind: 'not enough', reason: 'neither degree days nor season' };
  const short = shortnessOfDays();
  const fit = fitMonths(metered.map((m) => [short[m]!, cold.of[m]!, daily[m]!] as const));
  if (fit === undefined) return { kind: 'not enough', reason: 'months too alike' };

  const days = sum(MONTH_DAYS);
  const missingDays = sum(missing.map((m) => MONTH_DAYS[m]!));
  const away = (of: readonly number[], mean: number): number =>
    sum(missing.map((m) => MONTH_DAYS[m]! * (of[m]! - mean)));
  const [u, v] = [away(short, fit.meanShort), away(cold.of, fit.meanCold)];
  const pounds =
    sum(metered.map((m) => MONTH_DAYS[m]! * daily[m]!)) +
    missingDays * fit.mean +
    u * fit.perShort +
    v * fit.perCold +
    days * standing;

  const doubtOfFit =
    missingDays ** 2 / metered.length +
    (fit.coldSquares * u * u - 2 * fit.products * u * v + fit.shortSquares * v * v) / fit.determinant;
  const byWeather = cold.by === 'degree days';
  const ofFit = fit.variance * (doubtOfFit + spread(missing, byWeather ? COMMON.byWeather : COMMON.bySeason));
  // What the season does not explain holds the weather already.
  const beyond = coldBeyond(cold.of, metered, missing);
  const steeper = (fit.perCold * BEYOND_COLDEST * beyond) ** 2;
  const weather = byWeather ? (fit.perCold * OTHER_YEAR_C) ** 2 : 0;
  const again = 2 * fit.variance * spread(metered, COMMON.habits);
  const t = twoSidedTQuantile(confidence, metered.length - 3);
  const reach =
    t * Math.sqrt(ofFit + steeper + again + weather * spread([...metered, ...missing], COMMON.weather));
  return {
    kind: 'year',
    pounds,
    lowPounds: pounds - reach,
    highPounds: pounds + reach,
    notMeteredReachPounds: t * Math.sqrt(ofFit + steeper + weather * spread(missing, COMMON.weather)),
    monthsMetered: metered.length,
    by: cold.by,
  };
}

/** Refuses lists of months that are not twelve, or hold what is neither a number from a least on nor NaN. */
function requireMonths(key: string, values: ArrayLike<number>, least: number): void {
  if (values.length !== MONTH_DAYS.length)
    throw new InputError(`${key} has ${values.length} figures`, 'Give twelve, from January.');
  Array.from(values).forEach((value, month) => {
    if (Number.isNaN(value)) return;
    requireNumber(value, `${key} of month ${month + 1}`, least);
  });
}

const places = (isKnown: readonly boolean[], which: boolean): number[] =>
  isKnown.flatMap((known, month) => (known === which ? [month] : []));

/** Degree days of every month, as it was or as it usually is; else their usual shape. */
function coldOf(
  { degreeDays, usualDegreeDays, coldestMonth }: MonthsOfYear,
  isKnown: readonly boolean[],
): { by: YearCost['by']; of: number[] } | undefined {
  const of = isKnown.map((known, m) => (known ? degreeDays[m]! : usualDegreeDays[m]!));
  if (!of.some(Number.isNaN)) return { by: 'degree days', of };
  return coldestMonth === undefined ? undefined : { by: 'season', of: usualCold(coldestMonth) };
}

/** How cold months not metered are beyond the coldest that was, °C·day over their days. */
function coldBeyond(cold: readonly number[], metered: readonly number[], missing: readonly number[]): number {
  const coldest = Math.max(...metered.map((m) => cold[m]!));
  return sum(missing.map((m) => MONTH_DAYS[m]! * Math.max(0, cold[m]! - coldest)));
}

/** Squared days of months whose errors have a share in common. */
function spread(months: readonly number[], common: number): number {
  const days = months.map((m) => MONTH_DAYS[m]!);
  return (1 - common) * sum(days.map((d) => d * d)) + common * sum(days) ** 2;
}

/** The plane through points (shortness of the day, cold, £ a day); undefined where the two lines can't be told apart. */
function fitMonths(points: readonly (readonly [short: number, cold: number, pounds: number])[]) {
  const n = points.length;
  const meanOf = (k: 0 | 1 | 2): number => sum(points.map((point) => point[k])) / n;
  const [meanShort, meanCold, mean] = [meanOf(0), meanOf(1), meanOf(2)];
  const means = [meanShort, meanCold, mean];
  const product = (j: 0 | 1 | 2, k: 0 | 1 | 2): number =>
    sum(points.map((point) => (point[j] - means[j]!) * (point[k] - means[k]!)));
  const [shortSquares, coldSquares, products] = [product(0, 0), product(1, 1), product(0, 1)];
  const determinant = shortSquares * coldSquares - products * products;
  if (!(determinant > LEAST_APART * shortSquares * coldSquares)) return undefined;
  const [ofShort, ofCold] = [product(0, 2), product(1, 2)];
  const perShort = (coldSquares * ofShort - products * ofCold) / determinant;
  const perCold = (shortSquares * ofCold - products * ofShort) / determinant;
  const left = product(2, 2) - perShort * ofShort - perCold * ofCold;
  return {
    meanShort,
    meanCold,
    mean,
    shortSquares,
    coldSquares,
    products,
    determinant,
    perShort,
    perCold,
    variance: Math.max(0, left) / (n - 3),
  };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
