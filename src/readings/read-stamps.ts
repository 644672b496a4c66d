import { InputError } from '../errors.js';
import { DAY_MS, EARLIEST_SERIAL, LATEST_SERIAL, serialToLocalMs } from '../time/serial.js';
import type { Draft } from './draft.js';
import type { DateOrder } from './import-options.js';
import { StampReader } from './parse-stamp.js';
import { lineText } from './place-text.js';

const EARLIEST_MS = serialToLocalMs(EARLIEST_SERIAL);
const BEYOND_MS = serialToLocalMs(LATEST_SERIAL + 1);

/**
 * Whether a stamp is of the years that are read.
 *
 * @param ms wall-clock ms as if UTC, or epoch ms
 * @returns true from 1990 to 2099
 * @example isWithinYears(Date.UTC(9999, 11, 31)) // false
 */
export function isWithinYears(ms: number): boolean {
  return ms >= EARLIEST_MS && ms < BEYOND_MS;
}

/** The stamps of a file's lines as written. */
export interface Stamps {
  /** Wall-clock ms as if UTC; epoch ms where `instants`. One a data row. */
  ms: Float64Array;
  /** Whether every stamp carried its offset. */
  instants: boolean;
  /** Whether any stamp was 24:00: only ends are written so. */
  has24: boolean;
  /** Whether stamps are months without a day. */
  months: boolean;
  /** Stamps of the ends, where a column gives them. */
  endMs?: Float64Array;
}

/**
 * Reads the stamps of a file.
 *
 * @param draft the file
 * @param order order of numbers in its dates
 * @returns stamps, one a data row
 * @throws InputError naming the line whose cell is no date or time, whose date is outside the years 1990 to 2099 (the end of a price may be), or whose offset is missing where others have one
 * @example readStamps(draft, 'dmy').ms.length // 17520
 */
export function readStamps<C extends string>(draft: Draft<C>, order: DateOrder | undefined): Stamps {
  const { stamps, columns, table } = draft;
  const main = readColumn(draft, order, stamps.date, stamps.time);
  const result: Stamps = main;
  const endColumn = stamps.endDate ?? (stamps.endTime === undefined ? undefined : stamps.date);
  if (endColumn !== undefined && stamps.period === undefined) {
    // A price that holds until further notice ends in a year such as 9999.
    const mayStayOpen = draft.values.values.every(({ unit }) => unit.quantity === 'price');
    const end = readColumn(draft, order, endColumn, stamps.endTime, mayStayOpen);
    // An end at 00:00 beside one date column is that of the next day.
    for (let i = 0; i < end.ms.length; i++)
      if (end.ms[i]! <= main.ms[i]! && stamps.endDate === undefined) end.ms[i] = end.ms[i]! + DAY_MS;
    if (end.instants === main.instants) result.endMs = end.ms;
  }
  if (main.ms.length !== columns.rows.length) throw new RangeError(`lost lines of ${table.file}`);
  return result;
}

function readColumn<C extends string>(
  draft: Draft<C>,
  order: DateOrder | undefined,
  dateColumn: number,
  timeColumn: number | undefined,
  anyYear = false,
): Stamps {
  const { table, columns } = draft;
  const { records } = table;
  const { rows } = columns;
  const n = rows.length;
  const ms = new Float64Array(n);
  const { abbreviations } = draft;
  const reader = new StampReader(order, abbreviations);
  const timeReader = timeColumn === undefined ? undefined : new StampReader(undefined, abbreviations);
  let withOffset = 0;
  let has24 = false;
  let months = 0;
  for (let i = 0; i < n; i++) {
    const record = records[rows[i]!]!;
    if (!reader.read(record[dateColumn] ?? '')) throw noDate(draft, order, rows[i]!, dateColumn);
    let local = reader.localMs;
    if (!anyYear && !isWithinYears(local)) throw outsideYears(draft, rows[i]!, dateColumn);
    let offset = reader.offsetMinutes;
    let time = reader.timeMs;
    if (timeReader !== undefined && timeColumn !== undefined) {
      if (!timeReader.readTimeOfDay(record[timeColumn] ?? '')) throw noTime(draft, rows[i]!, timeColumn);
      time = timeReader.timeMs;
      local += time;
      offset = timeReader.offsetMinutes;
    }
    if (!Number.isNaN(offset)) {
      withOffset++;
      local -= offset * 60_000;
    }
    if (time === DAY_MS) has24 = true;
    if (reader.monthOnly) months++;
    ms[i] = local;
  }
  if (withOffset > 0 && withOffset < n) throw mixedOffsets(draft, dateColumn);
  return { ms, instants: withOffset > 0, has24, months: months === n };
}

