import { InputError, type Place } from '../../errors.js';
import {
  type CellRange,
  cellName,
  columnName,
  LAST_COLUMN,
  LAST_ROW,
  parseRangeRef,
} from './cell-reference.js';
import { readNumber } from './read-number.js';
import { stringItems } from './string-items.js';
import { decodeXml } from './xml-text.js';

/** What {@link SheetScanner.advance} has come to. */
export const ScanEvent = { row: 1, cell: 2, rowEnd: 3, dataEnd: 4 } as const;
export type ScanEvent = (typeof ScanEvent)[keyof typeof ScanEvent];

/** Type of a stored value, from the `t` attribute of a cell (ECMA-376 part 1, 18.18.11). */
export const CellType = { number: 0, shared: 1, text: 2, inline: 3, boolean: 4, error: 5, date: 6 } as const;
export type CellType = (typeof CellType)[keyof typeof CellType];

/** Kind of a formula element. `none`: the cell has no formula of its own. */
export const FormulaType = { none: 0, normal: 1, shared: 2, array: 3, table: 4 } as const;
export type FormulaType = (typeof FormulaType)[keyof typeof FormulaType];

const SPACE = 32;
const BANG = 33;
const QUOTE = 34;
const APOSTROPHE = 39;
const MINUS = 45;
const SLASH = 47;
const LT = 60;
const EQ = 61;
const GT = 62;
const QUESTION = 63;

/**
 * Walks through the XML of a worksheet, cell by cell, in file order.
 *
 * It works on the bytes and allocates nothing for a cell: all that is known of the current row or cell stands in its
 * fields, as offsets into {@link bytes}. A document type is refused, so there are no entities to expand.
 */
export class SheetScanner {
  readonly bytes: Buffer;
  /** Length of the prefix of the sheet's elements, colon included: 0 for `<c>`, 2 for `<x:c>`. */
  readonly prefix: string;
  /** Offsets of the `ref` value of the dimension element, -1 where there is none. */
  dimensionStart = -1;
  dimensionEnd = -1;
  /** Style index by column from the `cols` element: `[first, last, style]`. */
  readonly columnStyles: [number, number, number][] = [];
  /** Offsets of the opening tag of sheetData. */
  dataTagStart = -1;
  dataTagEnd = -1;
  dataSelfClosing = false;
  /** Offset where the closing tag of sheetData begins; known once the event `dataEnd` has come. */
  dataEnd = -1;

  row = 0;
  rowTagStart = 0;
  rowTagEnd = 0;
  rowSelfClosing = false;
  /** Style of the row, where the row has a format of its own; else -1. */
  rowStyle = -1;
  /** Offsets of the `spans` attribute with the space before it, and of its value; -1 where there is none. */
  spansStart = -1;
  spansEnd = -1;
  spansValueStart = -1;
  /** Offset of the closing tag of the row; known at the event `rowEnd`. */
  rowCloseStart = -1;

  column = 0;
  style = 0;
  type: CellType = CellType.number;
  cellStart = 0;
  cellTagEnd = 0;
  cellEnd = 0;
  cellSelfClosing = false;
  /** Offsets of the `t` attribute with the space before it; -1 where there is none. */
  typeStart = -1;
  typeEnd = -1;

  formulaType: FormulaType = FormulaType.none;
  formulaStart = -1;
  formulaEnd = -1;
  formulaTextStart = -1;
  formulaTextEnd = -1;
  /** Number of the shared formula, or -1. */
  sharedIndex = -1;
  /** Range of an array formula, a data table or the first cell of a shared formula; else ''. */
  formulaRange = '';

  /** Offsets of the value element and of its content; -1 where there is none. */
  valueStart = -1;
  valueEnd = -1;
  valueTextStart = -1;
  valueTextEnd = -1;
  /** Offsets of an inline string's element and of its content; -1 where there is none. */
  inlineStart = -1;
  inlineEnd = -1;
  inlineTextStart = -1;
  inlineTextEnd = -1;

