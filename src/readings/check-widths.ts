import { InputError } from '../errors.js';
import type { Columns } from './find-header.js';
import type { FileOptions } from './import-options.js';
import type { Table } from './read-table.js';
import { findColumn } from './stamp-columns.js';

/**
 * Stops at a header that names more columns than any line has: with a name too many, each name may stand above another's numbers.
 *
 * @param table the table
 * @param columns its header and data rows, one line an interval
 * @param options what the user says: names that are left out are no question
 * @throws InputError naming the line of the header
 * @example refuseNamesTooMany(table, columns, {}) // throws for start,tariff,kWh above 2026-01-31 00:30,0.25
 */
export function refuseNamesTooMany(table: Table, columns: Columns, options: FileOptions): void {
  const { header, headerRecord, headerWidth, rows } = columns;
  if (headerRecord === undefined || headerWidth === undefined) return;
  let widest = 0;
  for (const r of rows) widest = Math.max(widest, table.records[r]!.length);
  const ignored = Object.entries(options.channels ?? {})
    .filter(([, channel]) => channel === 'ignore')
    .map(([name]) => findColumn(header, name));
  const beyond = header.findIndex((name, i) => i >= widest && name !== '' && !ignored.includes(i));
  if (beyond < 0) return;
  const names = header.filter((name) => name !== '').length;
  throw new InputError(
    `the header names ${names} columns, and no line has more than ${widest} cells`,
    `Correct the header, so that each name stands above its own numbers; if only "${header[beyond]}" is empty, leave it out: --channel "${header[beyond]}=ignore".`,
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
  const counts = new Map<number, number>();
  for (const r of rows) {
    const width = table.records[r]!.length;
    counts.set(width, (counts.get(width) ?? 0) + 1);
  }
  const [usual] = [...counts].reduce((a, b) => (b[1] > a[1] ? b : a));
  return rows.filter((r) => table.records[r]!.length < usual);
}
