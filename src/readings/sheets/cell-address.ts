import { columnNumber } from '../../column-letters.js';

/** The last row and column that a sheet can have (ECMA-376 part 1, 18.3.1). */
export const MOST_ROWS = 1_048_576;
export const MOST_COLUMNS = 16_384;

/**
 * Row and column of a cell.
 *
 * @param address as `AB12`
 * @returns both from 0; undefined where it is none
 * @example cellAt('AB12') // { row: 11, column: 27 }
 */
export function cellAt(address: string): { row: number; column: number } | undefined {
  const match = /^([A-Z]{1,3})([1-9]\d{0,6})$/.exec(address);
  if (match === null) return undefined;
  const column = columnNumber(match[1]!);
  const row = Number(match[2]);
  return row <= MOST_ROWS && column <= MOST_COLUMNS ? { row: row - 1, column: column - 1 } : undefined;
}