  private at = 0;
  private inRow = false;
  private readonly end: number;
  private readonly prefixLength: number;
  private tagNameStart = 0;
  private tagNameEnd = 0;
  private tagSelfClosing = false;
  private attributeNameStart = 0;
  private attributeNameEnd = 0;
  private attributeValueStart = 0;
  private attributeValueEnd = 0;
  private contentStart = 0;
  private contentEnd = 0;

  /**
   * @param bytes the part as it is in the container, UTF-8
   * @param place file and sheet, for messages
   * @throws InputError when it is not the XML of a worksheet
   */
  constructor(
    bytes: Buffer,
    private readonly place: Place,
  ) {
    this.bytes = bytes;
    this.end = bytes.length;
    if (
      (bytes[0] === 0xff && bytes[1] === 0xfe) ||
      (bytes[0] === 0xfe && bytes[1] === 0xff) ||
      bytes[0] === 0
    ) {
      throw this.damaged('it is not written in UTF-8');
    }
    let at = this.nextElement(bytes[0] === 0xef ? 3 : 0);
    const tagEnd = this.readTag(at);
    const name = bytes.toString('latin1', this.tagNameStart, this.tagNameEnd);
    this.prefix = name.slice(0, name.indexOf(':') + 1);
    this.prefixLength = this.prefix.length;
    if (name.slice(this.prefixLength) !== 'worksheet' || this.tagSelfClosing)
      throw this.damaged(`it begins with <${name}>`);
    at = this.nextElement(tagEnd);
    while (this.dataTagStart < 0) {
      const childEnd = this.readTag(at);
      if (this.nameIs('sheetData')) {
        this.dataTagStart = at;
        this.dataTagEnd = childEnd;
        this.dataSelfClosing = this.tagSelfClosing;
        this.at = childEnd;
        return;
      }
      if (this.nameIs('dimension')) this.readDimension(childEnd);
      if (this.nameIs('cols') && !this.tagSelfClosing) at = this.readColumns(childEnd);
      else at = this.nextElement(this.skipElement(at));
    }
  }

  /**
   * Goes on to the next row, cell, end of row or end of the data.
   *
   * @returns what was found; its facts are in the fields
   * @throws InputError when the XML is damaged, or rows or cells are out of order
   */
  advance(): ScanEvent {
    if (this.dataSelfClosing) this.dataEnd = this.dataTagEnd;
    if (this.dataEnd >= 0) return ScanEvent.dataEnd;
    if (this.inRow && this.rowSelfClosing) {
      this.inRow = false;
      return ScanEvent.rowEnd;
    }
    const bytes = this.bytes;
    for (;;) {
      const at = this.nextElement(this.at);
      if (bytes[at + 1] === SLASH) {
        this.at = this.readTag(at);
        if (this.inRow) {
          this.inRow = false;
          this.rowCloseStart = at;
          return ScanEvent.rowEnd;
        }
        if (!this.nameIs('sheetData')) throw this.damaged('its elements are not nested properly');
        this.dataEnd = at;
        return ScanEvent.dataEnd;
      }
      if (this.inRow) {
        if (this.startsWithName(at, 0x63)) {
          this.readCell(at);
          return ScanEvent.cell;
        }
      } else {
        const tagEnd = this.readTag(at);
        if (this.nameIs('row')) {
          this.readRow(at, tagEnd);
          return ScanEvent.row;
        }
      }
      this.at = this.skipElement(at);
    }
  }

  /** Whether the cell has a stored value. An empty text counts: it is what a formula such as `=""` gives. */
  get hasValue(): boolean {
    if (this.valueTextEnd > this.valueTextStart || this.inlineStart >= 0) return true;
    return this.type === CellType.text && this.valueStart >= 0;
  }

  /** The stored value as a number; NaN when it isn't one. */
  numberValue(): number {
    return readNumber(this.bytes, this.valueTextStart, this.valueTextEnd);
  }

