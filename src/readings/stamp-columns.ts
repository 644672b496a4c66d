import { InputError } from '../errors.js';
import type { Columns } from './find-header.js';
import type { FileOptions, StampPosition } from './import-options.js';
import { headerWords } from './match-channels.js';
import type { Table } from './read-table.js';

/** The columns that say when. */
export interface StampColumns {
  /** Column of the date, with or without a time. */
  date: number;
  /** Column of the time of day, where it is apart. */
  time?: number;
  /** Column of the number of the half-hour in its day, from 1. */
  period?: number;
  /** Columns of the end, where both ends are given. */
  endDate?: number;
  endTime?: number;
  /** What headers or options say of the stamp; undefined where they say nothing. */
  position?: StampPosition;
  /** Zone that headers or options state for stamps without offset. */
  zone?: string;
}

const START = /\b(start|starts|starting|from|begin|begins|beginning|commencing)\b/;
const END = /\b(end|ends|ending|to|until|till|finish|stop)\b/;
const UTC = /\b(utc|gmt|zulu)\b/;
const PERIOD = /\b(period|slot|half hour|halfhour|hh|interval)\b/;

/**
 * Finds the columns that say when: one stamp, a date and a time, a date and the number of a half-hour, or both ends.
 *
 * @param table the table
 * @param columns what its columns look like
 * @param options what the user says
 * @returns the columns, and what their headers say of them
 * @throws InputError when there is none, or several of which none is named start or UTC
 * @example findStampColumns(table, columns, {}) // { date: 0, position: 'start' }
 */
export function findStampColumns(table: Table, columns: Columns, options: FileOptions): StampColumns {
  const { kinds, header } = columns;
  const words = header.map(headerWords);
  const all = kinds.map((_, i) => i);
  let dates = all.filter((i) => kinds[i] === 'dateTime');
  if (dates.length === 0) dates = all.filter((i) => kinds[i] === 'date');
  if (options.stampColumn !== undefined) dates = [columnNamed(table, header, options.stampColumn)];
  if (dates.length === 0) {
    throw new InputError('no column of dates', 'Give a file with a date in each line.', {
      file: table.file,
      line: table.lineOf(columns.rows[0]!),
    });
  }
  const date = chooseDate(table, columns, dates, words);
  const result: StampColumns = { date };
  let says = words[date]!;
  const end = dates.find((i) => i !== date && END.test(words[i]!));
  if (end !== undefined) result.endDate = end;
  if (kinds[date] === 'date') {
    const times = all.filter((i) => kinds[i] === 'time' || isBareTime(table, columns, i, words[i]!));
    const time = times.find((i) => START.test(words[i]!)) ?? times[0];
    if (time !== undefined) {
      result.time = time;
      says += ` ${words[time]}`;
      const endTime = times.find((i) => i !== time && (END.test(words[i]!) || times.length === 2));
      if (endTime !== undefined) result.endTime = endTime;
      // A range 00:00-00:30 in one cell is read at its start.
      if (table.records[columns.rows[0]!]![time]?.match(/\d\s*(-|–|to|until)\s*\d/))
        result.position = 'start';
    } else {
      const period = all.find(
        (i) => kinds[i] === 'number' && PERIOD.test(words[i]!) && isPeriodColumn(table, columns, i),
      );
      if (period !== undefined) result.period = period;
    }
  }
  if (result.endTime !== undefined || (result.endDate !== undefined && START.test(says)))
    result.position = 'start';
  else if (START.test(says)) result.position = 'start';
  else if (END.test(says)) result.position = 'end';
  else if (result.endDate !== undefined) result.position = 'start';
  if (options.stamp !== undefined) result.position = options.stamp;
  if (UTC.test(says)) result.zone = 'utc';
  if (options.stampZone !== undefined) result.zone = options.stampZone;
  return result;
}

function chooseDate(
  table: Table,
  columns: Columns,
  dates: readonly number[],
  words: readonly string[],
): number {
  if (dates.length === 1) return dates[0]!;
  const starts = dates.filter((i) => START.test(words[i]!));
  const pool = starts.length > 0 ? starts : dates.filter((i) => !END.test(words[i]!));
  const left = pool.length > 0 ? pool : dates;
  if (left.length === 1) return left[0]!;
  const utc = left.filter((i) => UTC.test(words[i]!));
  if (utc.length === 1) return utc[0]!;
  const names = left.map((i) => `"${columns.header[i] || i + 1}"`).join(' and ');
  throw new InputError(
    `columns ${names} all hold dates, and none is named start or UTC`,
    'Say which one stamps the reading: --stamp-column COLUMN.',
    { file: table.file, line: table.lineOf(columns.headerRecord ?? columns.rows[0]!) },
  );
}

function sampleCells(table: Table, columns: Columns, column: number): string[] {
  return columns.rows
    .slice(0, 200)
    .map((r) => table.records[r]![column]?.trim() ?? '')
    .filter((cell) => cell !== '');
}

/** Times written without a colon: 0000, 0030. */
function isBareTime(table: Table, columns: Columns, column: number, words: string): boolean {
  if (columns.kinds[column] !== 'number' || !/\b(time|start|from|end|to|hour)\b/.test(words)) return false;
  const cells = sampleCells(table, columns, column);
  return cells.length > 0 && cells.every((cell) => /^([01]\d|2[0-4])[0-5]\d$/.test(cell));
}

function isPeriodColumn(table: Table, columns: Columns, column: number): boolean {
  return sampleCells(table, columns, column).every((cell) => /^([1-9]|[1-4]\d|50)$/.test(cell));
}

/**
 * The column that an option names: its header, capitals ignored, or its number from 1.
 *
 * @param table the table, for messages
 * @param header headers
 * @param name as given by the user
 * @returns index from 0
 * @throws InputError when the file has no such column
 * @example columnNamed(table, ['Start', 'kWh'], 'kwh') // 1
 */
export function columnNamed(table: Table, header: readonly string[], name: string): number {
  const at = findColumn(header, name);
  if (at !== undefined) return at;
  const known = header.filter((cell) => cell !== '').map((cell) => `"${cell}"`);
  throw new InputError(
    `no column "${name}"`,
    known.length > 0
      ? `The columns are ${known.slice(0, 12).join(', ')}${known.length > 12 ? ' and more' : ''}.`
      : `The file has no header: give the number of the column, 1 to ${header.length}.`,
    { file: table.file },
  );
}

/**
 * As {@link columnNamed}, with undefined where there is no such column.
 *
 * @param header headers
 * @param name header text or number from 1
 * @returns index from 0, or undefined
 * @example findColumn(['Start', 'kWh'], '2') // 1
 */
export function findColumn(header: readonly string[], name: string): number | undefined {
  const bare = name.trim().toLowerCase();
  const at = header.findIndex((cell) => cell.trim().toLowerCase() === bare);
  if (at >= 0) return at;
  const number = Number(bare);
  return Number.isInteger(number) && number >= 1 && number <= header.length ? number - 1 : undefined;
}
