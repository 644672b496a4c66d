import { InputError } from '../errors.js';
import type { Columns } from './find-header.js';
import { lineText } from './place-text.js';
import type { Table } from './read-table.js';

const NUMBER = /^\s*[+-]?\d/;

/**
 * Stops at a line that holds numbers in more cells than the header names: a decimal comma among commas shifts all that follows it,
 * and its scraps would pass for readings. Remarks beyond the header are left alone.
 *
 * @param table the table
 * @param columns its header and data rows; without a header nothing is refused
 * @throws InputError naming the first line with a number beyond the header
 * @example refuseWideLines(table, columns) // throws for start,kWh above 2026-01-31 00:30,0,25
 */
export function refuseWideLines(table: Table, columns: Columns): void {
  const { headerRecord, headerWidth, rows } = columns;
  if (headerRecord === undefined || headerWidth === undefined) return;
  for (const r of rows) {
    const record = table.records[r]!;
    if (record.length <= headerWidth) continue;
    const at = record.findIndex((cell, column) => column >= headerWidth && NUMBER.test(cell));
    if (at < 0) continue;
    const ways =
      table.delimiter === ','
        ? 'If it is the rest of a number with a decimal comma, quote the number or separate the cells by semicolons; else delete it, or give its column a name.'
        : 'Delete it, or give its column a name.';
    throw new InputError(
      `"${record[at]!.trim().slice(0, 60)}" stands in cell ${at + 1}, and the header on ${lineText(table.lineOf(headerRecord))} has ${headerWidth} column${headerWidth === 1 ? '' : 's'}`,
      ways,
      { file: table.file, line: table.lineOf(r) },
    );
  }
}
