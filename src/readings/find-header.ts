import { InputError } from '../errors.js';
import { type CellKind, cellKind } from './cell-kind.js';
import { headerWords } from './match-channels.js';
import { namesColumns, STAMP } from './names-columns.js';
import { isBlankCell } from './parse-number.js';
import { lineText } from './place-text.js';
import type { Table } from './read-table.js';
import { unitIn } from './units.js';
import type { Vocabulary } from './vocabulary.js';

/** Where the data of a table begin, what stands above, and what each column looks like. */
export interface Columns {
  /** Record of the header, undefined where there is none. */
  headerRecord: number | undefined;
  /** Header of each column, '' where there is none. */
  header: string[];
  /** Columns of the header itself, which a line may exceed; undefined where no row names the columns. */
  headerWidth: number | undefined;
  /** Kind of each column, from a sample of its rows. */
  kinds: CellKind[];
  /** Records that hold data. */
  rows: number[];
  /** Records above the header, or above the data where there is none, that are not blank: they are not read. */
  above: number[];
  /** Records that the user says are no readings: they are not read. */
  passedOver: number[];
  /** First record that can be read as data: from here on a line is surely no header. */
  readable: number;
}

const SEARCH_RECORDS = 200;
const SAMPLE_ROWS = 60;

/**
 * Finds the header and the data of a table. The header is the last row above the first readable line that names columns, or the row that
 * the user says; all below it are lines of data, so that one that cannot be read is told and not taken for something else. Rows above it
 * are a preamble, where none of them looks like a reading. Where no row names columns, the data begin with the first that looks so.
 *
 * @param table the table
 * @param vocabulary channels that a header may name
 * @param headerLine line of the header, where the user says it
 * @param passOver what lines begin with that the user says are no readings
 * @returns header, kinds and data rows
 * @throws InputError when no line holds a date beside a value, when a reading stands above the header, or where the user's line is none
 * @example findHeader(table, electricityVocabulary).headerRecord // 2, after two lines of preamble
 */
export function findHeader<C extends string>(
  table: Table,
  vocabulary: Vocabulary<C>,
  headerLine?: number,
  passOver: readonly string[] = [],
): Columns {
  const { records } = table;
  const told = headerLine === undefined ? undefined : recordOfLine(table, headerLine);
  const readable = findDataStart(records, told === undefined ? 0 : told + 1);
  if (readable === undefined) throw noData(table);
  const stampAt = stampColumn(records[readable]!);
  const sample = rowsFrom(records, readable);
  const sampleKinds = columnKinds(records, sample.rows, sample.width);
  const named = told ?? lastRowOfNames(records, readable, stampAt, sampleKinds, vocabulary);
  let dataStart: number;
  let found: Pick<Columns, 'headerRecord' | 'headerWidth' | 'header'>;
  if (named === undefined) {
    dataStart = firstReading(records, readable, stampAt, sampleKinds);
    refuseScrambledAbove(table, dataStart);
    found = headerAbove(records, dataStart, sample.width, sampleKinds);
  } else {
    const isMixed = (r: number): boolean => isMixedUnitRow(records, r, sampleKinds, vocabulary, stampAt);
    const units = told === undefined ? undefined : unitsBelow(records, told, readable, isMixed);
    dataStart = (units ?? named) + 1;
    found = headerOf(records, units ?? named, sample.width, isMixed(units ?? named));
    refuseReadingsAbove(table, found.headerRecord!, stampAt, sampleKinds, told !== undefined);
  }
  const below = rowsFrom(records, dataStart);
  const passedOver = below.rows.filter((r) => isPassedOver(records[r]!, stampAt, passOver));
  const rows = passedOver.length === 0 ? below.rows : below.rows.filter((r) => !passedOver.includes(r));
  const { width } = below;
  const kinds = columnKinds(records, rows, width);
  // Stamps that cannot be read, however many, are stamps.
  kinds[stampAt] = sampleKinds[stampAt]!;
  while (found.header.length < width) found.header.push('');
  const isNamed = namesColumns(found.header, kinds, vocabulary.match);
  // Rows of a sheet are all as wide as its widest: blank cells behind the names are no columns of the header.
  const lastNamed = found.header.reduce((last, cell, i) => (cell === '' ? last : i + 1), 0);
  const ownWidth = table.source?.isSheet === true ? lastNamed : found.headerWidth;
  const above: number[] = [];
  const top = found.headerRecord ?? dataStart;
  for (let r = 0; r < top; r++) if (!isEmptyRecord(records[r]!)) above.push(r);
  return {
    ...found,
    headerWidth: isNamed ? ownWidth : undefined,
    kinds,
    rows,
    above,
    passedOver,
    readable,
  };
}

