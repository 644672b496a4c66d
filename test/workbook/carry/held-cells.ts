import { expect } from 'vitest';
import { cellAt, parseCell } from '../../../src/workbook/cell-address.js';
import { openWorkbookPackage } from '../../../src/workbook/package/index.js';
import { withParts } from '../edit-package.js';

export const OLD = 'old.xlsx';

/** What the cells of a sheet hold, formulas as such. */
export function cellsOf(bytes: Uint8Array, sheet: string): Map<string, unknown> {
  const cells = new Map<string, unknown>();
  const reader = openWorkbookPackage(bytes, OLD).readSheet(sheet);
  while (reader.next()) {
    const value = reader.hasFormula ? `=${reader.formula}` : reader.value;
    if (value !== null) cells.set(reader.name, value);
  }
  return cells;
}

/** Cells of some columns from a row on, by name. */
export function table(
  bytes: Uint8Array,
  sheet: string,
  columns: RegExp,
  fromRow: number,
): [string, unknown][] {
  return [...cellsOf(bytes, sheet)].filter(([at]) => {
    const [, letters = '', row] = /^([A-Z]+)(\d+)$/.exec(at) ?? [];
    return columns.test(letters) && Number(row) >= fromRow;
  });
}

/** The same without formulas. */
export const typedIn = (
  bytes: Uint8Array,
  sheet: string,
  columns: RegExp,
  fromRow: number,
): [string, unknown][] =>
  table(bytes, sheet, columns, fromRow).filter(([, value]) => !String(value).startsWith('='));

/** That a sheet holds what some cells held, so many columns further right. */
export function expectMoved(
  bytes: Uint8Array,
  sheet: string,
  columns: number,
  before: readonly [string, unknown][],
): void {
  const now = cellsOf(bytes, sheet);
  expect(before.length).toBeGreaterThan(5);
  const moved = before.map(([at, value]): [string, unknown] => {
    const { row, column } = parseCell(at);
    return [cellAt(column + columns, row), value];
  });
  expect(moved.map(([at]) => [at, now.get(at)])).toEqual(moved);
}

/** Cells that say the same in other words than in workbooks of earlier layouts. */
export const REWORDED: ReadonlySet<string> = new Set([
  // A free place for a tariff has not all that a total needs: nothing then, 0 today.
  'Tariffs!I98',
  'Tariffs!J98',
  // Where on the very sheet the figures stand.
  'Heating!A9',
  'Heating!A66',
  'Heating!F71',
]);

/** The same workbook with the formulas of a sheet taken out, so that their stored values are seen. */
export function openedValues(bytes: Uint8Array, sheet = 'Tariffs'): Uint8Array {
  const workbook = openWorkbookPackage(bytes, OLD);
  return withParts(bytes, {
    [workbook.sheetPart(sheet)]: (xml) => xml.replace(/<f [^>]*\/>|<f[\s>][\s\S]*?<\/f>/g, ''),
  });
}

/** Defined names that a workbook has more than once, for which a spreadsheet program calls it damaged. */
export function namesHeldTwice(bytes: Uint8Array): string[] {
  const names = openWorkbookPackage(bytes, OLD)
    .definedNames()
    .filter(({ sheet }) => sheet === undefined)
    .map(({ name }) => name.toLowerCase());
  return names.filter((name, i) => names.indexOf(name) < i);
}

/** Holds the totals of all tariffs to those that the old workbook stored, to the penny. */
export function expectSameTotals(old: Uint8Array, carried: Uint8Array): void {
  const [before, now] = [old, carried].map((bytes) => cellsOf(openedValues(bytes), 'Tariffs'));
  for (const letters of 'CDEFGH') {
    expect(now?.get(`${letters}6`), letters).toBeGreaterThan(10);
    expect(now?.get(`${letters}6`), letters).toBe(before?.get(`${letters}6`));
  }
}
