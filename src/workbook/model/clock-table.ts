import { InputError } from '../../errors.js';
import { localMsToSerial } from '../../time/serial.js';
import { ZoneClock } from '../../time/zone-clock.js';
import type { ClockRows } from '../inputs/workbook-inputs.js';
import { CLOCK_ROWS } from '../layout.js';

/** Years that the table covers. */
const FIRST_YEAR = 2019;
const LAST_YEAR = 2037;
/** Rows after the last change stand beyond every date, so that a look-up never lands on them. */
const NEVER_SERIAL = 90_000;

/**
 * The clock changes of a zone as the clock sheet lists them; the first row is the offset before the first change.
 * Source: IANA time zone database, as shipped with Node.
 *
 * @param timeZone IANA name
 * @returns one entry a row of the sheet
 * @throws InputError when the zone is unknown, or changes its clock more often than the sheet has rows
 */
export function clockTable(timeZone: string): ClockRows {
  const clock = new ZoneClock(timeZone, Date.UTC(FIRST_YEAR, 0, 1), Date.UTC(LAST_YEAR, 11, 31));
  if (clock.changes.length >= CLOCK_ROWS) {
    throw new InputError(
      `${timeZone} has ${clock.changes.length} clock changes from ${FIRST_YEAR} to ${LAST_YEAR}, the workbook holds ${CLOCK_ROWS - 1}`,
      'Give every reading with its offset from UTC, under a zone that has fewer.',
    );
  }
  const table: ClockRows = {
    fromLocalSerial: Float64Array.from({ length: CLOCK_ROWS }, (_, i) => NEVER_SERIAL + i),
    offsetBeforeHours: new Float64Array(CLOCK_ROWS),
    offsetAfterHours: new Float64Array(CLOCK_ROWS),
    minutesGained: new Float64Array(CLOCK_ROWS),
    daySerial: new Float64Array(CLOCK_ROWS),
  };
  const firstOffset = clock.offsetMinutesAt(Date.UTC(FIRST_YEAR - 1, 11, 31)) / 60;
  table.fromLocalSerial[0] = 0;
  table.offsetBeforeHours[0] = firstOffset;
  table.offsetAfterHours[0] = firstOffset;
  clock.changes.forEach((change, i) => {
    const row = i + 1;
    table.fromLocalSerial[row] = localMsToSerial(change.utcMs + change.offsetAfterMinutes * 60_000);
    table.offsetBeforeHours[row] = change.offsetBeforeMinutes / 60;
    table.offsetAfterHours[row] = change.offsetAfterMinutes / 60;
    table.minutesGained[row] = change.offsetBeforeMinutes - change.offsetAfterMinutes;
    // The day that the old clock was in: a change at midnight belongs to the day that ends.
    table.daySerial[row] = Math.floor(
      localMsToSerial(change.utcMs + change.offsetBeforeMinutes * 60_000 - 1),
    );
  });
  return table;
}
