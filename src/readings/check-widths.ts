import { InputError } from '../errors.js';
import type { Columns } from './find-header.js';
import type { FileOptions } from './import-options.js';
import { headerWords, isNoReading } from './match-channels.js';
import { isBlankCell } from './parse-number.js';
import type { Table } from './read-table.js';
import { findColumn } from './stamp-columns.js';
import { unitIn } from './units.js';
import type { Vocabulary } from './vocabulary.js';

/**
 * Stops at a header that names more columns than any line has, or a column of numbers that most lines have not: with a name too many,
 * each name may stand above another's numbers.
 *
 * @param table the table
 * @param columns its header and data rows, one line an interval
 * @param options what the user says: names that are left out are no question
 * @throws InputError naming the line of the header
 * @example refuseNamesTooMany(table, columns, {}) // throws for start,tariff,kWh above 2026-01-31 00:30,0.25
 */
export function refuseNamesTooMany(table: Table, columns: Columns, options: FileOptions): void {
  const { header, headerRecord, headerWidth, kinds, rows } = columns;
  if (headerRecord === undefined || headerWidth === undefined) return;
  let widest = 0;
  for (const r of rows) widest = Math.max(widest, table.records[r]!.length);
  const usual = usualWidth(table, rows);
  const ignored = Object.entries(options.channels ?? {})
    .filter(([, channel]) => channel === 'ignore')
    .map(([name]) => findColumn(header, name));
  const isBeyond = (i: number): boolean => i >= widest || (i >= usual && kinds[i] === 'number');
  const beyond = header.findIndex((name, i) => isBeyond(i) && name !== '' && !ignored.includes(i));
  if (beyond < 0) return;
  const names = header.filter((name) => name !== '').length;
  const has = beyond < widest ? `most lines have ${usual}` : `no line has more than ${widest} cells`;
  throw new InputError(
    `the header names ${names} columns, and ${has}`,
    `Correct the header, so that each name stands above its own numbers; if only "${header[beyond]}" is empty, leave it out: --channel "${header[beyond]}=ignore".`,
    { file: table.file, line: table.lineOf(headerRecord) },
  );
}

/**
 * As {@link refuseNamesTooMany}, for a sheet, which does not say how many cells a row has: stops where a channel has no numbers in most rows, and
 * some stand left of it below its very name, or below a name of nothing that is measured.
 *
 * @param table the table
 * @param columns its header and data rows, one row an interval
 * @param options what the user says: names that are left out or given a channel are no question
 * @param stampAt column of the stamps, left of which numbers may be those of rows
 * @param vocabulary channels that a name may be of
 * @throws InputError naming the cell of the header
 * @example refuseShiftedNames(table, columns, {}, 0, electricityVocabulary) // throws for start,start,kWh above 2026-01-31 00:30,0.25
 */
export function refuseShiftedNames<C extends string>(
  table: Table,
  { header, headerRecord, headerWidth, kinds, rows }: Columns,
  options: FileOptions,
  stampAt: number,
  vocabulary: Vocabulary<C>,
): void {
  if (headerRecord === undefined || headerWidth === undefined) return;
  const told = Object.keys(options.channels ?? {}).map((name) => findColumn(header, name));
  const isOpen = (name: string, i: number): boolean => i > stampAt && name !== '' && !told.includes(i);
  const isOfNothing = (name: string): boolean =>
    vocabulary.match(name) === undefined && unitIn(name) === undefined && !isNoReading(headerWords(name));
  const isMostlyBlank = (i: number): boolean =>
    2 * rows.filter((r) => isBlankCell(table.records[r]![i])).length > rows.length;
  const empty = header.findIndex(
    (name, i) => isOpen(name, i) && vocabulary.match(name) !== undefined && isMostlyBlank(i),
  );
  if (empty < 0) return;
  const isOdd = (name: string): boolean =>
    isOfNothing(name) || headerWords(name) === headerWords(header[empty]!);
  const odd = header.findIndex(
    (name, i) => i < empty && isOpen(name, i) && kinds[i] === 'number' && isOdd(name),
  );
  if (odd < 0) return;
  throw new InputError(
    `numbers stand below "${header[odd]}", and "${header[empty]}" has none in most rows`,
    `Correct the header, so that each name stands above its own numbers; if "${header[empty]}" is empty, leave it out: --channel "${header[empty]}=ignore".`,
    { file: table.file, line: table.lineOf(headerRecord, odd) },
  );
}

/** Cells of most lines. */
function usualWidth(table: Table, rows: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const r of rows) {
    const width = table.records[r]!.length;
    counts.set(width, (counts.get(width) ?? 0) + 1);
  }
  const [usual] = [...counts].reduce((a, b) => (b[1] > a[1] ? b : a));
  return usual;
}

/**
 * Stops at a header that names fewer columns than every line has, where there are several columns of numbers: with a name too few, each may
 * stand above another's numbers. Of one column of numbers there is no doubt, whatever stands beyond the header.
 *
 * @param table the table
 * @param columns its header and data rows, one line an interval
 * @throws InputError naming the line of the header
 * @example refuseNamesTooFew(table, columns) // throws for start,export kWh,read type above 2026-01-31 00:30,0.25,0,A
 */
export function refuseNamesTooFew(table: Table, { headerRecord, headerWidth, kinds, rows }: Columns): void {
  if (headerRecord === undefined || headerWidth === undefined) return;
  const isWide = (r: number): boolean =>
    table.records[r]!.some((cell, column) => column >= headerWidth && cell.trim() !== '');
  if (kinds.filter((kind) => kind === 'number').length < 2 || !rows.every(isWide)) return;
  throw new InputError(
    `the header has ${headerWidth} columns, and every line below it has more cells`,
    'Correct the header, so that each name stands above its own cells, and give marks and remarks a name too.',
    { file: table.file, line: table.lineOf(headerRecord) },
  );
}

/**
 * Rows with fewer cells than most of their file have: what is missing is taken as blank, and told.
 *
 * @param table the table
 * @param columns its data rows, one line an interval
 * @returns records
 * @example shortRows(table, columns) // [] where all lines have the same number of cells
 */
export function shortRows(table: Table, { rows }: Columns): number[] {
  const usual = usualWidth(table, rows);
  return rows.filter((r) => table.records[r]!.length < usual);
}
