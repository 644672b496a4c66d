import { DAY_MS } from '../time/serial.js';
import { startOfLocalDay } from '../time/start-of-local-day.js';
import type { ZoneClock } from '../time/zone-clock.js';
import type { FindingKind } from './file-report.js';
import { isBlankCell } from './parse-number.js';
import type { SlotColumns } from './slot-columns.js';

const MINUTE_MS = 60_000;

/** A line that holds a whole day. */
interface DayLine {
  row: readonly string[];
  /** Its 00:00, wall-clock ms as if UTC. */
  dayMs: number;
  slots: SlotColumns;
  clock: ZoneClock;
  /** Offset where the line's clock never changes, minutes. */
  fixedOffsetMinutes: number | undefined;
  /** Number in a cell that is not blank; throws where it is none. */
  value: (cell: string) => number;
  /** Takes a column and the instant at which its interval begins. */
  place: (column: number, utcMs: number) => void;
  report: (kind: FindingKind, text: string) => void;
  tooMany: (found: string, whatToDo: string) => never;
}

/**
 * Places the values of a day on the clock. A day without a clock change goes by the labels. In spring, 48 columns hold 46 half-hours:
 * by label when the skipped ones are blank (or nought), packed to the left when the last ones are. In autumn, columns beyond the 48th
 * hold the rest of 50 half-hours in order; without them the repeated hour is there once.
 *
 * @param day the line
 * @example placeDay({ row: ['2026-03-29', ...], ... }) // calls place for each value
 */
export function placeDay(day: DayLine): void {
  const { slots, clock, dayMs } = day;
  const stepMs = slots.stepMinutes * MINUTE_MS;
  const perDay = Math.round(DAY_MS / stepMs);
  const cells = cellsOf(day);
  if (day.fixedOffsetMinutes !== undefined) {
    placeByLabel(day, cells, (localMs) => [localMs - day.fixedOffsetMinutes! * MINUTE_MS]);
    return;
  }
  const start = startOfLocalDay(clock, dayMs);
  const length = (startOfLocalDay(clock, dayMs + DAY_MS) - start) / stepMs;
  const packed = (): void => {
    cells.forEach((cell, i) => {
      if (!cell.blank) day.place(cell.column, start + i * stepMs);
    });
  };
  const extras = cells.filter((cell) => cell.extra && !cell.blank);
  if (length > perDay && extras.length > 0) {
    // Labels that come twice at the end of the line are the second occurrence; else the columns are in the order of time.
    if (cells.length > length && cells.slice(length).some((cell) => !cell.blank)) tooMany(day, cells, length);
    packed();
    return;
  }
  if (extras.some((cell) => day.value(cell.text) !== 0)) tooMany(day, cells, length);
  const ordinary = cells.filter((cell) => !cell.extra);
  if (length < perDay && isPacked(day, ordinary, length)) {
    ordinary.slice(0, length).forEach((cell, i) => {
      if (!cell.blank) day.place(cell.column, start + i * stepMs);
    });
    return;
  }
  placeByLabel(day, ordinary, (localMs) => clock.instantsOf(localMs));
}

interface Cell {
  column: number;
  text: string;
  blank: boolean;
  startMinutes: number;
  extra: boolean;
}

function cellsOf(day: DayLine): Cell[] {
  const { slots, row } = day;
  const cells = slots.columns.map(
    (column, i): Cell => ({
      column,
      text: row[column] ?? '',
      blank: isBlankCell(row[column]),
      startMinutes: slots.startMinutes[i]!,
      extra: slots.extra[i]!,
    }),
  );
  // A line may go on beyond the last header: the 49th and 50th half-hour of an autumn day.
  const last = slots.columns.at(-1)!;
  if (slots.goesOn) {
    for (let column = last + 1; column < row.length; column++) {
      const text = row[column]!;
      const startMinutes = (cells.at(-1)?.startMinutes ?? 0) + slots.stepMinutes;
      cells.push({ column, text, blank: isBlankCell(text), startMinutes, extra: startMinutes >= 1440 });
    }
  }
  return cells;
}

/** Whether a short day's values are packed to the left, rather than standing under their labels. */
function isPacked(day: DayLine, cells: readonly Cell[], length: number): boolean {
  const skipped = cells.filter(
    (cell) => day.clock.instantsOf(day.dayMs + cell.startMinutes * MINUTE_MS).length === 0,
  );
  const last = cells.slice(length);
  const blank = (list: readonly Cell[]): boolean => list.every((cell) => cell.blank);
  const nought = (list: readonly Cell[]): boolean =>
    list.every((cell) => cell.blank || day.value(cell.text) === 0);
  if (blank(skipped)) return false;
  if (last.length === 0 || blank(last)) return true;
  if (nought(skipped)) return false;
  return nought(last);
}

function placeByLabel(day: DayLine, cells: readonly Cell[], instantsOf: (localMs: number) => number[]): void {
  for (const cell of cells) {
    if (cell.blank) continue;
    const localMs = day.dayMs + cell.startMinutes * MINUTE_MS;
    const instants = instantsOf(localMs);
    const label = new Date(localMs).toISOString().slice(0, 16).replace('T', ' ');
    if (instants.length === 0) {
      if (day.value(cell.text) !== 0) day.report('skipped hour', `${label} holds ${cell.text.trim()}`);
      continue;
    }
    if (instants.length === 2) day.report('repeated hour', label);
    day.place(cell.column, instants[0]!);
  }
}

function tooMany(day: DayLine, cells: readonly Cell[], length: number): never {
  const filled = cells.filter((cell) => !cell.blank).length;
  return day.tooMany(
    `${filled} values for a day of ${length} intervals`,
    'Check the time zone (--time-zone) and the date; take a column of daily totals out of the file.',
  );
}
