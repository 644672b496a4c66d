import type { Node } from '../../../formula/nodes.js';
import type { SheetBuilder } from '../../book/sheet-builder.js';
import { all, type Column, f, type Line, type Term } from '../../book/terms.js';
import type { StyleName } from '../../look/styles.js';

/** First row of the columns below the lines. */
export const SPAN_FIRST_ROW = 67;
/** First row of the words, between the lines and the columns. */
export const FIRST_WORD_ROW = SPAN_FIRST_ROW - 15;

/** Places the lines: a row a line, a column a tariff; those of the home stand in the first of these columns. */
export class SpanRows {
  private row = 4;
  private readonly rows = new Map<string, number>();

  constructor(readonly sheet: SheetBuilder) {}

  heading(text: string): void {
    this.sheet.label(this.row + 1, 1, text, 'section');
    this.row += 2;
  }

  line(tariff: number, text: string, unit: string, style: StyleName, is: Node, name: string): Line {
    let row = this.rows.get(text);
    if (row === undefined) {
      row = this.row++;
      if (row >= FIRST_WORD_ROW) throw new RangeError('no room for another line above the words');
      this.rows.set(text, row);
      this.sheet.label(row, 1, text, 'label');
      this.sheet.label(row, 2, unit, 'unit');
    }
    return this.sheet.line(row, 3 + tariff, { label: text, unit, style, is, name });
  }
}

/** The stretch of a half-hourly or daily column from one of its rows to another, both from 1. */
export const slice = (column: Column, first: Term, last: Term): Node =>
  f`INDEX(${all(column)},${first}):INDEX(${all(column)},${last})`;

/** A column of a sheet by its defined name. */
export function columnNamed(sheet: SheetBuilder, name: string): Column {
  const found = sheet.columns.find((column) => column.name === name);
  if (found === undefined) throw new RangeError(`${sheet.name} has no column "${name}"`);
  return found;
}
