import type { Columns } from './find-header.js';
import type { StampColumns } from './stamp-columns.js';
import { MIN_SLOTS, stepOfCount } from './step-of-count.js';

/** Columns of a table with one line a day. */
export interface SlotColumns {
  /** First column of values. */
  first: number;
  /** Whether a line may go on with values beyond the last column: not where a named column follows. */
  goesOn: boolean;
  /** Columns of values, in order. */
  columns: number[];
  /** Wall-clock start of each column in its day, minutes; from the header, or from the column's place. */
  startMinutes: number[];
  /** Whether a column is one beyond the ordinary day: a label that came before, or the 49th and later. */
  extra: boolean[];
  /** Length of an interval, minutes. */
  stepMinutes: number;
  /** How the header labels them: times of start, times of end, numbers, or nothing. */
  labels: 'start' | 'end' | 'number' | 'none';
}

const DAY_MINUTES = 1440;

interface Label {
  column: number;
  kind: 'time' | 'number';
  value: number;
}

/**
 * Finds the value columns of a table with one line a day, undefined where it is no such table.
 *
 * @param columns what the columns look like
 * @param stamps the columns that say when
 * @param intervalMinutes length of an interval, where the user gives it
 * @param position what the labels mark, where the user says it
 * @returns the columns and their wall-clock starts
 * @example findSlotColumns(columns, { date: 0 }, undefined, undefined)?.columns.length // 48
 */
export function findSlotColumns(
  columns: Columns,
  stamps: StampColumns,
  intervalMinutes: number | undefined,
  position: 'start' | 'end' | undefined,
): SlotColumns | undefined {
  if (columns.kinds[stamps.date] !== 'date' || stamps.time !== undefined || stamps.period !== undefined) {
    return undefined;
  }
  const labelled = labels(columns.header, stamps.date);
  const slots = labelled ?? placesAfter(columns, stamps.date);
  if (slots === undefined) return undefined;
  const stepMinutes = intervalMinutes ?? stepOf(slots);
  if (stepMinutes === undefined) return undefined;
  const perDay = DAY_MINUTES / stepMinutes;
  const isTime = slots[0]!.kind === 'time';
  const atEnd = isTime && (position ?? (slots[0]!.value >= stepMinutes ? 'end' : 'start')) === 'end';
  const seen = new Set<number>();
  const startMinutes: number[] = [];
  const extra: boolean[] = [];
  slots.forEach((slot, i) => {
    let start = isTime ? slot.value - (atEnd ? stepMinutes : 0) : i * stepMinutes;
    if (start < 0) start += DAY_MINUTES;
    const isExtra = i >= perDay || start >= DAY_MINUTES || seen.has(start);
    // A repeated label in the middle makes all 48 of the day come within the first 50.
    extra.push(isTime ? seen.has(start) || start >= DAY_MINUTES : isExtra);
    seen.add(start);
    startMinutes.push(start);
  });
  return {
    first: slots[0]!.column,
    goesOn: columns.header.slice(slots.at(-1)!.column + 1).every((text) => text === ''),
    columns: slots.map((slot) => slot.column),
    startMinutes,
    extra,
    stepMinutes,
    labels: labelled === undefined ? 'none' : isTime ? (atEnd ? 'end' : 'start') : 'number',
  };
}

/** Headers that are times, or numbers that count up by one, in at least 23 columns. */
function labels(header: readonly string[], dateColumn: number): Label[] | undefined {
  const times: Label[] = [];
  const numbers: Label[] = [];
  header.forEach((text, column) => {
    if (column === dateColumn) return;
    const time = /(?:^|[^\d:])(\d{1,2})[:.h](\d{2})(?!\d)/i.exec(` ${text}`);
    if (time && Number(time[1]) <= 26 && Number(time[2]) < 60) {
      times.push({ column, kind: 'time', value: Number(time[1]) * 60 + Number(time[2]) });
      return;
    }
    const bare = /^\D{0,12}?(\d{1,4})(?:\s*\(?k?wh\)?)?$/i.exec(text.trim());
    if (bare) numbers.push({ column, kind: 'number', value: Number(bare[1]) });
  });
  if (times.length >= MIN_SLOTS) return times;
  if (numbers.length < MIN_SLOTS) return undefined;
  const counts = numbers.every((n, i) => i === 0 || n.value === numbers[i - 1]!.value + 1);
  if (counts && numbers[0]!.value <= 1) return numbers;
  const clocks = numbers.every((n) => n.value % 100 < 60 && n.value <= 2400);
  if (!clocks) return undefined;
  return numbers.map((n) => ({
    ...n,
    kind: 'time',
    value: Math.floor(n.value / 100) * 60 + (n.value % 100),
  }));
}

/** Without such a header: the columns of numbers after the date. */
function placesAfter(columns: Columns, dateColumn: number): Label[] | undefined {
  if (columns.headerRecord !== undefined) return undefined;
  const after: Label[] = [];
  for (let c = dateColumn + 1; c < columns.kinds.length; c++) {
    const kind = columns.kinds[c];
    if (kind === 'number' || kind === 'blank')
      after.push({ column: c, kind: 'number', value: c - dateColumn });
    else if (after.length > 0) return undefined;
  }
  return after.length >= MIN_SLOTS ? after : undefined;
}

/** Length of an interval, minutes: from the labels where they are times, else from how many a day has. */
function stepOf(slots: readonly Label[]): number | undefined {
  if (slots[0]!.kind === 'time') {
    const step = slots[1]!.value - slots[0]!.value;
    return step > 0 && DAY_MINUTES % step === 0 ? step : undefined;
  }
  return stepOfCount(slots.length);
}
