import { InputError } from '../errors.js';
import type { Columns } from './find-header.js';
import type { FileOptions } from './import-options.js';
import { isBlankCell } from './parse-number.js';
import type { Table } from './read-table.js';
import type { ValueColumn } from './value-columns.js';

const FEWEST_LINES = 4;
const LARGE = 100;

/**
 * Asks about numbers that a decimal comma may have split in two where the header has room for both: whole kWh, and in the next
 * column digits with a nought before them, or of one length throughout and spread over it, as decimals are. Whole kWh in the
 * hundreds are no meter's half-hours, and one number throughout is no row of decimals.
 *
 * @param table the table
 * @param columns its header and data rows
 * @param values its columns of values, one line an interval
 * @param options what the user says; a decimal mark settles it
 * @throws InputError naming the first such line
 * @example refuseSplitNumbers(table, columns, values, {}) // throws for start,import kWh,export kWh above lines such as 2026-01-31,0,20
 */
export function refuseSplitNumbers<C extends string>(
  table: Table,
  columns: Columns,
  values: readonly ValueColumn<C>[],
  options: FileOptions,
): void {
  if (table.delimiter !== ',' || options.decimalMark !== undefined) return;
  const wholeKwh = values.filter(({ unit, register }) => unit.name === 'kWh' && register === false);
  for (const { column } of wholeKwh) {
    const next = column + 1;
    const isUnnamed = columns.headerRecord !== undefined && columns.header[next] === '';
    if (!isUnnamed && !wholeKwh.some((other) => other.column === next)) continue;
    const filled = columns.rows.filter((r) => !isBlankCell(table.records[r]![column]));
    if (filled.length < FEWEST_LINES) continue;
    const cell = (r: number, at: number): string => table.records[r]![at]?.trim() ?? '';
    if (!filled.every((r) => /^[+-]?\d+$/.test(cell(r, column)))) continue;
    if (!filled.every((r) => /^\d+$/.test(cell(r, next)))) continue;
    if (filled.filter((r) => Math.abs(Number(cell(r, column))) >= LARGE).length * 2 >= filled.length)
      continue;
    if (!areDecimals(filled.map((r) => cell(r, next)))) continue;
    const first = filled[0]!;
    throw new InputError(
      `"${cell(first, column)}" and "${cell(first, next)}" in cells ${next} and ${next + 1} look like one number with a decimal comma, as do all lines`,
      'Quote such numbers or separate the cells by semicolons; if they are two numbers, say --decimal point.',
      { file: table.file, line: table.lineOf(first) },
    );
  }
}

function areDecimals(digits: readonly string[]): boolean {
  if (new Set(digits).size === 1) return false;
  if (digits.some((text) => /^0\d/.test(text))) return true;
  const { length } = digits[0]!;
  if (length < 2 || digits.some((text) => text.length !== length)) return false;
  const sorted = digits.map(Number).sort((a, b) => a - b);
  // Two digits can be anything from 10 to 99, three from 100 to 999.
  return sorted.at(-1)! - sorted[0]! >= (10 ** length - 1 - 10 ** (length - 1)) / 2;
}
