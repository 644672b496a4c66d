/** Fewest intervals of a whole day: hours, where the clock skips one. */
export const MIN_SLOTS = 23;

/**
 * Length of an interval from how many a day has: 23 to 25 are hours, 46 to 50 half-hours, 92 to 100 quarters, and so on.
 *
 * @param count intervals of a day
 * @returns minutes; undefined where no usual length has so many
 * @example stepOfCount(48) // 30
 */
export function stepOfCount(count: number): number | undefined {
  return [60, 30, 15, 10, 5].find((step) => count >= (23 * 60) / step && count <= (25 * 60) / step);
}
