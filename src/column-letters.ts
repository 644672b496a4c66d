/**
 * Letters of a column of a sheet.
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

/**
 * Number of a column.
 *
 * @param letters its letters, capitals
 * @returns the number from 1
 * @example columnNumber('AB') // 28
 */
export function columnNumber(letters: string): number {
  let column = 0;
  for (const letter of letters) column = column * 26 + letter.charCodeAt(0) - 64;
  return column;
}