  /** Content of the value element as text, entities resolved. */
  valueText(): string {
    return this.text(this.valueTextStart, this.valueTextEnd);
  }

  /** Text of an inline string, runs of rich text joined, phonetic hints left out; escapes not yet resolved. */
  inlineText(): string {
    if (this.inlineStart < 0) return '';
    const content = this.bytes.toString('utf8', this.inlineTextStart, this.inlineTextEnd);
    return stringItems(`<si>${content}</si>`)[0] ?? '';
  }

  /** The formula's own text, entities resolved; '' for a cell that shares another one's. */
  formulaText(): string {
    return this.formulaTextStart < 0 ? '' : this.text(this.formulaTextStart, this.formulaTextEnd);
  }

  /**
   * Reads a range that the sheet states.
   *
   * @throws InputError when it is not a range
   */
  statedRange(reference: string): CellRange {
    try {
      return parseRangeRef(reference);
    } catch {
      throw this.damaged(`it states a range '${reference.slice(0, 40)}'`);
    }
  }

  private text(start: number, end: number): string {
    if (end <= start) return '';
    return decodeXml(this.bytes.toString('utf8', start, end));
  }

  private damaged(what: string): InputError {
    return new InputError(
      `the sheet is damaged: ${what}`,
      'Open the workbook in a spreadsheet program and save it again, or go back to an earlier copy.',
      this.place,
    );
  }

  /** Offset of the next `<` that begins or ends an element. */
  private nextElement(from: number): number {
    const bytes = this.bytes;
    let at = from;
    for (;;) {
      while (at < this.end && bytes[at] !== LT) at++;
      if (at >= this.end) throw this.damaged('it ends too early');
      const next = bytes[at + 1];
      if (next !== BANG && next !== QUESTION) return at;
      at = this.skipMarkup(at);
    }
  }

  /** Skips a comment, a CDATA section or a processing instruction. */
  private skipMarkup(at: number): number {
    const { bytes } = this;
    let close: string;
    if (bytes[at + 1] === QUESTION) close = '?>';
    else if (bytes[at + 2] === MINUS) close = '-->';
    else if (bytes[at + 2] === 91) close = ']]>';
    else throw this.damaged('it has a document type, which workbooks may not have');
    const end = bytes.indexOf(close, at + 2, 'latin1');
    if (end < 0) throw this.damaged('it ends too early');
    return end + close.length;
  }

  /** Reads the tag at `<`; returns the offset after `>`. */
  private readTag(lt: number): number {
    const { bytes, end } = this;
    let at = lt + 1;
    if (bytes[at] === SLASH) at++;
    this.tagNameStart = at;
    while (at < end) {
      const byte = bytes[at] as number;
      if (byte <= SPACE || byte === GT || byte === SLASH) break;
      at++;
    }
    this.tagNameEnd = at;
    while (at < end) {
      const byte = bytes[at] as number;
      if (byte === GT) {
        this.tagSelfClosing = bytes[at - 1] === SLASH;
        return at + 1;
      }
      if (byte === QUOTE || byte === APOSTROPHE) {
        at++;
        while (at < end && bytes[at] !== byte) at++;
      }
      at++;
    }
    throw this.damaged('it ends too early');
  }

  /** Whether the tag just read is the sheet's own element of this name. */
  private nameIs(name: string): boolean {
    const start = this.tagNameStart + this.prefixLength;
    if (this.tagNameEnd - start !== name.length) return false;
    for (let index = 0; index < name.length; index++) {
      if (this.bytes[start + index] !== name.charCodeAt(index)) return false;
    }
    return this.hasPrefix(this.tagNameStart);
  }

  private hasPrefix(at: number): boolean {
    for (let index = 0; index < this.prefixLength; index++) {
      if (this.bytes[at + index] !== this.prefix.charCodeAt(index)) return false;
    }
    return true;
  }

