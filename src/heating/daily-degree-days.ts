import { degreeDaysFromDailyMean } from './degree-days-from-daily-mean.js';
import { degreeDaysFromMaxMin } from './degree-days-from-max-min.js';
import { degreeDaysFromTemperatures } from './degree-days-from-temperatures.js';

/** What is known of one local day's outside temperature, °C; NaN where missing. */
export type DayTemperatures =
  | { kind: 'mean'; serial: number; meanC: number }
  | { kind: 'maxMin'; serial: number; maxC: number; minC: number }
  | { kind: 'steps'; serial: number; temperaturesC: ArrayLike<number>; stepHours: number };

/**
 * Heating degree days of one day from whatever is known of it.
 *
 * @param day local day (spreadsheet serial day) and its temperatures, °C
 * @param baseC base temperature, °C
 * @returns degree days, °C·day; `null` where a temperature of the day is missing: nothing is filled in
 * @throws InputError when a maximum is below its minimum or the base is no number
 * @example dailyDegreeDays({ kind: 'mean', serial: 46023, meanC: 5 }, 15.5) // 10.5
 */
export function dailyDegreeDays(day: DayTemperatures, baseC: number): number | null {
  switch (day.kind) {
    case 'mean':
      return Number.isNaN(day.meanC) ? null : degreeDaysFromDailyMean(day.meanC, baseC);
    case 'maxMin':
      return Number.isNaN(day.maxC) || Number.isNaN(day.minC)
        ? null
        : degreeDaysFromMaxMin(day.maxC, day.minC, baseC);
    case 'steps': {
      const steps = Array.from(day.temperaturesC);
      return steps.length === 0 || steps.some(Number.isNaN)
        ? null
        : degreeDaysFromTemperatures(steps, baseC, day.stepHours);
    }
  }
}
