import { InputError } from '../../errors.js';
import { EARLIEST_SERIAL, LATEST_SERIAL } from '../../time/serial.js';
import type { CellValue } from '../fields/cell-value.js';
import { MOST_DAYS } from '../layout.js';
import { shapeOf } from '../sheets/shape.js';

/** How many days the new workbook holds, and how many the readings need. */
export interface Room {
  days: number;
  needed: number;
}

/**
 * How much the workbook has to hold that readings are carried to.
 *
 * @param starts starts of half-hours by row, as the cells hold them: local serials, or slips
 * @param held days that the old workbook holds
 * @param wanted days that were asked for; without them the old ones, or as many as the readings need
 * @param places file of the old workbook, and its sheet of readings with the first row, for messages
 * @throws InputError when the readings need more than was asked for, or than a workbook can hold
 */
export function roomFor(
  starts: readonly CellValue[],
  held: number,
  wanted: number | undefined,
  { file, cellOf }: { file: string; cellOf: (row: number) => string },
): Room {
  let [first, last] = [-1, -1];
  const startAt = (row: number): number => starts[row] as number;
  starts.forEach((start, row) => {
    // A date beyond these is a slip, and told as one by the checks.
    if (typeof start !== 'number' || !(start >= EARLIEST_SERIAL && start <= LATEST_SERIAL)) return;
    if (first < 0 || start < startAt(first)) first = row;
    if (last < 0 || start > startAt(last)) last = row;
  });
  const span = first < 0 ? 0 : Math.floor(startAt(last)) - Math.floor(startAt(first)) + 1;
  let needed = span;
  while (shapeOf(needed).readingRows < starts.length) needed++;
  const most = wanted ?? MOST_DAYS;
  if (needed > most) {
    throw new InputError(
      needed === span
        ? `the readings span ${span} days, from ${cellOf(first)} to ${cellOf(last)}; ${limitText(wanted)}`
        : `the readings take ${starts.length} rows, those of ${needed} days; ${limitText(wanted)}`,
      needed > MOST_DAYS
        ? 'Correct the date where it is a slip, or move the oldest months to a copy of the workbook.'
        : `Give --days ${needed} or more.`,
      { file, line: cellOf(Math.max(0, needed === span ? last : starts.length - 1)) },
    );
  }
  return { days: wanted ?? Math.max(held, needed), needed };
}

function limitText(wanted: number | undefined): string {
  return wanted === undefined
    ? `a workbook holds at most ${MOST_DAYS.toLocaleString('en')}`
    : `--days says ${wanted}`;
}
