import { cellAt, parseCell } from '../cell-address.js';
import type { CellRange } from '../package/index.js';
import type { EarlierLayout, LaidSheet } from './earlier-layout.js';

/**
 * A sheet of a layout as a part of a later one's.
 *
 * @param layout the layout
 * @param sheet name of the sheet
 * @param columns how many columns further right it stands
 */
export function movedSheet({ sheets }: EarlierLayout, sheet: string, columns: number): LaidSheet {
  const found = sheets.find(({ name }) => name === sheet);
  if (found === undefined) throw new RangeError(`there is no sheet ${sheet}`);
  const moved = (ranges: readonly CellRange[]): CellRange[] =>
    ranges.map((range) => ({
      ...range,
      firstColumn: range.firstColumn + columns,
      lastColumn: range.lastColumn + columns,
    }));
  return {
    ...found,
    ours: moved(found.ours),
    formulas: moved(found.formulas),
    comments: moved(found.comments),
  };
}

/**
 * A sheet with parts of an earlier layout on it; what stays is said of the whole sheet only.
 *
 * @param sheet name, what stays, and the cells that the parts have not
 * @param parts where they stand on it
 */
export function together(sheet: LaidSheet, ...parts: readonly LaidSheet[]): LaidSheet {
  return {
    ...sheet,
    ours: [...parts.flatMap(({ ours }) => ours), ...sheet.ours],
    formulas: [...parts.flatMap(({ formulas }) => formulas), ...sheet.formulas],
    comments: [...parts.flatMap(({ comments }) => comments), ...sheet.comments],
    charts: parts.reduce((sum, { charts }) => sum + charts, sheet.charts),
  };
}

/**
 * Addresses in their arrangement, further right.
 *
 * @param places addresses; null where there is no cell
 * @param columns how many columns further right they stand
 */
export function movedPlaces<Places>(places: Places, columns: number): Places {
  const walk = (part: unknown): unknown => {
    if (typeof part === 'string') return movedCell(part, columns);
    if (Array.isArray(part)) return part.map(walk);
    if (part === null || typeof part !== 'object') return part;
    return Object.fromEntries(Object.entries(part).map(([key, value]) => [key, walk(value)]));
  };
  return walk(places) as Places;
}

/**
 * Texts by their cells, further right.
 *
 * @param texts by address
 * @param columns how many columns further right they stand
 */
export function movedTexts(
  texts: Readonly<Record<string, string>> | undefined,
  columns: number,
): Record<string, string> {
  return Object.fromEntries(Object.entries(texts ?? {}).map(([at, text]) => [movedCell(at, columns), text]));
}

function movedCell(at: string, columns: number): string {
  const { row, column } = parseCell(at);
  return cellAt(column + columns, row);
}
