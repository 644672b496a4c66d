import { InputError } from '../errors.js';
import { DAY_MS } from '../time/serial.js';
import type { ZoneClock } from '../time/zone-clock.js';
import { localText } from './local-text.js';
import { isBlankCell } from './parse-number.js';
import { isWithinYears } from './read-stamps.js';
import type { Settled } from './settled.js';

const MINUTE_MS = 60_000;

/**
 * Stops at a line whose own two ends lie further apart, or closer, than the interval of its file: its energy would be put into one
 * interval, and the rest be missing. Where the local clock changes, an end may follow the clock or count on from the label of the start.
 * Midnight may be written under the date of its start, the last interval may still be open, and a price may hold until further notice.
 * Where the user states the interval, or leaves the ends out, nothing is checked.
 *
 * @param settled a file of electricity
 * @param clock clock of the home
 * @throws InputError naming the line
 * @example checkEnds(settled, clock)
 */
export function checkEnds<C extends string>(settled: Settled<C>, clock: ZoneClock): void {
  const { draft, stamps, stepMs } = settled;
  const { table, columns, values } = draft;
  const { ms, endMs } = stamps;
  if (
    endMs === undefined ||
    settled.sessions ||
    stepMs >= DAY_MS ||
    draft.options.intervalMinutes !== undefined
  )
    return;
  // An end without a time of its own, beside a start that has one, does not say when.
  if (draft.stamps.time !== undefined && draft.stamps.endTime === undefined) return;
  // A read of a register is of an instant.
  if (values.values.every((column) => column.register === true)) return;
  const isPrices = values.values.every(({ unit }) => unit.quantity === 'price');
  const textOf = (at: number): string => localText(stamps.instants ? clock.localMsAt(at) : at);
  const lastStart = ms.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const endColumn = (draft.stamps.endTime ?? draft.stamps.endDate)!;
  const endName = columns.header[endColumn] || endColumn + 1;
  for (let i = 0; i < ms.length; i++) {
    const start = ms[i]!;
    const end = endMs[i]!;
    if (end - start === stepMs || endsWhereClockChanges(settled, start, end, clock)) continue;
    if (isMidnightOfSameDate(settled, start, end, clock)) continue;
    if (isPrices && end > start && !isWithinYears(end)) continue;
    if (start === lastStart && end > start && end - start < stepMs) continue;
    const record = columns.rows[i]!;
    const row = table.records[record]!;
    if (values.values.every(({ column }) => isBlankCell(row[column]))) continue;
    throw new InputError(
      `the line runs from ${textOf(start)} to ${textOf(end)}, ${Math.round((end - start) / MINUTE_MS)} minutes, in a file of ${stepMs / MINUTE_MS} minutes`,
      `Correct its end, or give lines of another length in a file of their own, by itself. Where only ends are wrong, --channel "${endName}=ignore" reads all lines by their starts, as does --interval ${stepMs / MINUTE_MS}.`,
      { file: table.file, line: table.lineOf(record) },
    );
  }
}

/** Whether an end at 00:00 is written under the date that it ends. */
function isMidnightOfSameDate<C extends string>(
  { stamps, stepMs }: Settled<C>,
  start: number,
  end: number,
  clock: ZoneClock,
): boolean {
  if (end + DAY_MS - start !== stepMs) return false;
  return end % DAY_MS === 0 || (stamps.instants && clock.localMsAt(end) % DAY_MS === 0);
}

/** Whether a pair of local labels is an interval's length apart on the clock, which skips or repeats an hour between them. */
function endsWhereClockChanges<C extends string>(
  { draft, stamps, stepMs, fixedOffsetMinutes }: Settled<C>,
  start: number,
  end: number,
  clock: ZoneClock,
): boolean {
  if (stamps.instants || fixedOffsetMinutes !== undefined) return false;
  const instants = clock.instantsOf(start);
  // A start that the clock skipped is told by itself.
  if (instants.length === 0) return true;
  // Beside one date, an end that goes back by the change was taken for that of the next day.
  const ends = draft.stamps.endDate === undefined ? [end, end - DAY_MS] : [end];
  return instants.some((utcMs) => ends.includes(clock.localMsAt(utcMs + stepMs)));
}
