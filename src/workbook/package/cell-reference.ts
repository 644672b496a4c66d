/** The last row and column that a worksheet of this format can have (ECMA-376 part 1, 18.3.1). */
export const LAST_ROW = 1_048_576;
export const LAST_COLUMN = 16_384;

/** A cell by its numbers, both from 1. */
export interface CellPosition {
  row: number;
  column: number;
}

/** A rectangle of cells, all four bounds included, from 1. */
export interface CellRange {
  firstRow: number;
  firstColumn: number;
  lastRow: number;
  lastColumn: number;
}

const names: string[] = [''];

/**
 * Letters of a column.
 *
 * @param column column number, from 1 to 16,384
 * @returns its letters, `A` to `XFD`
 * @throws RangeError outside that range
 * @example columnName(28) // 'AB'
 */
export function columnName(column: number): string {
  if (!Number.isInteger(column) || column < 1 || column > LAST_COLUMN) {
    throw new RangeError(`column ${column} is not between 1 and ${LAST_COLUMN}`);
  }
  for (let next = names.length; next <= column; next++) {
    const parent = names[Math.floor((next - 1) / 26)] ?? '';
    names.push(parent + String.fromCharCode(65 + ((next - 1) % 26)));
  }
  return names[column] as string;
}

/**
 * Number of a column.
 *
 * @param letters letters of the column, any case
 * @returns column number, from 1
 * @throws RangeError when these are not the letters of a column
 * @example columnNumber('AB') // 28
 */
export function columnNumber(letters: string): number {
  let column = 0;
  for (const letter of letters.toUpperCase()) {
    const digit = letter.charCodeAt(0) - 64;
    if (digit < 1 || digit > 26) throw new RangeError(`'${letters}' is not a column`);
    column = column * 26 + digit;
  }
  if (column < 1 || column > LAST_COLUMN) throw new RangeError(`'${letters}' is not a column`);
  return column;
}

/**
 * Name of a cell.
 *
 * @param row row number, from 1
 * @param column column number, from 1
 * @returns for example `AB12`
 */
export function cellName(row: number, column: number): string {
  return `${columnName(column)}${row}`;
}

const cellPattern = /^\$?([A-Za-z]{1,3})\$?([1-9][0-9]{0,6})$/;

/**
 * Reads the name of a cell, with or without `$`.
 *
 * @param reference for example `B7` or `$B$7`
 * @returns row and column, from 1
 * @throws RangeError when it is not the name of a cell
 * @example parseCellRef('$B$7') // { row: 7, column: 2 }
 */
export function parseCellRef(reference: string): CellPosition {
  const match = cellPattern.exec(reference);
  const row = Number(match?.[2]);
  if (match === null || row > LAST_ROW) throw new RangeError(`'${reference}' is not the name of a cell`);
  return { row, column: columnNumber(match[1] as string) };
}

/**
 * Reads a range such as `A1:C9`, or one cell.
 *
 * @param reference for example `$A$1:C9`
 * @returns its bounds, from 1, whichever corner was written first
 * @throws RangeError when it is neither a range nor a cell
 */
export function parseRangeRef(reference: string): CellRange {
  const [from = '', to = from, more] = reference.split(':');
  if (more !== undefined) throw new RangeError(`'${reference}' is not a range of cells`);
  const a = parseCellRef(from);
  const b = parseCellRef(to);
  return {
    firstRow: Math.min(a.row, b.row),
    firstColumn: Math.min(a.column, b.column),
    lastRow: Math.max(a.row, b.row),
    lastColumn: Math.max(a.column, b.column),
  };
}

/** Name of a range: `A1:C9`, or `A1` when it is one cell. */
export function rangeName(range: CellRange): string {
  const from = cellName(range.firstRow, range.firstColumn);
  const to = cellName(range.lastRow, range.lastColumn);
  return from === to ? from : `${from}:${to}`;
}
