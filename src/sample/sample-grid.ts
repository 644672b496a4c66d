import { DAY_MS, HALF_HOUR_MS, isoDateToSerial, localMsToSerial, serialToLocalMs } from '../time/serial.js';
import { startOfLocalDay } from '../time/start-of-local-day.js';
import { ZoneClock } from '../time/zone-clock.js';
import { SAMPLE_HOME } from './home.js';

/** The half-hours of a run of local days, with what each needs to know of the calendar. */
export interface SampleGrid {
  clock: ZoneClock;
  /** Start of each half-hour, epoch ms. */
  startUtcMs: Float64Array;
  /** Local minutes after midnight at the start of each half-hour. */
  localMinute: Int16Array;
  /** Number of each half-hour's local day, from 0. */
  day: Int16Array;
  /** Serial day of each local day, days since 1899-12-30. */
  daySerial: Float64Array;
  /** First half-hour of each local day, and after the last day the count of half-hours. */
  dayFirst: Int32Array;
}

/**
 * The half-hours of the sample home's local days.
 *
 * @param fromDay first local day, `YYYY-MM-DD`
 * @param untilDay local day after the last one
 * @returns the grid; 46 and 50 half-hours on the days when the clock changes
 * @throws RangeError when a date is none
 * @example sampleGrid('2026-03-29', '2026-03-30').startUtcMs.length // 46
 */
export function sampleGrid(fromDay: string, untilDay: string): SampleGrid {
  const fromLocalMs = serialToLocalMs(isoDateToSerial(fromDay));
  const untilLocalMs = serialToLocalMs(isoDateToSerial(untilDay));
  const clock = new ZoneClock(SAMPLE_HOME.timeZone, fromLocalMs, untilLocalMs);
  const firstMs = startOfLocalDay(clock, fromLocalMs);
  const count = (startOfLocalDay(clock, untilLocalMs) - firstMs) / HALF_HOUR_MS;
  const dayCount = (untilLocalMs - fromLocalMs) / DAY_MS;
  const startUtcMs = Float64Array.from({ length: count }, (_, i) => firstMs + i * HALF_HOUR_MS);
  const localMinute = new Int16Array(count);
  const day = new Int16Array(count);
  const dayFirst = new Int32Array(dayCount + 1).fill(count);
  for (let i = count - 1; i >= 0; i--) {
    const sinceStart = clock.localMsAt(startUtcMs[i]!) - fromLocalMs;
    day[i] = Math.floor(sinceStart / DAY_MS);
    localMinute[i] = (sinceStart % DAY_MS) / 60_000;
    dayFirst[day[i]!] = i;
  }
  const daySerial = Float64Array.from({ length: dayCount }, (_, d) => localMsToSerial(fromLocalMs) + d);
  return { clock, startUtcMs, localMinute, day, daySerial, dayFirst };
}

/**
 * Whether a local day is a Saturday or Sunday.
 *
 * @param serial days since 1899-12-30
 * @returns true at the weekend
 * @example isWeekend(46025) // true: Saturday 3 January 2026
 */
export function isWeekend(serial: number): boolean {
  return serial % 7 < 2;
}

/**
 * How far a day is into the warm half of the year.
 *
 * @param serial days since 1899-12-30
 * @returns from −1 in the third week of January to 1 in the third week of July
 * @example warmthOfSeason(46223) // 1, on 20 July 2026
 */
export function warmthOfSeason(serial: number): number {
  return -Math.cos((2 * Math.PI * (serial - 46_041)) / 365.25);
}
