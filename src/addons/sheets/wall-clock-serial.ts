import { InputError } from '../../errors.js';

/** The parts of Apps Script that say how the spreadsheet shows a date; absent elsewhere. */
declare const SpreadsheetApp: { getActive: () => { getSpreadsheetTimeZone: () => string } } | undefined;
declare const Utilities: { formatDate: (date: Date, timeZone: string, format: string) => string } | undefined;

const DAY_MS = 86_400_000;
/** Serial of 1970-01-01 in a spreadsheet. */
const EPOCH_SERIAL = 25_569;

/**
 * Turns the dates of cells into serial days by the spreadsheet's wall clock.
 *
 * Sheets hands over a moment; the clock that it shows is read in the script's time zone, which must be the
 * spreadsheet's. The first date of a call is held against what the spreadsheet shows.
 *
 * @returns a function from date to serial; it throws InputError where the two time zones differ
 */
export function wallClockSerial(): (date: Date) => number {
  let checked = false;
  return (date) => {
    if (!checked) {
      requireSameTimeZone(date);
      checked = true;
    }
    return wallClockMs(date) / DAY_MS + EPOCH_SERIAL;
  };
}

function wallClockMs(date: Date): number {
  const day = [date.getFullYear(), date.getMonth(), date.getDate()] as const;
  const time = [date.getHours(), date.getMinutes(), date.getSeconds(), date.getMilliseconds()] as const;
  return Date.UTC(...day, ...time);
}

function requireSameTimeZone(date: Date): void {
  if (typeof SpreadsheetApp === 'undefined' || typeof Utilities === 'undefined') return;
  const timeZone = SpreadsheetApp.getActive().getSpreadsheetTimeZone();
  const shown = Utilities.formatDate(date, timeZone, "yyyy-MM-dd'T'HH:mm:ss");
  if (new Date(wallClockMs(date)).toISOString().slice(0, 19) === shown) return;
  throw new InputError(
    `the time zone of the script is not that of the spreadsheet (${timeZone})`,
    'Set "timeZone" in appsscript.json to the same (Project settings, show the manifest file).',
  );
}
