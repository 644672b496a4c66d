import { HALF_HOUR_MS, isoDateToSerial, SLOTS_PER_DAY, serialToLocalMs } from './serial.js';
import { startOfLocalDay } from './start-of-local-day.js';
import { ZoneClock } from './zone-clock.js';

/**
 * The days on which a zone's clock changes, as the small table that spreadsheet formulas look up.
 * Source: IANA time zone database.
 *
 * @param timeZone IANA name
 * @param fromIsoDate first day, `YYYY-MM-DD`
 * @param toIsoDate last day, `YYYY-MM-DD`
 * @returns rows of [serial day, minutes by which the day is longer than 24 hours], ascending; −60 in a usual spring
 * @throws InputError when the zone is unknown
 * @throws RangeError when a date is no calendar date
 * @example clockChangeTable('Europe/London', '2026-01-01', '2026-12-31') // [[46110, -60], [46320, 60]]
 */
export function clockChangeTable(
  timeZone: string,
  fromIsoDate: string,
  toIsoDate: string,
): [number, number][] {
  const first = isoDateToSerial(fromIsoDate);
  const last = isoDateToSerial(toIsoDate);
  const clock = new ZoneClock(timeZone, serialToLocalMs(first - 2), serialToLocalMs(last + 3));
  const startOf = (serial: number): number => startOfLocalDay(clock, serialToLocalMs(serial));
  const rows: [number, number][] = [];
  for (let serial = first; serial <= last; serial++) {
    const halfHours = (startOf(serial + 1) - startOf(serial)) / HALF_HOUR_MS;
    if (halfHours !== SLOTS_PER_DAY) rows.push([serial, (halfHours - SLOTS_PER_DAY) * 30]);
  }
  return rows;
}
