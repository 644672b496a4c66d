import { InputError } from '../errors.js';
import type { Columns } from './find-header.js';
import type { Table } from './read-table.js';

const FEWEST_LINES = 8;

/**
 * Looks at the last line of a file that no line end closes: a download that broke off ends so. It is refused where it has fewer cells
 * than all other lines, or where its last number has fewer digits after the mark than all others of its column.
 *
 * @param table the table
 * @param columns its data rows
 * @param cells columns of values
 * @returns what to say as assumed; undefined where a line end closes the file, or where its last cell is no value
 * @throws InputError naming the last line
 * @example checkFileEnd(table, columns, [1]) // throws where 0.12 ends a file whose other values have three decimals
 */
export function checkFileEnd(table: Table, columns: Columns, cells: readonly number[]): string | undefined {
  const last = columns.rows.at(-1)!;
  if (table.endsWithLineEnd || last !== table.records.length - 1) return undefined;
  const line = table.lineOf(last);
  const record = table.records[last]!;
  const others = columns.rows.slice(0, -1);
  const refuse = (found: string): never => {
    throw new InputError(
      `${found}, and no line end closes the file: it may be cut`,
      'Download it again; if it is whole, end its last line (put the cursor there and press Enter).',
      { file: table.file, line },
    );
  };
  const isShort = others.every((r) => table.records[r]!.length > record.length);
  if (isShort && others.length > 0) refuse('the last line has fewer cells than all others');
  const at = record.length - 1;
  if (!cells.includes(at)) return undefined;
  const cell = record[at]!.trim();
  if (others.length >= FEWEST_LINES) {
    const counts = others.flatMap((r) => {
      const other = table.records[r]![at]?.trim() ?? '';
      return other === '' ? [] : [decimals(other)];
    });
    const fewest = Math.min(...counts);
    if (counts.length > 0 && fewest > 0 && fewest === Math.max(...counts) && decimals(cell) < fewest)
      refuse(`"${cell}" has fewer digits after the mark than all other values of its column`);
  }
  return `the last line, ${table.lineNumber(last)}, is whole, though no line end closes it`;
}

function decimals(cell: string): number {
  return /[.,](\d*)$/.exec(cell)?.[1]?.length ?? 0;
}
