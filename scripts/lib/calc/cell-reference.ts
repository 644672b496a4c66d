/** `B3` from row 3, column 2 (both 1-based). */
export function cellReference(row: number, column: number): string {
  return `${columnName(column)}${row}`;
}

/** `AB` from 28. */
export function columnName(column: number): string {
  let name = '';
  for (let rest = column; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    name = String.fromCharCode(65 + ((rest - 1) % 26)) + name;
  }
  return name;
}

/**
 * Row and column (1-based) of `B3` or `$B$3`.
 * @throws RangeError where the text is no cell reference
 */
export function parseCellReference(ref: string): { row: number; column: number } {
  const match = /^\$?([A-Z]{1,3})\$?([0-9]+)$/.exec(ref);
  if (match === null) throw new RangeError(`${ref} is not a cell reference such as B3`);
  let column = 0;
  for (const letter of match[1]!) column = column * 26 + letter.charCodeAt(0) - 64;
  return { row: Number(match[2]), column };
}
