import { columnNumber, parseCell } from '../cell-address.js';
import type { SheetModel } from '../model/sheet-model.js';
import { cellName } from '../package/index.js';

/** The cells of one sheet that the user types or pastes into. */
export class InputCells {
  private readonly cells: ReadonlySet<string>;
  private readonly columns: ReadonlyMap<number, { firstRow: number; lastRow: number }>;

  constructor(model: SheetModel) {
    this.cells = new Set(
      model.cells
        .filter(({ kind }) => kind === 'input')
        .map(({ at }) => {
          const { row, column } = parseCell(at);
          return cellName(row, column);
        }),
    );
    this.columns = new Map(
      model.inputColumns.map(({ letters, firstRow, rows }) => [
        columnNumber(letters),
        { firstRow, lastRow: firstRow + rows - 1 },
      ]),
    );
  }

  /** Whether a cell, by row and column from 1, is one of them. */
  has(row: number, column: number): boolean {
    const range = this.columns.get(column);
    if (range !== undefined && row >= range.firstRow && row <= range.lastRow) return true;
    return this.cells.has(cellName(row, column));
  }
}
