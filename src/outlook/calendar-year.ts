/** Days of the calendar months of a year of 365 days, count, from January. */
export const MONTH_DAYS: readonly number[] = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** Where in the year the shortest day is north of the equator, months from 1 January. */
const SHORTEST_DAY = 11.67;
/** The coldest time, some weeks after it (common practice, no source). */
const COLDEST = 0.5;
/** How much of the year has no degree days: the cosine is lifted by so much, and cut at 0 (common practice, no source). */
const LIFT = 0.4;

const cosine = (month: number, from: number): number => Math.cos((2 * Math.PI * (month + 0.5 - from)) / 12);

/**
 * How short the days of each month are: a cosine of the year about its shortest day. To a first order a day's length is
 * a multiple of it at every latitude, so that a fit needs none; south of the equator the fitted factor turns its sign.
 * Source: length of the day by Cooper's declination, to a first order; from memory.
 *
 * @returns twelve figures from January, −1 to 1, without unit
 * @example shortnessOfDays()[6] < 0 // July, north of the equator
 */
export function shortnessOfDays(): number[] {
  return MONTH_DAYS.map((_, month) => cosine(month, SHORTEST_DAY));
}

/**
 * The usual shape of degree days over a year in a temperate place: most in the coldest month, none in high summer.
 * Source: common practice, no source.
 *
 * @param coldestMonth 1 north of the equator, 7 south of it
 * @returns twelve figures from January, 0 to 1.4, without unit: a fit finds their size
 * @example usualCold(1)[6] // 0, July
 */
export function usualCold(coldestMonth: 1 | 7): number[] {
  return MONTH_DAYS.map((_, month) => Math.max(0, cosine(month, coldestMonth - 1 + COLDEST) + LIFT));
}