/**
 * Whether rows may hold readings: a date beside a number, or a blank, stands in one of the first.
 *
 * @param records rows of cells
 * @returns false for a sheet of notes
 * @example hasReadings([['2026-01-31 00:30', '0.25']]) // true
 */
export function hasReadings(records: readonly string[][]): boolean {
  return findDataStart(records, 0) !== undefined;
}

/** Whether a line begins with one of the texts; one with a date is a reading, whatever it begins with. */
function isPassedOver(record: readonly string[], stampAt: number, texts: readonly string[]): boolean {
  if (texts.length === 0) return false;
  const kind = cellKind(record[stampAt] ?? '');
  if (kind === 'date' || kind === 'dateTime') return false;
  const begin = (record.find((cell) => cell.trim() !== '') ?? '').trim().toLowerCase();
  return texts.some((text) => text.trim() !== '' && begin.startsWith(text.trim().toLowerCase()));
}

function rowsFrom(records: readonly string[][], start: number): { rows: number[]; width: number } {
  const rows: number[] = [];
  let width = 0;
  for (let r = start; r < records.length; r++) {
    const record = records[r]!;
    if (isEmptyRecord(record)) continue;
    rows.push(r);
    if (record.length > width) width = record.length;
  }
  return { rows, width };
}

function recordOfLine(table: Table, line: number): number {
  const record = table.records.findIndex((_, r) => table.lineNumber(r) === line);
  if (record >= 0 && !isEmptyRecord(table.records[record]!)) return record;
  throw new InputError('no row of the table begins on this line', 'Give the line of the header: --header.', {
    file: table.file,
    line,
  });
}

/** The last row above the data that names columns; a row with a date, or with what looks like a reading, names none. */
function lastRowOfNames<C extends string>(
  records: readonly string[][],
  readable: number,
  stampAt: number,
  kinds: readonly CellKind[],
  vocabulary: Vocabulary<C>,
): number | undefined {
  for (let r = readable - 1; r >= 0; r--) {
    const cells = records[r]!.map((cell) => cell.trim());
    if (cells.filter((cell) => cell !== '').length < Math.min(2, kinds.length)) {
      // A lone unit below the names of the columns.
      if (!isUnitRow(cells)) continue;
    }
    if (looksLikeReading(cells, stampAt, kinds)) continue;
    if (cells.some((cell) => ['date', 'dateTime'].includes(cellKind(cell)))) continue;
    if (namesColumns(cells, kinds, vocabulary.match)) return r;
  }
  return undefined;
}

/** Where no row names columns: the first that looks like a reading, and rows right above with a value that can't be read. */
function firstReading(
  records: readonly string[][],
  readable: number,
  stampAt: number,
  kinds: readonly CellKind[],
): number {
  const first = records.findIndex((record, r) => r < readable && looksLikeReading(record, stampAt, kinds));
  return withUnreadableRowsAbove(records, first < 0 ? readable : first, stampAt);
}

const BEGINS_NUMBER = /^\s*(=|[-+.,]?\d)/;

/** Whether a row has a stamp, or what is left of one, where stamps stand, and a number, or its beginning, where numbers stand. */
function looksLikeReading(record: readonly string[], stampAt: number, kinds: readonly CellKind[]): boolean {
  if (!looksLikeStamp(record[stampAt] ?? '')) return false;
  return record.some((cell, i) => i !== stampAt && kinds[i] === 'number' && BEGINS_NUMBER.test(cell));
}

function looksLikeStamp(cell: string): boolean {
  const kind = cellKind(cell);
  if (kind === 'date' || kind === 'dateTime') return true;
  if (kind !== 'text' || (cell.match(/\d/g)?.length ?? 0) < 4) return false;
  return /^\s*\d/.test(cell) || /\d+\D+\d+\D+\d+/.test(cell);
}

/** A header below readings would hide them: the header comes again, or a row of data passes for one. */
function refuseReadingsAbove(
  table: Table,
  headerRecord: number,
  stampAt: number,
  kinds: readonly CellKind[],
  isTold: boolean,
): void {
  if (isTold) return;
  const { records } = table;
  const reading = records.findIndex(
    (record, r) => r < headerRecord && looksLikeReading(record, stampAt, kinds),
  );
  if (reading < 0) return;
  const line = table.lineNumber(headerRecord);
  throw new InputError(
    `"${records[reading]!.join(table.delimiter).trim().slice(0, 60)}" looks like a reading, and the header on ${lineText(table.lineOf(headerRecord))} stands below it`,
    `Delete the header where it comes again. If the line is no reading, say where the header is: --header ${line}.`,
    { file: table.file, line: table.lineOf(reading) },
  );
}

