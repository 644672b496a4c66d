/** Milliseconds in a day. */
export const DAY_MS = 86_400_000;
/** Milliseconds in a half-hour. */
export const HALF_HOUR_MS = 1_800_000;
/** Half-hours in a day without a clock change. */
export const SLOTS_PER_DAY = 48;
/** Serial days of 1 January 1990 and 31 December 2099: dates beyond are slips. */
export const EARLIEST_SERIAL = 32_874;
export const LATEST_SERIAL = 73_050;
/**
 * Half a minute, in days: programs that store 15 digits move a time by less.
 */
export const LOOK_UP_MARGIN_DAYS = 1 / 2880;
/** Days from 1899-12-30 (serial 0 of a spreadsheet) to 1970-01-01. */
const EPOCH_SERIAL = 25_569;

/**
 * A wall-clock time as a spreadsheet counts it.
 *
 * @param localMs wall-clock time in milliseconds, counted as if it were UTC
 * @returns days since 1899-12-30, exact to the millisecond's nearest double
 * @example localMsToSerial(Date.UTC(2026, 0, 1, 12)) // 46023.5
 */
export function localMsToSerial(localMs: number): number {
  // Whole milliseconds add up exactly: one division, one rounding, the double that a spreadsheet has too.
  return (localMs + EPOCH_SERIAL * DAY_MS) / DAY_MS;
}

/**
 * The inverse of {@link localMsToSerial}, rounded to the millisecond.
 *
 * @param serial days since 1899-12-30
 * @returns wall-clock time in milliseconds, counted as if it were UTC
 * @example serialToLocalMs(46023.5) === Date.UTC(2026, 0, 1, 12)
 */
export function serialToLocalMs(serial: number): number {
  return Math.round((serial - EPOCH_SERIAL) * DAY_MS);
}

/**
 * ISO date of a whole serial day.
 *
 * @param serial days since 1899-12-30; the time of day is dropped
 * @returns `YYYY-MM-DD`
 * @example serialToIsoDate(46023.5) // '2026-01-01'
 */
export function serialToIsoDate(serial: number): string {
  return new Date(serialToLocalMs(Math.floor(serial))).toISOString().slice(0, 10);
}

/**
 * Serial day of an ISO date.
 *
 * @param isoDate `YYYY-MM-DD`
 * @returns days since 1899-12-30
 * @throws RangeError when the text is not a calendar date
 * @example isoDateToSerial('2026-01-01') // 46023
 */
export function isoDateToSerial(isoDate: string): number {
  const ms = /^\d{4}-\d{2}-\d{2}$/.test(isoDate) ? Date.parse(`${isoDate}T00:00:00Z`) : Number.NaN;
  // Date.parse rolls 30 February over in some engines: the round trip shows it.
  if (Number.isNaN(ms) || new Date(ms).toISOString().slice(0, 10) !== isoDate) {
    throw new RangeError(`"${isoDate}" is not a date YYYY-MM-DD`);
  }
  return localMsToSerial(ms);
}

/**
 * First day of the month that a day lies in.
 *
 * @param serial serial day, with or without a time
 * @returns serial day of the first of its month
 * @example firstOfMonth(46_040) // 46023: 1 January 2026
 */
export function firstOfMonth(serial: number): number {
  const date = new Date(serialToLocalMs(Math.floor(serial)));
  return localMsToSerial(Date.UTC(date.getUTCFullYear(), date.getUTCMonth(), 1));
}