  /** Whether an opening tag at `<` has this one-letter name. */
  private startsWithName(lt: number, letter: number): boolean {
    const at = lt + 1 + this.prefixLength;
    if (this.bytes[at] !== letter) return false;
    const after = this.bytes[at + 1] as number;
    return (
      (after <= SPACE || after === GT || after === SLASH) &&
      (this.prefixLength === 0 || this.hasPrefix(lt + 1))
    );
  }

  /** Offset after the element that opens at `<`, whatever is inside. */
  private skipElement(lt: number): number {
    let at = this.readTag(lt);
    if (this.tagSelfClosing) return at;
    let depth = 1;
    while (depth > 0) {
      const next = this.nextElement(at);
      const closing = this.bytes[next + 1] === SLASH;
      at = this.readTag(next);
      if (closing) depth--;
      else if (!this.tagSelfClosing) depth++;
    }
    return at;
  }

  /**
   * Reads the next attribute of a tag.
   *
   * @param from offset in the tag, after the name or the attribute before
   * @returns offset after the attribute's closing quote, or -1 when the tag has no more
   */
  private nextAttribute(from: number): number {
    const { bytes, end } = this;
    let at = from;
    let byte = bytes[at] as number;
    while (byte <= SPACE && at < end) byte = bytes[++at] as number;
    if (byte === GT || byte === SLASH) return -1;
    this.attributeNameStart = at;
    while (byte !== EQ && byte > SPACE && byte !== GT && at < end) byte = bytes[++at] as number;
    this.attributeNameEnd = at;
    while (byte <= SPACE && at < end) byte = bytes[++at] as number;
    if (byte !== EQ) throw this.damaged('a tag is not written properly');
    byte = bytes[++at] as number;
    while (byte <= SPACE && at < end) byte = bytes[++at] as number;
    if (byte !== QUOTE && byte !== APOSTROPHE) throw this.damaged('a tag is not written properly');
    this.attributeValueStart = ++at;
    while (at < end && bytes[at] !== byte) at++;
    if (at >= end) throw this.damaged('it ends too early');
    this.attributeValueEnd = at;
    return at + 1;
  }

  private attributeIs(name: string): boolean {
    if (this.attributeNameEnd - this.attributeNameStart !== name.length) return false;
    for (let index = 0; index < name.length; index++) {
      if (this.bytes[this.attributeNameStart + index] !== name.charCodeAt(index)) return false;
    }
    return true;
  }

  private attributeText(): string {
    return decodeXml(this.bytes.toString('utf8', this.attributeValueStart, this.attributeValueEnd));
  }

  /** Value of the attribute as a whole number of at most nine digits, or -1. */
  private attributeInteger(): number {
    const length = this.attributeValueEnd - this.attributeValueStart;
    if (length === 0 || length > 9) return -1;
    let value = 0;
    for (let at = this.attributeValueStart; at < this.attributeValueEnd; at++) {
      const digit = (this.bytes[at] as number) - 48;
      if (digit < 0 || digit > 9) return -1;
      value = value * 10 + digit;
    }
    return value;
  }

  private readDimension(tagEnd: number): void {
    for (let at = this.nextAttribute(this.tagNameEnd); at >= 0 && at < tagEnd; at = this.nextAttribute(at)) {
      if (!this.attributeIs('ref')) continue;
      this.dimensionStart = this.attributeValueStart;
      this.dimensionEnd = this.attributeValueEnd;
    }
  }

  /** Reads the children of `cols`; returns the offset of the next element after it. */
  private readColumns(from: number): number {
    for (let at = this.nextElement(from); ; ) {
      const tagEnd = this.readTag(at);
      if (this.bytes[at + 1] === SLASH) return this.nextElement(tagEnd);
      const nameEnd = this.tagNameEnd;
      const isColumn = this.nameIs('col');
      let first = -1;
      let last = -1;
      let style = -1;
      for (let next = this.nextAttribute(nameEnd); isColumn && next >= 0; next = this.nextAttribute(next)) {
        if (this.attributeIs('min')) first = this.attributeInteger();
        else if (this.attributeIs('max')) last = this.attributeInteger();
        else if (this.attributeIs('style')) style = this.attributeInteger();
      }
      if (first > 0 && last >= first && style >= 0) this.columnStyles.push([first, last, style]);
      at = this.nextElement(this.skipElement(at));
    }
  }

