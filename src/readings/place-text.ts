/** Where a record of a table stands: the number of its line, or its address in a sheet (`May!A12`). */
export type TablePlace = number | string;

/**
 * A place of a table in a sentence.
 *
 * @param place number of a line, or address in a sheet
 * @returns `line 12` or `May!A12`
 * @example lineText(12) // 'line 12'
 */
export function lineText(place: TablePlace): string {
  return typeof place === 'number' ? `line ${place}` : place;
}
