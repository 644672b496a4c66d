import { EARLIEST_SERIAL, LATEST_SERIAL } from '../../time/serial.js';
import type { ClockRows, ReadingRows } from '../inputs/workbook-inputs.js';
import { assertRoomForDays, clockTable, coversDays } from '../model/clock-table.js';
import type { Shape } from '../sheets/shape.js';

/**
 * The clock changes that the readings need: those that the workbook holds where they cover the readings, else the
 * zone's in the years of the readings.
 *
 * @param held what the workbook’s list of them holds
 * @param timeZone IANA name
 * @param readings rows of the readings sheet
 * @param shape how many days the workbook holds
 * @throws InputError when one of the days is longer than the grid has rows for
 */
export function clockOfReadings(
  held: ClockRows,
  timeZone: string,
  readings: ReadingRows,
  shape: Shape,
): ClockRows {
  let [firstDay, lastDay] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const start of readings.startSerial.subarray(0, readings.count)) {
    // A date beyond these is a slip, and told as one.
    if (!(start >= EARLIEST_SERIAL && start <= LATEST_SERIAL)) continue;
    firstDay = Math.min(firstDay, Math.floor(start));
    lastDay = Math.max(lastDay, Math.floor(start));
  }
  const span = { firstDay, lastDay };
  // Readings further apart than the workbook has days are a slip too.
  if (!(lastDay - firstDay <= shape.days)) return held;
  const clock = coversDays(held, span) ? held : clockTable(timeZone, span);
  assertRoomForDays(clock, timeZone, span);
  return clock;
}
