import { shortened } from '../plain-text.js';
import type { SheetInspection } from '../workbook/fill/inspect-sheet.js';
import { type CellRange, parseCellRef, rangeName } from '../workbook/package/index.js';
import type { Verification } from '../workbook/verify/verify-workbook.js';
import { count } from './count-words.js';

/** Cells of a sheet that are named each, of each kind; of more only the first few are. */
const MOST_NAMED = 20;
const FIRST_FEW = 5;

/**
 * A verification for a terminal: cells that differ, by name, of many on a sheet the first few of each kind and how many more; cells without
 * a stored value by their ranges, or by the sheet where all are.
 *
 * @param verification what was found
 * @returns text that ends with a newline
 * @example formatVerification(verification) // '608,284 formula cells compared: all agree.\n'
 */
export function formatVerification(verification: Verification): string {
  const lines = verification.sheets.flatMap(linesOf);
  const compared = `${count(verification.compared)} formula cells compared`;
  const others = verification.sheets.reduce((sum, sheet) => sum + sheet.others, 0);
  const own = others === 0 ? '' : ` (${count(others)} formulas of your own on these sheets were left alone)`;
  const differ = verification.sheets.reduce(
    (sum, { altered, differing }) => sum + altered.length + differing.length,
    0,
  );
  lines.push(`${compared}${own}: ${verification.agrees ? 'all agree' : `${count(differ)} differ`}.`, '');
  return lines.join('\n');
}

function linesOf({ sheet, intact, altered, differing }: SheetInspection): string[] {
  const holding = differing.filter(({ stored }) => stored !== undefined);
  const lines = [
    ...named(
      altered,
      ({ cell, found }) =>
        `${sheet}!${cell}: the formula was overwritten; it holds ${shortened(String(found))}`,
      (more) =>
        `${sheet}: so are ${more} more; where you changed none, the workbook is of another version: fill into a fresh one`,
    ),
    ...named(
      holding,
      ({ cell, stored, expected }) =>
        `${sheet}!${cell}: holds ${shortened(String(stored))}, the library works out ${shortened(String(expected))}`,
      (more) => `${sheet}: ${more} more hold another value than the library works out`,
    ),
  ];
  const empty = differing.filter(({ stored }) => stored === undefined);
  const ranges = rectangles(empty.map(({ cell }) => cell));
  if (ranges.length > 1 && empty.length === intact) {
    return [
      ...lines,
      `${sheet}: none of its ${count(intact)} formulas has a stored value; the spreadsheet program works them out when it opens the file`,
    ];
  }
  return [
    ...lines,
    ...named(
      ranges,
      (range) =>
        `${sheet}!${rangeName(range)}: no stored value; the spreadsheet program works it out when it opens the file`,
      (more) => `${sheet}: ${more} more ranges have no stored value`,
    ),
  ];
}

/** Each in a line of its own, or of many the first few and how many more. */
function named<Item>(
  items: readonly Item[],
  lineOf: (item: Item) => string,
  moreLine: (more: string) => string,
): string[] {
  if (items.length <= MOST_NAMED) return items.map(lineOf);
  return [...items.slice(0, FIRST_FEW).map(lineOf), moreLine(count(items.length - FIRST_FEW))];
}

/** Cells as few rectangles: runs down a column, joined where their neighbours are as long. */
function rectangles(cells: readonly string[]): CellRange[] {
  const positions = cells.map(parseCellRef).sort((a, b) => a.column - b.column || a.row - b.row);
  const runs: CellRange[] = [];
  for (const { row, column } of positions) {
    const run = runs.at(-1);
    if (run?.lastColumn === column && run.lastRow === row - 1) run.lastRow = row;
    else runs.push({ firstRow: row, lastRow: row, firstColumn: column, lastColumn: column });
  }
  const joined = new Map<string, CellRange>();
  for (const run of runs) {
    const key = `${run.firstRow}:${run.lastRow}:`;
    const left = joined.get(`${key}${run.firstColumn - 1}`);
    joined.delete(`${key}${run.firstColumn - 1}`);
    if (left !== undefined) run.firstColumn = left.firstColumn;
    joined.set(`${key}${run.lastColumn}`, run);
  }
  return [...joined.values()];
}
