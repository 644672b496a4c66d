import { InputError } from '../errors.js';
import type { Columns } from './find-header.js';
import type { Table } from './read-table.js';
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
 * @param table the table, for messages
 * @param columns what the columns look like
 * @param stamps the columns that say when
 * @param intervalMinutes length of an interval, where the user gives it
 * @param position what the labels mark, where the user says it
 * @returns the columns and their wall-clock starts
 * @throws InputError naming a label that is neither the next number nor the next time, among labels that are
 * @example findSlotColumns(table, columns, { date: 0 }, undefined, undefined)?.columns.length // 48
 */
export function findSlotColumns(
  table: Table,
  columns: Columns,
  stamps: StampColumns,
  intervalMinutes: number | undefined,
  position: 'start' | 'end' | undefined,
): SlotColumns | undefined {
  if (columns.kinds[stamps.date] !== 'date' || stamps.time !== undefined || stamps.period !== undefined) {
    return undefined;
  }
  const labelled = labels(table, columns, stamps.date);
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
function labels(table: Table, columns: Columns, dateColumn: number): Label[] | undefined {
  const { header } = columns;
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
  if (times.length >= MIN_SLOTS) return withoutBreak(table, columns, times);
  if (numbers.length < MIN_SLOTS) return undefined;
  // A number that counts on in nearly all columns is broken in one; clock times come hundreds apart.
  const steps = numbers.slice(1).filter((n, i) => n.value === numbers[i]!.value + 1).length;
  if (steps * 2 >= numbers.length) return withoutBreak(table, columns, numbers);
  const clocks = numbers.every((n) => n.value % 100 < 60 && n.value <= 2400);
  if (!clocks) return undefined;
  const asTimes = numbers.map(
    (n): Label => ({ ...n, kind: 'time', value: Math.floor(n.value / 100) * 60 + (n.value % 100) }),
  );
  return withoutBreak(table, columns, asTimes);
}

/**
 * Labels side by side whose numbers count up by one from 0 or 1, or whose times go on by their usual step: over midnight, or again over an
 * hour that the clock repeats.
 */
function withoutBreak(table: Table, columns: Columns, list: Label[]): Label[] {
  const isTime = list[0]!.kind === 'time';
  const step = isTime ? usualStep(list) : 1;
  const first = list[0]!;
  if (!isTime && first.value > 1) throw brokenLabel(table, columns, first);
  const last = list.at(-1)!;
  for (let column = first.column + 1; column <= last.column; column++) {
    const before = list.find((label) => label.column === column - 1);
    const label = list.find((one) => one.column === column);
    if (label === undefined) {
      // Words among the labels are another column; a lone one in the middle of all is a label that broke.
      throw brokenLabel(table, columns, { column });
    }
    if (before === undefined) continue;
    const on = label.value - before.value;
    const goesOn = on === step || (isTime && (on === step - DAY_MINUTES || isRepeat(list, label, step)));
    if (!goesOn) throw brokenLabel(table, columns, label);
  }
  return list;
}

/** Whether the clock repeats an hour here: a label comes twice within it, or again behind those of the day. */
function isRepeat(list: readonly Label[], label: Label, step: number): boolean {
  const twin = list.find((one) => one !== label && one.value === label.value);
  if (twin === undefined) return false;
  const perDay = DAY_MINUTES / step;
  return Math.abs(twin.column - label.column) * step <= 60 || label.column - list[0]!.column >= perDay;
}

function usualStep(list: readonly Label[]): number {
  const counts = new Map<number, number>();
  for (let i = 1; i < list.length; i++) {
    const step = list[i]!.value - list[i - 1]!.value;
    counts.set(step, (counts.get(step) ?? 0) + 1);
  }
  return [...counts].reduce((a, b) => (b[1] > a[1] ? b : a))[0];
}

function brokenLabel(table: Table, columns: Columns, { column }: { column: number }): InputError {
  return new InputError(
    `"${columns.header[column]}", the name of column ${column + 1}, breaks the row of the day's intervals`,
    'Correct it: numbers count from 1, times go on by the length of an interval.',
    { file: table.file, line: table.lineOf(columns.headerRecord ?? columns.rows[0]!) },
  );
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
