import { InputError } from '../errors.js';
import type { Columns } from './find-header.js';
import type { FileOptions, StampPosition } from './import-options.js';
import { listText } from './list-text.js';
import { headerWords } from './match-channels.js';
import { StampReader } from './parse-stamp.js';
import type { Table } from './read-table.js';
import { MIN_SLOTS } from './step-of-count.js';
import { unitIn } from './units.js';
import { zoneInHeader } from './zone-in-header.js';

/** The columns that say when. */
export interface StampColumns {
  /** Column of the date, with or without a time. */
  date: number;
  /** Column of the time of day, where it is apart. */
  time?: number;
  /** Column of the number of the interval in its day, from 1. */
  period?: number;
  /** Columns of the end, where both ends are given. */
  endDate?: number;
  endTime?: number;
  /** What headers or options say of the stamp; undefined where they say nothing. */
  position?: StampPosition;
  /** Zone that headers or options state for stamps without offset. */
  zone?: string;
}

const START =
  /\b(start|starts|starting|from|begin|begins|beginning|commencing|plugged in|plug in|connected)\b/;
const END = /\b(end|ends|ending|to|until|till|finish|stop|unplugged|plugged out|plug out|disconnected)\b/;
const PERIOD = /\b(period|slot|half hour|halfhour|hh|interval)\b/;

/**
 * Finds the columns that say when: one stamp, a date and a time, a date and the number of an interval, or both ends.
 *
 * @param table the table
 * @param columns what its columns look like
 * @param options what the user says
 * @returns the columns, and what their headers say of them
 * @throws InputError when there is none, or several of which none is named start or UTC, or when a header names several zones
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
  const isIgnored = (i: number): boolean =>
    Object.entries(options.channels ?? {}).some(
      ([name, channel]) => channel === 'ignore' && findColumn(header, name) === i,
    );
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
      const period = all.filter(
        (i) =>
          kinds[i] === 'number' &&
          PERIOD.test(words[i]!) &&
          unitIn(header[i]!) === undefined &&
          isPeriodColumn(table, columns, i),
      );
      // A header of Period 1, Period 2 and so on has a value in each.
      if (period.length > 0 && period.length < MIN_SLOTS) {
        // A number of the tariff, or the same length in each line, counts fewer.
        const distinct = (i: number): number => new Set(sampleCells(table, columns, i)).size;
        result.period = period.reduce((a, b) => (distinct(b) > distinct(a) ? b : a));
      }
    }
  }
  if (result.endTime !== undefined || (result.endDate !== undefined && START.test(says)))
    result.position = 'start';
  else if (START.test(says)) result.position = 'start';
  else if (END.test(says)) result.position = 'end';
  else if (result.endDate !== undefined) result.position = 'start';
  if (options.stamp !== undefined) result.position = options.stamp;
  // An end that is left out still says that the other stamp is the start.
  if ([result.endDate, result.endTime].some((i) => i !== undefined && isIgnored(i))) {
    delete result.endDate;
    delete result.endTime;
  }
  const zone = options.stampZone ?? statedZone(table, columns, result);
  if (zone !== undefined) result.zone = zone;
  return result;
}

/** The zone that the headers state for stamps without an offset of their own. */
function statedZone(table: Table, columns: Columns, stamps: StampColumns): string | undefined {
  const stated = [stamps.date, stamps.time, stamps.period].filter((i): i is number => i !== undefined);
  const names = stated.map((i) => columns.header[i]!);
  const zone = zoneInHeader(names.join(' '));
  if (zone !== 'unclear') return zone;
  if (hasOffset(table, columns, stamps)) return undefined;
  const named = names.filter((name) => name !== '').map((name) => `"${name}"`);
  throw new InputError(
    `${named.join(' and ')} ${named.length > 1 ? 'leave' : 'leaves'} the zone of the stamps unclear`,
    'Say which clock the stamps follow: --stamp-zone local, utc, or a fixed offset such as +01:00.',
    { file: table.file, line: table.lineOf(columns.headerRecord ?? columns.rows[0]!) },
  );
}

/** Whether stamps carry their offsets, as the first does: then no header has to. */
function hasOffset(table: Table, columns: Columns, { date, time }: StampColumns): boolean {
  const reader = new StampReader(undefined);
  const record = table.records[columns.rows[0]!]!;
  const isStamp =
    time === undefined ? reader.read(record[date] ?? '') : reader.readTimeOfDay(record[time] ?? '');
  return isStamp && !Number.isNaN(reader.offsetMinutes);
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
  const utc = left.filter((i) => {
    const zone = zoneInHeader(columns.header[i]!);
    return zone !== undefined && zone !== 'unclear';
  });
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
  return sampleCells(table, columns, column).every((cell) => /^([1-9]|[1-9]\d|[1-2]\d\d|300)$/.test(cell));
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
function columnNamed(table: Table, header: readonly string[], name: string): number {
  const at = findColumn(header, name);
  if (at !== undefined) return at;
  const known = header.filter((cell) => cell !== '').map((cell) => `"${cell}"`);
  throw new InputError(
    `no column "${name}"`,
    known.length > 0
      ? `The columns are ${listText(known, 12)}.`
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
