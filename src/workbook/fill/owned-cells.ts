import { columnNumber, parseCell } from '../cell-address.js';
import type { WorkbookResults } from '../evaluate/workbook-results.js';
import type { FormulaColumn, FormulaValue, SheetModel } from '../model/sheet-model.js';
import { comparableFormula } from '../package/index.js';

/** A formula cell of the project: what its formula is, and the library's value. */
export interface OwnedCell {
  /** Comparable form of the formula. */
  formula: string;
  value: FormulaValue;
}

interface OwnedColumn {
  firstRow: number;
  lastRow: number;
  formula: string;
  values: ArrayLike<FormulaValue>;
}

const COLUMNS_OF_A_SHEET = 16_384;

/** The formula cells of one sheet that belong to the project. */
export class OwnedCells {
  private readonly cells = new Map<number, OwnedCell>();
  private readonly columns: OwnedColumn[][] = [];
  /** How many there are. */
  readonly count: number;

  constructor(
    readonly model: SheetModel,
    results: WorkbookResults,
  ) {
    for (const cell of model.cells) {
      if (cell.kind !== 'formula') continue;
      const { row, column } = parseCell(cell.at);
      this.cells.set(row * COLUMNS_OF_A_SHEET + column, {
        formula: comparableFormula(cell.formula, { row, column }),
        value: cell.value(results),
      });
    }
    let count = this.cells.size;
    for (const column of model.formulaColumns) {
      const number = columnNumber(column.letters);
      this.columns[number] ??= [];
      this.columns[number].push(ownedColumn(column, number, results));
      count += column.rows;
    }
    this.count = count;
  }

  /** Comparable form of the formula that belongs into a cell; undefined where none does. */
  formulaAt(row: number, column: number): string | undefined {
    return this.columnAt(row, column)?.formula ?? this.cells.get(row * COLUMNS_OF_A_SHEET + column)?.formula;
  }

  /** The library's value of a cell; undefined where the cell is not the project's. */
  valueAt(row: number, column: number): FormulaValue | undefined {
    const owned = this.columnAt(row, column);
    if (owned !== undefined) return owned.values[row - owned.firstRow];
    return this.cells.get(row * COLUMNS_OF_A_SHEET + column)?.value;
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

function ownedColumn(column: FormulaColumn, number: number, results: WorkbookResults): OwnedColumn {
  const { firstRow, rows } = column;
  return {
    firstRow,
    lastRow: firstRow + rows - 1,
    formula: comparableFormula(column.formula(firstRow), { row: firstRow, column: number }),
    values: column.values(results),
  };
}