  private readRow(at: number, tagEnd: number): void {
    this.rowTagStart = at;
    this.rowTagEnd = tagEnd;
    this.rowSelfClosing = this.tagSelfClosing;
    this.rowStyle = -1;
    this.spansStart = -1;
    let row = this.row + 1;
    let style = -1;
    let ownFormat = false;
    for (let from = this.tagNameEnd; ; ) {
      const next = this.nextAttribute(from);
      if (next < 0) break;
      if (this.attributeIs('r')) row = this.attributeInteger();
      else if (this.attributeIs('s')) style = this.attributeInteger();
      else if (this.attributeIs('customFormat')) ownFormat = /^(1|true|on)$/.test(this.attributeText());
      else if (this.attributeIs('spans')) {
        this.spansStart = from;
        this.spansEnd = next;
        this.spansValueStart = this.attributeValueStart;
      }
      from = next;
    }
    if (ownFormat) this.rowStyle = style;
    if (row <= this.row) throw this.damaged(`row ${row} stands after row ${this.row}`);
    if (row > LAST_ROW) throw this.damaged(`it has a row ${row}`);
    this.row = row;
    this.column = 0;
    this.inRow = true;
    this.at = tagEnd;
  }

  private readCell(lt: number): void {
    const { bytes } = this;
    this.cellStart = lt;
    this.style = 0;
    this.type = CellType.number;
    this.typeStart = -1;
    this.formulaType = FormulaType.none;
    this.formulaStart = -1;
    this.formulaEnd = -1;
    this.formulaTextStart = -1;
    this.formulaTextEnd = -1;
    this.valueStart = -1;
    this.valueTextStart = -1;
    this.valueTextEnd = -1;
    this.inlineStart = -1;

    let column = this.column + 1;
    let from = lt + 2 + this.prefixLength;
    for (;;) {
      const next = this.nextAttribute(from);
      if (next < 0) break;
      if (this.attributeNameEnd - this.attributeNameStart === 1) {
        const letter = bytes[this.attributeNameStart];
        if (letter === 0x72) column = this.readCellName();
        else if (letter === 0x73) this.style = Math.max(0, this.attributeInteger());
        else if (letter === 0x74) {
          this.type = this.readType();
          this.typeStart = from;
          this.typeEnd = next;
        }
      }
      from = next;
    }
    if (column <= this.column || column > LAST_COLUMN) {
      throw this.damaged(
        `a cell of row ${this.row} stands after column ${columnName(this.column)} but is not to the right of it`,
      );
    }
    this.column = column;
    while (bytes[from] !== GT && from < this.end) from++;
    this.cellTagEnd = from + 1;
    this.cellSelfClosing = bytes[from - 1] === SLASH;
    if (this.cellSelfClosing) {
      this.cellEnd = this.cellTagEnd;
      this.at = this.cellEnd;
      return;
    }
    let at = this.nextElement(this.cellTagEnd);
    while (bytes[at + 1] !== SLASH) {
      if (this.startsWithName(at, 0x76)) at = this.readValue(at);
      else if (this.startsWithName(at, 0x66)) at = this.readFormula(at);
      else {
        const end = this.skipElement(at);
        const tagEnd = this.readTag(at);
        if (this.nameIs('is')) {
          this.inlineStart = at;
          this.inlineEnd = end;
          this.inlineTextStart = tagEnd;
          this.inlineTextEnd = tagEnd < end ? bytes.lastIndexOf('</', end - 1, 'latin1') : end;
        }
        at = end;
      }
      at = this.nextElement(at);
    }
    this.cellEnd = this.readTag(at);
    this.at = this.cellEnd;
  }

