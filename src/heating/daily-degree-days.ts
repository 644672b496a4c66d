import { degreeDaysFromDailyMean } from './degree-days-from-daily-mean.js';
import { degreeDaysFromMaxMin } from './degree-days-from-max-min.js';
import { degreeDaysFromTemperatures } from './degree-days-from-temperatures.js';

/** What is known of one local day's outside temperature, °C; absent or NaN: not known. */
export interface DayTemperatures {
  /** The day, whole days since 1899-12-30. */
  serialDay: number;
  meanC?: number;
  maxC?: number;
  minC?: number;
  /** The day's temperatures half-hour by half-hour: 48 of them, 46 or 50 where the clock changes. */
  halfHoursC?: ArrayLike<number>;
}

/** Which temperatures a day's degree days come from, finest first. */
export type DegreeDayMethod = 'half-hours' | 'maximum and minimum' | 'mean';

/**
 * Heating degree days of one day, by the finest way that its temperatures allow: half-hours if there is no gap, else
 * maximum and minimum, else the mean.
 *
 * @param day local day and what is known of it, °C
 * @param baseC base temperature, °C
 * @returns degree days (°C·day) and how they were found; `null` where nothing allows them: nothing is filled in
 * @throws InputError when a maximum is below its minimum or the base is no number
 * @example dailyDegreeDays({ serialDay: 46023, meanC: 5 }, 15.5) // { degreeDays: 10.5, method: 'mean' }
 */
export function dailyDegreeDays(
  day: DayTemperatures,
  baseC: number,
): { degreeDays: number; method: DegreeDayMethod } | null {
  const { meanC, maxC, minC } = day;
  const halfHoursC = Array.from(day.halfHoursC ?? []);
  if (halfHoursC.length > 0 && !halfHoursC.some(Number.isNaN)) {
    return { degreeDays: degreeDaysFromTemperatures(halfHoursC, baseC, 0.5), method: 'half-hours' };
  }
  if (isKnown(maxC) && isKnown(minC)) {
    return { degreeDays: degreeDaysFromMaxMin(maxC, minC, baseC), method: 'maximum and minimum' };
  }
  return isKnown(meanC) ? { degreeDays: degreeDaysFromDailyMean(meanC, baseC), method: 'mean' } : null;
}

function isKnown(temperatureC: number | undefined): temperatureC is number {
  return temperatureC !== undefined && !Number.isNaN(temperatureC);
}
