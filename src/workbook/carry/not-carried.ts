import { rangeName } from '../package/index.js';

/** Something of the old workbook that the new one has not. */
export interface NotCarried {
  sheet: string;
  /** Its cell; 0 where it is no cell. */
  row: number;
  column: number;
  /** What stands there. */
  found: string;
  why: string;
}

/** Neighbours below each other for which the same holds, told at once. */
export interface NotCarriedStretch {
  /** Sheet and cells, as `Readings!C8:C19`. */
  at: string;
  /** What stands in the first. */
  found: string;
  why: string;
}

/**
 * Joins what could not be carried where it stands in one column without a gap and for the same reason.
 *
 * @param items in any order
 */
export function stretchesOf(items: readonly NotCarried[]): NotCarriedStretch[] {
  const sorted = [...items].sort((a, b) => a.column - b.column || a.row - b.row);
  const runs = new Map<string, { first: NotCarried; last: NotCarried }[]>();
  for (const item of sorted) {
    const key = `${item.sheet} ${item.column} ${item.why}`;
    const known = runs.get(key) ?? [];
    const run = known.at(-1);
    if (item.row > 0 && run?.last.row === item.row - 1) run.last = item;
    else known.push({ first: item, last: item });
    runs.set(key, known);
  }
  const order = [...new Set(items.map(({ sheet }) => sheet))];
  return [...runs.values()]
    .flat()
    .sort((a, b) => order.indexOf(a.first.sheet) - order.indexOf(b.first.sheet))
    .map(({ first, last }) => ({
      at:
        first.row === 0
          ? first.sheet
          : `${first.sheet}!${rangeName({ firstRow: first.row, lastRow: last.row, firstColumn: first.column, lastColumn: last.column })}`,
      found: first.found,
      why: first.why,
    }));
}
