import { compileFormula } from '../../formula/compile.js';
import type { Grid } from '../../formula/grid.js';
import type { SheetBuilder } from './sheet-builder.js';

/**
 * Puts every line of sheets into a grid, ready to be worked out.
 *
 * @param sheets the sheets with their lines
 * @param grid holds, or will hold before anything is asked of it, every input that the lines look at
 */
export function putLines(sheets: readonly SheetBuilder[], grid: Grid): void {
  for (const sheet of sheets) {
    for (const { row, column, value } of sheet.labels) grid.column(sheet.name, column).setValue(row, value);
    for (const [column, values] of sheet.values) {
      grid.column(sheet.name, column.column).setValues(column.firstRow, values);
    }
    for (const { line } of sheet.lines) {
      if (line.is === undefined) continue;
      const { row, column } = line.place;
      grid.column(sheet.name, column).setFormulas(row, row, compileFormula(line.is, line.place, grid));
    }
    for (const column of sheet.columns) {
      if (column.is === undefined) continue;
      const compute = compileFormula(column.is, column.cell(0), grid);
      grid.column(sheet.name, column.column).setFormulas(column.firstRow, column.lastRow, compute);
    }
  }
}
