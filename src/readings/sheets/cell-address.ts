/** The last row and column that a sheet can have (ECMA-376 part 1, 18.3.1). */
export const MOST_ROWS = 1_048_576;
export const MOST_COLUMNS = 16_384;

/**
 * Letters of a column of a sheet.
 *
 * @param column from 0
 * @returns its letters
 * @example columnLetters(27) // 'AB'
 */
export function columnLetters(column: number): string {
  const last = String.fromCharCode(65 + (column % 26));
  return column < 26 ? last : columnLetters(Math.floor(column / 26) - 1) + last;
}

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
  let column = 0;
  for (const letter of match[1]!) column = column * 26 + letter.charCodeAt(0) - 64;
  const row = Number(match[2]);
  return row <= MOST_ROWS && column <= MOST_COLUMNS ? { row: row - 1, column: column - 1 } : undefined;
}
