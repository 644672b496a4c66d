import { cellName, LAST_COLUMN, LAST_ROW } from './cell-reference.js';
import type { InputValue } from './cell-value.js';

/** Values to type into part of a column. */
export interface InputColumn {
  /** Column number, from 1. */
  column: number;
  /** Row of the first value, from 1. */
  firstRow: number;
  /** One value a row: `null` empties a cell, `undefined` leaves it as it is. */
  values: ArrayLike<InputValue>;
  /** What NaN among the values means; without it NaN is refused. */
  nan?: 'blank' | 'unchanged';
  /**
   * Style index for cells that do not exist yet. Without it a new cell takes the style of the cell above it in this
   * block, else of its row, else of its column. A cell that exists keeps its own.
   */
  style?: number;
}

/** Inputs sorted so that a pass over the sheet finds those of the current row at once. */
export class InputPlan {
  readonly lastRow: number;
  private readonly waiting: InputColumn[];
  private active: InputColumn[] = [];
  private row = 0;

  /**
   * @param inputs blocks of values; no two may hold the same cell
   * @throws RangeError when a block leaves the sheet, or two overlap
   */
  constructor(inputs: readonly InputColumn[]) {
    let lastRow = 0;
    for (const input of inputs) {
      const last = input.firstRow + input.values.length - 1;
      const inside =
        Number.isInteger(input.column) &&
        Number.isInteger(input.firstRow) &&
        input.column >= 1 &&
        input.column <= LAST_COLUMN &&
        input.firstRow >= 1 &&
        last <= LAST_ROW;
      if (!inside)
        throw new RangeError(`inputs of column ${input.column}, row ${input.firstRow} leave the sheet`);
      lastRow = Math.max(lastRow, last);
    }
    const sorted = inputs.filter((input) => input.values.length > 0);
    sorted.sort((a, b) => a.column - b.column || a.firstRow - b.firstRow);
    for (let index = 1; index < sorted.length; index++) {
      const left = sorted[index - 1] as InputColumn;
      const right = sorted[index] as InputColumn;
      if (left.column === right.column && left.firstRow + left.values.length > right.firstRow) {
        throw new RangeError(`two inputs for ${cellName(right.firstRow, right.column)}`);
      }
    }
    this.lastRow = lastRow;
    this.waiting = sorted.sort((a, b) => b.firstRow - a.firstRow);
  }

  /**
   * The blocks that reach into a row, from left to right.
   *
   * @param row row number; calls must not go back
   */
  at(row: number): readonly InputColumn[] {
    if (row === this.row) return this.active;
    this.row = row;
    let changed = false;
    for (
      let next = this.waiting.at(-1);
      next !== undefined && next.firstRow <= row;
      next = this.waiting.at(-1)
    ) {
      this.active.push(next);
      this.waiting.pop();
      changed = true;
    }
    if (this.active.some((input) => input.firstRow + input.values.length <= row)) {
      this.active = this.active.filter((input) => input.firstRow + input.values.length > row);
    }
    if (changed) this.active.sort((a, b) => a.column - b.column);
    return this.active;
  }

  /** First row at or after `row` that has an input; Infinity when there is none. */
  nextRow(row: number): number {
    if (this.at(row).length > 0) return row;
    return this.waiting.at(-1)?.firstRow ?? Number.POSITIVE_INFINITY;
  }
}

/**
 * Value that a block has for a row.
 *
 * @throws RangeError for a number that is not finite, unless the block says what NaN means
 */
export function plannedValue(input: InputColumn, row: number): InputValue {
  const value = input.values[row - input.firstRow];
  if (typeof value !== 'number' || Number.isFinite(value)) return value;
  if (Number.isNaN(value) && input.nan !== undefined) return input.nan === 'blank' ? null : undefined;
  throw new RangeError(
    `${cellName(row, input.column)} can't hold ${value}: a cell holds finite numbers only`,
  );
}
