import { FIRST_ROW } from '../layout.js';
import { label } from './cells.js';
import type { Cell, FormulaColumn } from './sheet-model.js';

/** Two header rows above a sheet's columns: what it is, and its unit. */
export function columnHeaders(columns: readonly FormulaColumn[]): Cell[] {
  return columns.flatMap((column) => [
    label(`${column.letters}${FIRST_ROW - 3}`, column.label, 'header'),
    label(`${column.letters}${FIRST_ROW - 2}`, column.unit, 'headerUnit'),
  ]);
}

/** Title and one line of explanation at the top of a sheet. */
export function sheetTop(title: string, hint: string): Cell[] {
  return [label('A1', title, 'title'), label('A2', hint, 'hint')];
}