function noDate<C extends string>(
  draft: Draft<C>,
  order: DateOrder | undefined,
  record: number,
  column: number,
): InputError {
  const cell = (draft.table.records[record]![column] ?? '').trim();
  const place = { file: draft.table.file, line: draft.table.lineOf(record, column) };
  const orHeader =
    record < draft.columns.readable
      ? ` If it is the header, say so: --header ${draft.table.lineNumber(record)}.`
      : '';
  const settled = draft.dates.line === undefined ? '' : ` as ${lineText(draft.dates.line)} says`;
  const orders = { dmy: 'day first', mdy: 'month first', ymd: 'year first' };
  if (cell.startsWith('=')) {
    return new InputError(`"${cell}" is a formula, not a date`, 'Give the date itself.', place);
  }
  return new InputError(
    cell === ''
      ? 'the date is missing'
      : `"${cell}" is not a date${order ? ` (${orders[order]}${settled})` : ''}`,
    `Correct the line, or delete it if it is no reading (a total, a remark).${orHeader}${passOverAdvice(draft.table.records[record]!)}`,
    place,
  );
}

const TOTAL = /^((?:grand |sub)?totals?|sums?|averages?|mean|summary)\b/i;

/** What a maker writes below the readings of every file is said once. */
function passOverAdvice(record: readonly string[]): string {
  const word = TOTAL.exec((record.find((cell) => cell.trim() !== '') ?? '').trim())?.[1];
  if (word === undefined) return '';
  const quoted = word.includes(' ') ? `"${word}"` : word;
  return ` Where such a line stands in every file: --pass-over ${quoted}.`;
}

/** A slip of the year would stretch the import over the centuries between. */
function outsideYears<C extends string>(draft: Draft<C>, record: number, column: number): InputError {
  const cell = draft.table.records[record]![column]!.trim();
  return new InputError(`"${cell}" is outside the years 1990 to 2099`, 'Correct the date.', {
    file: draft.table.file,
    line: draft.table.lineOf(record, column),
  });
}

function noTime<C extends string>(draft: Draft<C>, record: number, column: number): InputError {
  const cell = (draft.table.records[record]![column] ?? '').trim();
  return new InputError(
    cell === '' ? 'the time is missing' : `"${cell}" is not a time of day`,
    'Write a time like 13:30 or 1:30 PM.',
    { file: draft.table.file, line: draft.table.lineOf(record, column) },
  );
}

function mixedOffsets<C extends string>(draft: Draft<C>, column: number): InputError {
  const reader = new StampReader(undefined);
  const { table, columns } = draft;
  const has = (r: number): boolean =>
    reader.read(table.records[r]![column] ?? '') && !Number.isNaN(reader.offsetMinutes);
  const first = has(columns.rows[0]!);
  const record = columns.rows.find((r) => has(r) !== first) ?? columns.rows[0]!;
  return new InputError(
    `"${table.records[record]![column]?.trim()}" ${first ? 'has no offset from UTC, the lines before have one' : 'has an offset from UTC, the lines before have none'}`,
    'Give all stamps with an offset, or none.',
    { file: table.file, line: table.lineOf(record, column) },
  );
}
