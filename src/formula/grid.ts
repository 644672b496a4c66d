import type { CellPlace } from './nodes.js';
import type { Value } from './values.js';

/** Works out the value of a cell of a column. */
export type Compute = (row: number) => Value;

/** Formulas that fill a stretch of a column. */
interface Stretch {
  readonly firstRow: number;
  readonly lastRow: number;
  readonly compute: Compute;
  /** Rows above this one were worked out in order. */
  next: number;
  isRunning: boolean;
}

const DONE = 0;
const PENDING = 1;
const RUNNING = 2;
/** Numbers that begin anew more often than this are in no order: once a year the clock goes back, and a file may come later. */
const MOST_RISES = 16;

/** The cells of one column: values, and formulas that are worked out when somebody asks. */
export class GridColumn {
  private readonly values: Value[] = [];
  private states = new Uint8Array(64);
  private readonly stretches: Stretch[] = [];
  /** What {@link risingFrom} found, by its rows; of no use once a cell changes. */
  private readonly rising = new Map<string, readonly number[] | undefined>();

  constructor(
    private readonly sheet: string,
    private readonly column: number,
  ) {}

  setValue(row: number, value: Value): void {
    this.grow(row);
    this.rising.clear();
    this.values[row] = value;
    this.states[row] = DONE;
  }

  setValues(firstRow: number, values: ArrayLike<Value>): void {
    this.grow(firstRow + values.length);
    this.rising.clear();
    for (let i = 0; i < values.length; i++) this.values[firstRow + i] = values[i] ?? null;
  }

  setFormulas(firstRow: number, lastRow: number, compute: Compute): void {
    this.grow(lastRow);
    this.states.fill(PENDING, firstRow, lastRow + 1);
    this.stretches.push({ firstRow, lastRow, compute, next: firstRow, isRunning: false });
    if (this.stretches.length > 1) this.stretches.sort((a, b) => a.firstRow - b.firstRow);
  }

  /** Value of a cell; null where it is blank. */
  get(row: number): Value {
    if (row < this.states.length && this.states[row] !== DONE) this.work(row);
    return this.values[row] ?? null;
  }

  /**
   * Rows at which typed numbers in rising order begin anew, and the row after the last of them, where there are few such rows and
   * nothing below; undefined where something else stands there, or a formula in the column: to look would be to work it out.
   */
  risingFrom(firstRow: number, lastRow: number): readonly number[] | undefined {
    if (this.stretches.length > 0) return undefined;
    const rows = `${firstRow}:${lastRow}`;
    if (!this.rising.has(rows)) this.rising.set(rows, this.findRising(firstRow, lastRow));
    return this.rising.get(rows);
  }

  private findRising(firstRow: number, lastRow: number): number[] | undefined {
    const starts: number[] = [];
    let before = Number.NEGATIVE_INFINITY;
    let end = firstRow;
    for (let row = firstRow; row <= lastRow; row++) {
      const value = this.values[row] ?? null;
      if (value === null) continue;
      if (typeof value !== 'number' || end < row || starts.length > MOST_RISES) return undefined;
      if (starts.length === 0 || value < before) starts.push(row);
      before = value;
      end = row + 1;
    }
    return [...starts, end];
  }

  /** Forgets what was worked out: the next who asks gets it anew. */
  forget(): void {
    for (const stretch of this.stretches) {
      this.states.fill(PENDING, stretch.firstRow, stretch.lastRow + 1);
      stretch.next = stretch.firstRow;
    }
  }

  private grow(row: number): void {
    while (this.values.length <= row) this.values.push(null);
    if (row < this.states.length) return;
    const states = new Uint8Array(Math.max(row + 1, this.states.length * 2));
    states.set(this.states);
    this.states = states;
  }

  private work(row: number): void {
    const stretch = this.stretchOf(row);
    if (stretch === undefined) return;
    if (stretch.isRunning || row < stretch.next) {
      this.compute(stretch, row);
      return;
    }
    // From the top down: a line that looks at the row above never goes deep.
    stretch.isRunning = true;
    try {
      for (let next = stretch.next; next <= row; next++) {
        if (this.states[next] === PENDING) this.compute(stretch, next);
      }
      stretch.next = row + 1;
    } finally {
      stretch.isRunning = false;
    }
  }

  private compute(stretch: Stretch, row: number): void {
    if (this.states[row] === RUNNING) {
      throw new Error(`column ${this.column} of ${this.sheet}, row ${row}, depends on itself`);
    }
    this.states[row] = RUNNING;
    this.values[row] = stretch.compute(row);
    this.states[row] = DONE;
  }

  private stretchOf(row: number): Stretch | undefined {
    let low = 0;
    let high = this.stretches.length - 1;
    while (low <= high) {
      const middle = (low + high) >> 1;
      const stretch = this.stretches[middle];
      if (stretch === undefined || row < stretch.firstRow) high = middle - 1;
      else if (row > stretch.lastRow) low = middle + 1;
      else return stretch;
    }
    return undefined;
  }
}

/** Sheets of cells, worked out on demand. */
export class Grid {
  private readonly sheets = new Map<string, Map<number, GridColumn>>();

  /** The column of a sheet; blank where nothing was put there. */
  column(sheet: string, column: number): GridColumn {
    let columns = this.sheets.get(sheet);
    if (columns === undefined) {
      columns = new Map();
      this.sheets.set(sheet, columns);
    }
    let found = columns.get(column);
    if (found === undefined) {
      found = new GridColumn(sheet, column);
      columns.set(column, found);
    }
    return found;
  }

  /** Forgets everything that was worked out, so that other values can be put in. */
  forget(): void {
    for (const columns of this.sheets.values()) for (const column of columns.values()) column.forget();
  }

  value({ sheet, row, column }: CellPlace): Value {
    return this.column(sheet, column).get(row);
  }
}
