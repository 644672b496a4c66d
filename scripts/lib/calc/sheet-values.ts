import { cellName, parseCellRef } from '../../../src/workbook/package/cell-reference.js';

export type CellKind = 'blank' | 'number' | 'text' | 'boolean' | 'error';

/** One cell as an engine holds it. An error's value is its text, for example `#DIV/0!`. */
export interface EngineCell {
  ref: string;
  /** 1 is the first row. */
  row: number;
  /** 1 is column A. */
  column: number;
  kind: CellKind;
  value: number | string | boolean | null;
  isFormula: boolean;
}

const KINDS: readonly CellKind[] = ['blank', 'number', 'text', 'error', 'boolean'];
const FORMULA_BIT = 0x80;

/** The cells of one rectangle of a sheet, held as columns of bytes: a year of half-hours is a million cells. */
export class SheetValues {
  /**
   * @param kinds one byte a cell, row by row: index in KINDS, plus 128 where the cell holds a formula
   * @param slots the number itself, or the index in `texts`
   */
  constructor(
    readonly sheet: string,
    readonly firstRow: number,
    readonly firstColumn: number,
    readonly rows: number,
    readonly columns: number,
    private readonly kinds: Uint8Array,
    private readonly slots: Float64Array,
    private readonly texts: string[],
  ) {}

  /** An empty rectangle to be filled with `set`. */
  static empty(sheet: string, rows: number, columns: number): SheetValues {
    const count = rows * columns;
    return new SheetValues(sheet, 1, 1, rows, columns, new Uint8Array(count), new Float64Array(count), []);
  }

  /** The cell at a 1-based row and column; outside the rectangle it is blank. */
  at(row: number, column: number): EngineCell {
    const index = this.index(row, column);
    const byte = index < 0 ? 0 : this.kinds[index]!;
    const isFormula = (byte & FORMULA_BIT) !== 0;
    // A formula never gives a blank: what looks like one is the empty text.
    if (byte === FORMULA_BIT) {
      return { ref: cellName(row, column), row, column, kind: 'text', value: '', isFormula };
    }
    const kind = KINDS[byte & 0x7f]!;
    const slot = index < 0 ? 0 : this.slots[index]!;
    const value =
      kind === 'number'
        ? slot
        : kind === 'blank'
          ? null
          : kind === 'boolean'
            ? slot === 1
            : this.texts[slot]!;
    return { ref: cellName(row, column), row, column, kind, value, isFormula };
  }

  /** The cell with this reference, for example `B3`. */
  get(ref: string): EngineCell {
    const { row, column } = parseCellRef(ref);
    return this.at(row, column);
  }

  /** The number in a cell, NaN where it holds none; quicker than `at`. */
  numberAt(row: number, column: number): number {
    const index = this.index(row, column);
    return index >= 0 && (this.kinds[index]! & 0x7f) === 1 ? this.slots[index]! : Number.NaN;
  }

  /** Every cell that is not blank or holds a formula, row by row. */
  *cells(): Generator<EngineCell> {
    for (let index = 0; index < this.kinds.length; index++) {
      if (this.kinds[index] !== 0) {
        yield this.at(
          this.firstRow + Math.floor(index / this.columns),
          this.firstColumn + (index % this.columns),
        );
      }
    }
  }

  /** Writes one cell; used by the readers of other engines. */
  set(
    row: number,
    column: number,
    kind: CellKind,
    value: number | string | boolean | null,
    isFormula: boolean,
  ): void {
    const index = this.index(row, column);
    if (index < 0)
      throw new RangeError(`${cellName(row, column)} is outside the ${this.rows} × ${this.columns} cells`);
    this.kinds[index] = KINDS.indexOf(kind) | (isFormula ? FORMULA_BIT : 0);
    if (typeof value === 'string') {
      this.slots[index] = this.texts.length;
      this.texts.push(value);
    } else {
      this.slots[index] = Number(value ?? 0);
    }
  }

  /** Marks a rectangle (1-based, both ends included) as formulas. */
  markFormulas(top: number, left: number, bottom: number, right: number): void {
    for (let row = top; row <= bottom; row++) {
      for (let column = left; column <= right; column++) {
        const index = this.index(row, column);
        if (index >= 0) this.kinds[index]! |= FORMULA_BIT;
      }
    }
  }

  private index(row: number, column: number): number {
    const r = row - this.firstRow;
    const c = column - this.firstColumn;
    return r < 0 || c < 0 || r >= this.rows || c >= this.columns ? -1 : r * this.columns + c;
  }
}