/** Above data without a header, a row of a stamp and others without a letter is no remark: it is a reading whose cells are out of place. */
function refuseScrambledAbove(table: Table, dataStart: number): void {
  const scrambled = table.records.findIndex(
    (record, r) =>
      r < dataStart &&
      record.filter((cell) => cell.trim() !== '').length > 1 &&
      record.some(looksLikeStamp) &&
      !record.some((cell) => /\p{L}/u.test(cell)),
  );
  if (scrambled < 0) return;
  const line = table.lineOf(scrambled);
  throw new InputError(
    `"${table.records[scrambled]!.join(table.delimiter).trim().slice(0, 60)}" looks like a reading whose cells stand otherwise than those below`,
    `Correct the line, or delete it. If it is the header, say so: --header ${line}.`,
    { file: table.file, line },
  );
}

function isEmptyRecord(record: readonly string[]): boolean {
  // Only a row whose first cell is blank can be empty: one look for nearly every row.
  return isBlankCell(record[0]) && record.every((cell) => cell.trim() === '');
}

function findDataStart(records: readonly string[][], from: number): number | undefined {
  const end = Math.min(records.length, from + SEARCH_RECORDS);
  let candidate: number | undefined;
  for (let r = from; r < end; r++) {
    const stampAt = stampColumn(records[r]!);
    if (stampAt < 0) continue;
    let next = r + 1;
    while (next < records.length && isEmptyRecord(records[next]!)) next++;
    // A preamble may hold a date and a number too: data go on with a date in the same column.
    const kind = next < records.length ? cellKind(records[next]![stampAt] ?? '') : 'date';
    if (kind === 'date' || kind === 'dateTime') return r;
    candidate ??= r;
  }
  return candidate;
}

/**
 * Rows right above with a date in the same column are data too, with a value that can't be read: taken for a header,
 * their half-hours would be lost without a word.
 */
function withUnreadableRowsAbove(records: readonly string[][], readable: number, stampAt: number): number {
  let start = readable;
  for (let r = readable - 1; r >= 0; r--) {
    if (isEmptyRecord(records[r]!)) continue;
    const kind = cellKind(records[r]![stampAt] ?? '');
    if (kind !== 'date' && kind !== 'dateTime') break;
    start = r;
  }
  return start;
}

/** The first column with a date, of a row that also has a number or a blank; -1 where the row is no data. */
function stampColumn(record: readonly string[]): number {
  const kinds = record.map(cellKind);
  const at = kinds.findIndex((kind) => kind === 'date' || kind === 'dateTime');
  if (at < 0) return -1;
  return kinds.includes('number') || kinds.includes('blank') ? at : -1;
}

/** The row above the data, whatever its words; a row with a number where numbers stand is none. */
function headerAbove(
  records: readonly string[][],
  dataStart: number,
  width: number,
  kinds: readonly CellKind[],
): Pick<Columns, 'headerRecord' | 'headerWidth' | 'header'> {
  let r = dataStart - 1;
  while (r >= 0 && isEmptyRecord(records[r]!)) r--;
  const none = { headerRecord: undefined, headerWidth: undefined, header: new Array<string>(width).fill('') };
  if (r < 0) return none;
  const filled = records[r]!.filter((cell) => cell.trim() !== '');
  if (filled.length < Math.min(2, width)) return none;
  if (records[r]!.some((cell, i) => kinds[i] === 'number' && cellKind(cell) === 'number')) return none;
  return headerOf(records, r, width);
}

/** A row as header; a row of units, alone or beside words about the stamps, joins the names above it. */
function headerOf(
  records: readonly string[][],
  r: number,
  width: number,
  isMixed = false,
): Pick<Columns, 'headerRecord' | 'headerWidth' | 'header'> {
  const above = records[r]!.map((cell) => cell.trim());
  const padded = (cells: readonly string[]): string[] =>
    Array.from({ length: Math.max(width, cells.length) }, (_, i) => cells[i] ?? '');
  const single = { headerRecord: r, headerWidth: above.length, header: padded(above) };
  if (!isMixed && !isUnitRow(above)) return single;
  let names = r - 1;
  while (names >= 0 && isEmptyRecord(records[names]!)) names--;
  if (names < 0) return single;
  const upper = records[names]!;
  if (upper.filter((cell) => cell.trim() !== '').length < 2) return single;
  // A name too many has no unit below it.
  const units = [...padded(above), ...new Array<string>(Math.max(0, upper.length - above.length)).fill('')];
  const joined = units.map((unit, i) => {
    const name = upper[i]?.trim() ?? '';
    return `${name}${isBlankCell(unit) ? '' : ` (${unit})`}`.trim();
  });
  return { headerRecord: names, headerWidth: Math.max(above.length, upper.length), header: joined };
}

