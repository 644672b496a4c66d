import { columnNumber, parseCell } from '../cell-address.js';
import type { Calculated } from '../calculate.js';
import { cellFormula, columnFormula, isShareable } from '../model/column-text.js';
import type { FormulaColumn, FormulaValue, SheetModel } from '../model/sheet-model.js';
import { comparableFormula } from '../package/index.js';

interface OwnedColumn {
  firstRow: number;
  lastRow: number;
  /** Comparable form of the formula of a row. */
  formulaOf: (row: number) => string;
}

const COLUMNS_OF_A_SHEET = 16_384;

/** The formula cells of one sheet that belong to the project. */
export class OwnedCells {
  /** Comparable forms of the formulas of single cells. */
  private readonly cells = new Map<number, string>();
  private readonly columns: OwnedColumn[][] = [];
  /** How many there are. */
  readonly count: number;

  constructor(
    readonly model: SheetModel,
    private readonly calculated: Calculated,
  ) {
    for (const cell of model.cells) {
      if (cell.kind !== 'formula') continue;
      const { row, column } = parseCell(cell.at);
      const formula = comparableFormula(cellFormula(model.name, cell), { row, column });
      this.cells.set(row * COLUMNS_OF_A_SHEET + column, formula);
    }
    let count = this.cells.size;
    for (const column of model.formulaColumns) {
      const number = columnNumber(column.letters);
      this.columns[number] ??= [];
      this.columns[number].push(ownedColumn(model.name, column, number));
      count += column.rows;
    }
    this.count = count;
  }

  /** Comparable form of the formula that belongs into a cell; undefined where none does. */
  formulaAt(row: number, column: number): string | undefined {
    return (
      this.columnAt(row, column)?.formulaOf(row) ?? this.cells.get(row * COLUMNS_OF_A_SHEET + column)
    );
  }

  /** The library's value of a cell; undefined where the cell is not the project's. */
  valueAt(row: number, column: number): FormulaValue | undefined {
    const isOwned =
      this.columnAt(row, column) !== undefined || this.cells.has(row * COLUMNS_OF_A_SHEET + column);
    return isOwned ? this.calculated.value({ sheet: this.model.name, row, column }) : undefined;
  }

  /** Rows and columns of every owned cell. */
  *positions(): Generator<{ row: number; column: number }> {
    for (const key of this.cells.keys()) {
      yield { row: Math.floor(key / COLUMNS_OF_A_SHEET), column: key % COLUMNS_OF_A_SHEET };
    }
    for (const [column, list] of this.columns.entries()) {
      for (const { firstRow, lastRow } of list ?? []) {
        for (let row = firstRow; row <= lastRow; row++) yield { row, column };
      }
    }
  }

  private columnAt(row: number, column: number): OwnedColumn | undefined {
    return this.columns[column]?.find(({ firstRow, lastRow }) => row >= firstRow && row <= lastRow);
  }
}

function ownedColumn(sheet: string, column: FormulaColumn, number: number): OwnedColumn {
  const { firstRow, rows } = column;
  const textOf = (row: number): string =>
    comparableFormula(columnFormula(sheet, column, row), { row, column: number });
  const first = textOf(firstRow);
  const isShared = isShareable(columnFormula(sheet, column, firstRow));
  return {
    firstRow,
    lastRow: firstRow + rows - 1,
    formulaOf: isShared ? () => first : textOf,
  };
}
