import { InputError } from '../../errors.js';
import { isoDateToSerial, localMsToSerial, serialToIsoDate } from '../../time/serial.js';
import { type ClockChange, ZoneClock } from '../../time/zone-clock.js';
import type { ClockRows } from '../inputs/workbook-inputs.js';
import { CLOCK_ROWS } from '../layout.js';
import { BLOCK_ROWS } from '../sheets/shape.js';

/** First year of the table where no readings ask for an earlier or a later one. */
const USUAL_FIRST_YEAR = 2019;
/** Years that the table covers, or as many as its rows hold. */
const YEARS = 19;
/** Rows after the last change stand beyond every date, so that a look-up never lands on them. */
const NEVER_SERIAL = 90_000;
/** Minutes that the longest day gains for which the grid has rows. */
export const MOST_GAINED = (BLOCK_ROWS - 48) * 30;

/** Days that a table has to cover, serial. */
export interface ClockSpan {
  firstDay: number;
  lastDay: number;
}

/** Whether a table covers the days. */
export function coversDays(
  { coversFrom, coversUntil }: ClockRows,
  { firstDay, lastDay }: ClockSpan,
): boolean {
  return coversFrom <= firstDay && lastDay <= coversUntil;
}

/**
 * Refuses readings of a day that is longer than the grid has rows for.
 *
 * @throws InputError when the clock gains more than an hour on one of the days
 */
export function assertRoomForDays(
  table: ClockRows,
  timeZone: string,
  { firstDay, lastDay }: ClockSpan,
): void {
  table.daySerial.forEach((day, i) => {
    const gained = table.minutesGained[i] ?? 0;
    if (gained <= MOST_GAINED || day < firstDay || day > lastDay) return;
    throw new InputError(
      `${serialToIsoDate(day)} has ${24 + gained / 60} hours in ${timeZone}, the workbook has room for ${24 + MOST_GAINED / 60}`,
      'Leave the readings of that day out.',
    );
  });
}

/**
 * The clock changes of a zone as *Rates* lists them; the first row is the offset before the first change.
 * Source: IANA time zone database, as shipped with Node.
 *
 * @param timeZone IANA name
 * @param span days of the readings, serial; without them the table starts in 2019
 * @returns one entry a row of the sheet, and the first and last day that it covers
 * @throws InputError when the zone is unknown, or changes its clock more often in the span than the sheet has rows
 * @example clockTable('Europe/London').minutesGained[1] // -60, in March 2019
 */
export function clockTable(timeZone: string, span?: ClockSpan): ClockRows {
  const usual = build(timeZone, USUAL_FIRST_YEAR);
  if (span === undefined || coversDays(usual, span)) return usual;
  const firstYear = Number(serialToIsoDate(span.firstDay).slice(0, 4));
  const table = build(timeZone, firstYear);
  if (coversDays(table, span)) return table;
  throw new InputError(
    `the clock of ${timeZone} changes too often from ${firstYear} to ${serialToIsoDate(span.lastDay).slice(0, 4)} for the ${CLOCK_ROWS} rows of the workbook`,
    'Give fewer years of readings.',
  );
}

function build(timeZone: string, firstYear: number): ClockRows {
  const clock = new ZoneClock(timeZone, Date.UTC(firstYear, 0, 1), Date.UTC(firstYear + YEARS, 0, 1));
  const fits = clock.changes.slice(0, CLOCK_ROWS - 1);
  const left = clock.changes[CLOCK_ROWS - 1];
  const firstYearLeft = left === undefined ? firstYear + YEARS : new Date(left.utcMs).getUTCFullYear();
  const table: ClockRows = {
    fromLocalSerial: Float64Array.from({ length: CLOCK_ROWS }, (_, i) => NEVER_SERIAL + i),
    offsetBeforeHours: new Float64Array(CLOCK_ROWS),
    offsetAfterHours: new Float64Array(CLOCK_ROWS),
    minutesGained: new Float64Array(CLOCK_ROWS),
    daySerial: new Float64Array(CLOCK_ROWS),
    coversFrom: isoDateToSerial(`${firstYear}-01-01`),
    coversUntil: isoDateToSerial(`${firstYearLeft - 1}-12-31`),
  };
  const firstOffset = (clock.changes[0]?.offsetBeforeMinutes ?? clock.offsetMinutesAt(0)) / 60;
  table.fromLocalSerial[0] = 0;
  table.offsetBeforeHours[0] = firstOffset;
  table.offsetAfterHours[0] = firstOffset;
  fits.forEach((change, i) => {
    const row = i + 1;
    const gained = change.offsetBeforeMinutes - change.offsetAfterMinutes;
    table.fromLocalSerial[row] = localMsToSerial(change.utcMs + change.offsetAfterMinutes * 60_000);
    table.offsetBeforeHours[row] = change.offsetBeforeMinutes / 60;
    table.offsetAfterHours[row] = change.offsetAfterMinutes / 60;
    table.minutesGained[row] = gained;
    table.daySerial[row] = dayOf(change);
  });
  return table;
}

/**
 * The day that is longer or shorter, serial. What autumn repeats ends at the change: at midnight it is the day
 * that ends. What spring skips begins there: at midnight it is the day that begins, an hour late.
 */
function dayOf({ utcMs, offsetBeforeMinutes, offsetAfterMinutes }: ClockChange): number {
  const before = utcMs + offsetBeforeMinutes * 60_000;
  return Math.floor(localMsToSerial(offsetAfterMinutes < offsetBeforeMinutes ? before - 1 : before));
}
