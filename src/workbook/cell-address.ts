/**
 * Letters of a column.
 *
 * @param column column number from 1
 * @returns `A`, `Z`, `AA`, …
 * @example columnLetters(28) // 'AB'
 */
export function columnLetters(column: number): string {
  let letters = '';
  for (let rest = column; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  }
  return letters;
}

/** Number of a column from its letters: `AB` is 28. */
export function columnNumber(letters: string): number {
  let column = 0;
  for (const letter of letters) column = column * 26 + letter.charCodeAt(0) - 64;
  return column;
}

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

/** Sheet prefix of a reference, quoted where the name needs it. */
export function sheetPrefix(sheet: string): string {
  return /^[A-Za-z_]+$/.test(sheet) ? `${sheet}!` : `'${sheet.replaceAll("'", "''")}'!`;
}

/** Absolute reference to a cell of a sheet: `absolute('Half-hours', 'B', 8)` is `'Half-hours'!$B$8`. */
export function absolute(sheet: string, letters: string, row: number): string {
  return `${sheetPrefix(sheet)}$${letters}$${row}`;
}

/** Absolute reference to a stretch of one column. */
export function absoluteColumn(sheet: string, letters: string, firstRow: number, lastRow: number): string {
  return `${sheetPrefix(sheet)}$${letters}$${firstRow}:$${letters}$${lastRow}`;
}

/** Absolute reference to a stretch of one row. */
export function absoluteRow(sheet: string, firstLetters: string, lastLetters: string, row: number): string {
  return `${sheetPrefix(sheet)}$${firstLetters}$${row}:$${lastLetters}$${row}`;
}
