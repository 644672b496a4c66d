import { InputError } from '../errors.js';
import { type CellKind, cellKind } from './cell-kind.js';
import { namesColumns } from './names-columns.js';
import { isBlankCell } from './parse-number.js';
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
}

const SEARCH_RECORDS = 200;
const SAMPLE_ROWS = 60;

/**
 * Finds the header and the data of a table: the data begin with the first row that holds a date and a number (or a blank), the header
 * is the row of words above it; lines before that are a preamble.
 *
 * @param table the table
 * @param vocabulary channels that a header may name
 * @returns header, kinds and data rows
 * @throws InputError when no line holds a date beside a value
 * @example findHeader(table, electricityVocabulary).headerRecord // 2, after two lines of preamble
 */
export function findHeader<C extends string>(table: Table, vocabulary: Vocabulary<C>): Columns {
  const { records } = table;
  const readable = findDataStart(records);
  if (readable === undefined) throw noData(table);
  const dataStart = withUnreadableRowsAbove(records, readable);
  const rows: number[] = [];
  let width = 0;
  for (let r = dataStart; r < records.length; r++) {
    const record = records[r]!;
    if (isEmptyRecord(record)) continue;
    rows.push(r);
    if (record.length > width) width = record.length;
  }
  const { headerRecord, headerWidth, header } = headerAbove(records, dataStart, width);
  const kinds = columnKinds(records, rows, width);
  const isNamed = namesColumns(header, kinds, vocabulary.match);
  return { headerRecord, headerWidth: isNamed ? headerWidth : undefined, header, kinds, rows };
}

function isEmptyRecord(record: readonly string[]): boolean {
  // Only a row whose first cell is blank can be empty: one look for nearly every row.
  return isBlankCell(record[0]) && record.every((cell) => cell.trim() === '');
}

function findDataStart(records: readonly string[][]): number | undefined {
  const end = Math.min(records.length, SEARCH_RECORDS);
  let candidate: number | undefined;
  for (let r = 0; r < end; r++) {
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
function withUnreadableRowsAbove(records: readonly string[][], readable: number): number {
  const stampAt = stampColumn(records[readable]!);
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

function headerAbove(
  records: readonly string[][],
  dataStart: number,
  width: number,
): Pick<Columns, 'headerRecord' | 'headerWidth' | 'header'> {
  let r = dataStart - 1;
  while (r >= 0 && isEmptyRecord(records[r]!)) r--;
  const none = { headerRecord: undefined, headerWidth: undefined, header: new Array<string>(width).fill('') };
  if (r < 0) return none;
  const above = records[r]!.map((cell) => cell.trim());
  const filled = above.filter((cell) => cell !== '');
  if (filled.length < Math.min(2, width)) return none;
  const padded = (cells: readonly string[]): string[] =>
    Array.from({ length: Math.max(width, cells.length) }, (_, i) => cells[i] ?? '');
  const isUnitRow = filled.every((cell) => cell.length <= 10 && unitIn(cell) !== undefined);
  const single = { headerRecord: r, headerWidth: above.length, header: padded(above) };
  if (!isUnitRow) return single;
  let names = r - 1;
  while (names >= 0 && isEmptyRecord(records[names]!)) names--;
  if (names < 0) return single;
  const upper = records[names]!;
  if (upper.filter((cell) => cell.trim() !== '').length < 2) return single;
  const joined = padded(above).map((unit, i) =>
    `${upper[i]?.trim() ?? ''}${unit === '' ? '' : ` (${unit})`}`.trim(),
  );
  return { headerRecord: names, headerWidth: Math.max(above.length, upper.length), header: joined };
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
  const text = table.records[first]?.join(table.delimiter).trim().slice(0, 60) ?? '';
  return new InputError(
    `no line holds a date and a value; the first is "${text}"`,
    'Give a file with a column of dates (such as 2026-01-31 00:30) and at least one column of numbers.',
    { file: table.file, line: table.lineOf(Math.max(first, 0)) },
  );
}
