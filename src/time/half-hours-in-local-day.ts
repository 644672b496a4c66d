import { DAY_MS, HALF_HOUR_MS, isoDateToSerial, serialToLocalMs } from './serial.js';
import { startOfLocalDay } from './start-of-local-day.js';
import { ZoneClock } from './zone-clock.js';

/**
 * Half-hours in a local calendar day: 48, or 46 and 50 where the clock moves an hour, 47 and 49 where it moves half of one.
 * Source: IANA time zone database.
 *
 * @param isoDate the day, `YYYY-MM-DD`
 * @param timeZone IANA name
 * @returns count of half-hours from local midnight to the next
 * @throws InputError when the zone is unknown
 * @throws RangeError when the date is no calendar date
 * @example halfHoursInLocalDay('2026-10-25', 'Europe/London') // 50
 */
export function halfHoursInLocalDay(isoDate: string, timeZone: string): number {
  const localMidnight = serialToLocalMs(isoDateToSerial(isoDate));
  const clock = new ZoneClock(timeZone, localMidnight - 2 * DAY_MS, localMidnight + 3 * DAY_MS);
  return (
    (startOfLocalDay(clock, localMidnight + DAY_MS) - startOfLocalDay(clock, localMidnight)) / HALF_HOUR_MS
  );
}
