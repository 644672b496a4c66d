import type { Calculated } from '../calculate.js';
import { columnNumber, parseCell } from '../cell-address.js';
import { cellFormula, columnFormula, isSharedColumn } from '../model/column-text.js';
import type { FormulaColumn, FormulaValue, SheetModel } from '../model/sheet-model.js';
import { comparableFormula } from '../package/index.js';

interface OwnedColumn {
  firstRow: number;
  lastRow: number;
  /** Comparable form of the formula of a row. */
  formulaOf: (row: number) => string;
  /** Its text, where every row has one of its own. */
  textOf?: (row: number) => string;
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

  /** Whether a formula of the project belongs into a cell. */
  has(row: number, column: number): boolean {
    return this.columnAt(row, column) !== undefined || this.cells.has(row * COLUMNS_OF_A_SHEET + column);
  }

  /**
   * Whether a cell holds the formula that belongs there.
   *
   * @param found how the formula reads, and its comparable form, which is slower to make
   */
  holdsOwn(
    row: number,
    column: number,
    found: { readonly formula: string | undefined; readonly comparableFormula: string | undefined },
  ): boolean {
    const owned = this.columnAt(row, column);
    if (owned?.textOf !== undefined && owned.textOf(row) === found.formula) return true;
    const expected = owned?.formulaOf(row) ?? this.cells.get(row * COLUMNS_OF_A_SHEET + column);
    return expected === found.comparableFormula;
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
  const textOf = (row: number): string => columnFormula(sheet, column, row);
  const comparableOf = (row: number): string => comparableFormula(textOf(row), { row, column: number });
  const bounds = { firstRow, lastRow: firstRow + rows - 1 };
  if (!isSharedColumn(sheet, column)) return { ...bounds, formulaOf: comparableOf, textOf };
  const first = comparableOf(firstRow);
  return { ...bounds, formulaOf: () => first };
}
