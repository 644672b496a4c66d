import type { ShownAs } from './number-format.js';

const DAY_MS = 86_400_000;
/** The day 0 of both date systems as days since 1970. */
const DAY_ZERO = -25_569;
const DAYS_OF_1904 = 1462;

/**
 * A date or time of a sheet as text that the readers of stamps know.
 *
 * @param serial days since 1899-12-30, or since 1904-01-01 in that date system
 * @param shown what its format shows
 * @param is1904 whether the workbook counts from 1904
 * @returns `2026-01-31`, `2026-01-31 00:30` or `00:30`, with seconds where there are any
 * @example serialText(46053.0208333333, { date: true, time: true, elapsed: false }, false) // '2026-01-31 00:30'
 */
export function serialText(serial: number, shown: ShownAs, is1904: boolean): string {
  // Serials keep a time to some microseconds: the next whole second is meant, or the millisecond where that is far.
  const exact = serial * DAY_MS;
  const second = Math.round(exact / 1000) * 1000;
  const ms = Math.abs(exact - second) < 10 ? second : Math.round(exact);
  const days = Math.floor(ms / DAY_MS);
  const inDay = ms - days * DAY_MS;
  const isTime = !shown.date && (shown.elapsed || ms < DAY_MS || ms === DAY_MS);
  if (isTime) return timeText(shown.elapsed || ms === DAY_MS ? ms : inDay);
  const date = new Date((days + DAY_ZERO + (is1904 ? DAYS_OF_1904 : 0)) * DAY_MS).toISOString().slice(0, 10);
  return !shown.time && inDay === 0 ? date : `${date} ${timeText(inDay)}`;
}

/** Hours, minutes, and what is left of a minute. */
export function timeText(ms: number): string {
  const two = (n: number): string => String(n).padStart(2, '0');
  const seconds = Math.floor(ms / 1000);
  const rest = ms - seconds * 1000;
  const text = `${two(Math.floor(seconds / 3600))}:${two(Math.floor(seconds / 60) % 60)}`;
  if (seconds % 60 === 0 && rest === 0) return text;
  return `${text}:${two(seconds % 60)}${rest === 0 ? '' : `.${String(rest).padStart(3, '0')}`}`;
}
