import { columnLetters, columnNumber } from '../column-letters.js';

export { columnLetters, columnNumber };

/** Relative address of a cell: `cellAt(2, 8)` is `B8`. */
export function cellAt(column: number, row: number): string {
  return `${columnLetters(column)}${row}`;
}

/** Column and row of an address such as `AB12`. */
export function parseCell(address: string): { column: number; row: number } {
  const match = /^\$?([A-Z]{1,3})\$?(\d+)$/.exec(address);
  if (match === null) throw new RangeError(`"${address}" is not a cell address`);
  return { column: columnNumber(match[1]!), row: Number(match[2]) };
}

/** A cell of the same sheet that stays where a formula is copied: `$K$8`. */
export function fixedCell(address: string): string {
  const { column, row } = parseCell(address);
  return `$${columnLetters(column)}$${row}`;
}

/** Sheet prefix of a reference, quoted where the name needs it. */
export function sheetPrefix(sheet: string): string {
  return /^[A-Za-z_]+$/.test(sheet) ? `${sheet}!` : `'${sheet.replaceAll("'", "''")}'!`;
}

/** Absolute reference to a cell of a sheet: `absolute('Half-hours', 'B', 8)` is `'Half-hours'!$B$8`. */
export function absolute(sheet: string, letters: string, row: number): string {
  return `${sheetPrefix(sheet)}$${letters}$${row}`;
}

/** Reference to a cell that moves down with the row of the formula. */
export function inRow(sheet: string, letters: string, row: number): string {
  return `${sheetPrefix(sheet)}$${letters}${row}`;
}

/** Absolute reference to a stretch of one column. */
export function absoluteColumn(sheet: string, letters: string, firstRow: number, lastRow: number): string {
  return `${sheetPrefix(sheet)}$${letters}$${firstRow}:$${letters}$${lastRow}`;
}

/** Absolute reference to a stretch of one row. */
export function absoluteRow(sheet: string, firstLetters: string, lastLetters: string, row: number): string {
  return `${sheetPrefix(sheet)}$${firstLetters}$${row}:$${lastLetters}$${row}`;
}