  /** Column of a cell's name in the attribute just read; its row must be the current one. */
  private readCellName(): number {
    let at = this.attributeValueStart;
    const end = this.attributeValueEnd;
    let column = 0;
    for (; at < end; at++) {
      // Lower-case letters count too.
      const letter = ((this.bytes[at] as number) & 0xdf) - 64;
      if (letter < 1 || letter > 26) break;
      column = column * 26 + letter;
    }
    let row = 0;
    for (; at < end; at++) {
      const digit = (this.bytes[at] as number) - 48;
      if (digit < 0 || digit > 9) break;
      row = row * 10 + digit;
    }
    if (at !== end || row !== this.row || column === 0) {
      throw this.damaged(`row ${this.row} has a cell named '${this.attributeText().slice(0, 20)}'`);
    }
    return column;
  }

  private readType(): CellType {
    const { bytes, attributeValueStart: start, attributeValueEnd: end } = this;
    const first = bytes[start];
    if (end - start === 1) {
      if (first === 0x6e) return CellType.number;
      if (first === 0x73) return CellType.shared;
      if (first === 0x62) return CellType.boolean;
      if (first === 0x65) return CellType.error;
      if (first === 0x64) return CellType.date;
    } else if (end - start === 3 && first === 0x73) return CellType.text;
    else if (end - start === 9 && first === 0x69) return CellType.inline;
    throw this.damaged(
      `${cellName(this.row, Math.max(1, this.column))} has an unknown type '${this.attributeText().slice(0, 20)}'`,
    );
  }

  /** Finds the end of an element that holds text only; sets contentStart and contentEnd. */
  private readTextElement(lt: number, from: number): number {
    const { bytes, end } = this;
    let at = from;
    if (bytes[at] !== GT) {
      at = this.readTag(lt);
      if (this.tagSelfClosing) {
        this.contentStart = at;
        this.contentEnd = at;
        return at;
      }
      at--;
    }
    at++;
    this.contentStart = at;
    for (;;) {
      while (at < end && bytes[at] !== LT) at++;
      if (at >= end) throw this.damaged('it ends too early');
      const next = bytes[at + 1];
      if (next === SLASH) break;
      if (next !== BANG && next !== QUESTION)
        throw this.damaged(`row ${this.row} has an element inside a value`);
      at = this.skipMarkup(at);
    }
    this.contentEnd = at;
    while (at < end && bytes[at] !== GT) at++;
    return at + 1;
  }

  private readValue(lt: number): number {
    const after = this.readTextElement(lt, lt + 2 + this.prefixLength);
    this.valueStart = lt;
    this.valueEnd = after;
    this.valueTextStart = this.contentStart;
    this.valueTextEnd = this.contentEnd;
    return after;
  }

  private readFormula(lt: number): number {
    const nameEnd = lt + 2 + this.prefixLength;
    this.formulaType = FormulaType.normal;
    this.sharedIndex = -1;
    this.formulaRange = '';
    for (let from = this.nextAttribute(nameEnd); from >= 0; from = this.nextAttribute(from)) {
      if (this.attributeIs('t')) {
        const first = this.bytes[this.attributeValueStart];
        if (first === 0x73) this.formulaType = FormulaType.shared;
        else if (first === 0x61) this.formulaType = FormulaType.array;
        else if (first === 0x64) this.formulaType = FormulaType.table;
      } else if (this.attributeIs('si')) this.sharedIndex = this.attributeInteger();
      else if (this.attributeIs('ref')) this.formulaRange = this.attributeText();
    }
    const after = this.readTextElement(lt, nameEnd);
    this.formulaStart = lt;
    this.formulaEnd = after;
    this.formulaTextStart = this.contentStart;
    this.formulaTextEnd = this.contentEnd;
    return after;
  }
}
