import { FIRST_ROW } from '../layout.js';
import { label } from './cells.js';
import type { Cell, FormulaColumn, SheetModel } from './sheet-model.js';

/** Two header rows above a sheet's columns: what it is, and its unit. */
export function columnHeaders(columns: readonly FormulaColumn[]): Cell[] {
  return columns.flatMap((column) => [
    label(`${column.letters}${FIRST_ROW - 3}`, column.label, 'header'),
    label(`${column.letters}${FIRST_ROW - 2}`, column.unit, 'headerUnit'),
  ]);
}

/** Title and one line of explanation at the top of a sheet, or of a part that stands right of others. */
export function sheetTop(title: string, hint: string, letters = 'A'): Cell[] {
  return [label(`${letters}1`, title, 'title'), label(`${letters}2`, hint, 'hint')];
}

/** Rows above the headings that a column's style would colour as inputs. */
const TOP_ROWS = [1, 2, 3, 4, 5] as const;

/** The sheet with cells that keep the colour of its input columns out of the rows above the headings. */
export function withPlainTop(sheet: SheetModel): SheetModel {
  const isTyped = new Set(sheet.cells.map(({ at }) => at));
  const plain = TOP_ROWS.flatMap((row) => sheet.inputColumns.map(({ letters }) => `${letters}${row}`)).filter(
    (at) => !isTyped.has(at),
  );
  return { ...sheet, cells: [...sheet.cells, ...plain.map((at) => label(at, null, 'hint'))] };
}
