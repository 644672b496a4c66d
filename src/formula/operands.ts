import type { GridColumn } from './grid.js';
import { FormulaError, type Value } from './values.js';

/** Cells that a formula refers to, read when they are needed. */
export class Cells {
  constructor(
    readonly columns: readonly GridColumn[],
    readonly firstRow: number,
    readonly lastRow: number,
  ) {}

  get rows(): number {
    return this.lastRow - this.firstRow + 1;
  }

  get size(): number {
    return this.rows * this.columns.length;
  }

  /** Value by row and column, both from 0. */
  at(row: number, column: number): Value {
    return this.columns[column]?.get(this.firstRow + row) ?? null;
  }

  /** Places at which typed numbers in rising order begin anew, and the place after the last; undefined where they are not of that kind. */
  get risingFrom(): readonly number[] | undefined {
    if (this.columns.length !== 1) return undefined;
    return this.columns[0]?.risingFrom(this.firstRow, this.lastRow)?.map((row) => row - this.firstRow);
  }

  /** Value by place, row by row. */
  nth(index: number): Value {
    const across = this.columns.length;
    return across === 1 ? this.at(index, 0) : this.at(Math.floor(index / across), index % across);
  }
}

/** Values in a rectangle, row by row. */
export interface Rows {
  readonly rows: number;
  readonly columns: number;
  readonly values: readonly Value[];
}

/** Two rectangles of values, one after the other where a side is 1 it goes with the other's size. */
export function pairUp(a: Rows, b: Rows, combine: (x: Value, y: Value) => Value): Rows | FormulaError {
  if (a.rows === b.rows && a.columns === b.columns) {
    const values = new Array<Value>(a.values.length);
    for (let i = 0; i < values.length; i++) values[i] = combine(a.values[i] ?? null, b.values[i] ?? null);
    return { rows: a.rows, columns: a.columns, values };
  }
  const rows = Math.max(a.rows, b.rows);
  const columns = Math.max(a.columns, b.columns);
  const fits = (side: Rows): boolean =>
    (side.rows === rows || side.rows === 1) && (side.columns === columns || side.columns === 1);
  if (!fits(a) || !fits(b)) return FormulaError.value;
  const pick = (side: Rows, row: number, column: number): Value =>
    side.values[(side.rows === 1 ? 0 : row) * side.columns + (side.columns === 1 ? 0 : column)] ?? null;
  const values: Value[] = [];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      values.push(combine(pick(a, row, column), pick(b, row, column)));
    }
  }
  return { rows, columns, values };
}

/** The values of cells, row by row. */
export function rowsOf(cells: Cells): Rows {
  const values = new Array<Value>(cells.size);
  for (let i = 0; i < values.length; i++) values[i] = cells.nth(i);
  return { rows: cells.rows, columns: cells.columns.length, values };
}
