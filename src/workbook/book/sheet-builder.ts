import type { Node } from '../../formula/nodes.js';
import type { StyleName } from '../look/styles.js';
import { Column, Line, type LineText } from './terms.js';

/** Rows of a sheet of columns: what each is, its unit, start values, then the first row of data. */
export const FIRST_ROW = 8;

export interface ColumnSpec extends LineText {
  readonly style: StyleName;
  readonly rows: number;
  /** Rows that it has above the first, of the `rows`. */
  readonly above?: number;
  readonly is?: Node;
  /** Defined name, in plain words; needed where another sheet asks for the whole column. */
  readonly name?: string;
  /** Values of a column without an expression. */
  readonly values?: ArrayLike<number | string>;
}

/** A label or a value that stays. */
export interface Label {
  readonly row: number;
  readonly column: number;
  readonly value: string | number;
  readonly style: StyleName;
}

/** A sheet under construction: it allots the places, so that nobody types a column's letters. */
export class SheetBuilder {
  readonly columns: Column[] = [];
  readonly lines: { line: Line; label: string; unit: string }[] = [];
  readonly labels: Label[] = [];
  /** Values of columns that hold no expression, by column. */
  readonly values = new Map<Column, ArrayLike<number | string>>();
  private nextColumn: number;

  /**
   * @param name of the sheet
   * @param firstRow first row of data of its columns
   * @param firstColumn where several stand on one sheet, side by side: the first that is this one's
   * @param title what stands above them
   */
  constructor(
    readonly name: string,
    readonly firstRow: number = FIRST_ROW,
    readonly firstColumn: number = 1,
    readonly title: string = name,
  ) {
    this.nextColumn = firstColumn;
  }

  /** A column right of those there are. */
  column(spec: ColumnSpec): Column {
    const { label, unit, description, style, rows, name } = spec;
    const column = new Column(
      this.name,
      this.nextColumn++,
      this.firstRow - (spec.above ?? 0),
      rows,
      style,
      { label, unit, description },
      name,
    );
    column.is = spec.is;
    if (spec.values !== undefined) this.values.set(column, spec.values);
    this.columns.push(column);
    return column;
  }

  /** A column of whole numbers that stay: what each row, counted from 0, holds. */
  numbers(
    label: string,
    unit: string,
    description: string,
    rows: number,
    of: (row: number) => number,
    name?: string,
  ): Column {
    return this.column({
      label,
      unit,
      description,
      style: 'integer',
      rows,
      values: Array.from({ length: rows }, (_, row) => of(row)),
      ...(name === undefined ? {} : { name }),
    });
  }

  /** Another expression for the rows of a column below those that it has. */
  continued(column: Column, rows: number, is: Node): Column {
    const { sheet, style, text } = column;
    const below = new Column(sheet, column.column, column.lastRow + 1, rows, style, text);
    below.is = is;
    this.columns.push(below);
    return below;
  }

  /** A value above the first row of a column, which starts a running line. */
  seed(column: Column, is: Node, style: StyleName = column.style): Line {
    const line = new Line({ sheet: this.name, row: this.firstRow - 1, column: column.column }, style);
    line.is = is;
    this.lines.push({ line, label: '', unit: '' });
    return line;
  }

  /** A line item in a cell of its own; the column counts from this builder's first, from 1. */
  line(
    row: number,
    column: number,
    spec: { label: string; unit: string; style: StyleName; is?: Node; name?: string },
  ): Line {
    const place = { sheet: this.name, row, column: this.place(column) };
    const line = new Line(place, spec.style, spec.name);
    line.is = spec.is;
    this.lines.push({ line, label: spec.label, unit: spec.unit });
    return line;
  }

  /** A label; the column counts as that of a line. */
  label(row: number, column: number, value: string | number, style: StyleName): void {
    this.labels.push({ row, column: this.place(column), value, style });
  }

  /** Column of the sheet by its number from this builder's first, from 1. */
  place(column: number): number {
    return this.firstColumn + column - 1;
  }
}