/** Units alone, and words for nothing. */
function isUnitRow(cells: readonly string[]): boolean {
  const filled = cells.filter((cell) => !isBlankCell(cell));
  return filled.length > 0 && filled.every(isUnitCell);
}

function isUnitCell(cell: string): boolean {
  return cell.length <= 10 && unitIn(cell) !== undefined;
}

/** Whether units stand above numbers, below names of which one is of a channel and one of the stamp: a title names none. */
function isMixedUnitRow<C extends string>(
  records: readonly string[][],
  r: number,
  kinds: readonly CellKind[],
  vocabulary: Vocabulary<C>,
  stampAt: number,
): boolean {
  let names = r - 1;
  while (names >= 0 && isEmptyRecord(records[names]!)) names--;
  if (names < 0) return false;
  const units = records[r]!.map((cell) => cell.trim());
  const upper = records[names]!.map((cell) => cell.trim());
  if (!STAMP.test(headerWords(upper[stampAt] ?? ''))) return false;
  const measured = units.flatMap((unit, i) => (kinds[i] === 'number' && unit !== '' ? [i] : []));
  const stated = measured.filter((i) => isUnitCell(units[i]!));
  const explained = measured.filter((i) => !isUnitCell(units[i]!));
  if (stated.length === 0 || units.some((cell) => cellKind(cell) === 'number')) return false;
  if (explained.some((i) => vocabulary.match(units[i]!) !== undefined)) return false;
  return (
    measured.every(
      (i) => cellKind(upper[i] ?? '') === 'text' && vocabulary.match(units[i]!)?.strength !== 'strong',
    ) && stated.some((i) => vocabulary.match(upper[i]!) !== undefined)
  );
}

function unitsBelow(
  records: readonly string[][],
  told: number,
  readable: number,
  isMixed: (r: number) => boolean,
): number | undefined {
  let r = told + 1;
  while (r < readable && isEmptyRecord(records[r]!)) r++;
  if (r >= readable) return undefined;
  return isUnitRow(records[r]!.map((cell) => cell.trim())) || isMixed(r) ? r : undefined;
}

function columnKinds(records: readonly string[][], rows: readonly number[], width: number): CellKind[] {
  const step = Math.max(1, Math.floor(rows.length / SAMPLE_ROWS));
  const sample = rows.filter((_, i) => i < 10 || i % step === 0);
  return Array.from({ length: width }, (_, column) => {
    const counts: Record<CellKind, number> = { blank: 0, date: 0, dateTime: 0, time: 0, number: 0, text: 0 };
    for (const r of sample) counts[cellKind(records[r]![column] ?? '')]++;
    if (counts.dateTime > 0) {
      // Some programs drop the time of a stamp at midnight: dates among date-times are those.
      counts.dateTime += counts.date;
      counts.date = 0;
    }
    const filled = (Object.keys(counts) as CellKind[]).filter((kind) => kind !== 'blank');
    const most = filled.reduce((best, kind) => (counts[kind] > counts[best] ? kind : best));
    return counts[most] === 0 ? 'blank' : most;
  });
}

function noData(table: Table): InputError {
  const first = table.records.findIndex((record) => !isEmptyRecord(record));
  const textOf = (record: readonly string[] | undefined): string =>
    record?.join(table.delimiter).trim().slice(0, 60) ?? '';
  // Below a header, the first line with figures shows what could not be read of it.
  const below = /\d/.test(textOf(table.records[first]))
    ? undefined
    : table.records.slice(first + 1).find((record) => /\d/.test(textOf(record)));
  const then = below === undefined ? '' : `, the first with figures "${textOf(below)}"`;
  return new InputError(
    `no line holds a date and a value; the first is "${textOf(table.records[first])}"${then}`,
    'Give a file with a column of dates (such as 2026-01-31 00:30) and at least one column of numbers.',
    { file: table.file, line: table.lineOf(Math.max(first, 0)) },
  );
}
