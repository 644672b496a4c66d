import { InputError, type Place } from '../../errors.js';
import { type CellRange, cellName } from './cell-reference.js';
import { CellError, type CellValue } from './cell-value.js';
import { MovableFormula } from './movable-formula.js';
import { normaliseFormula } from './normalise-formula.js';
import { CellType, FormulaType, ScanEvent, SheetScanner } from './sheet-scanner.js';
import { decodeCellText } from './xml-text.js';

/** What a stored value is. `blank`: nothing is stored. */
export type CellKind = 'blank' | 'number' | 'text' | 'boolean' | 'error' | 'date';

/** Facts of the workbook that reading a sheet needs. */
export interface ReadingContext {
  place: Place;
  /** Whether day 0 is 1904-01-01 rather than 1899-12-30. */
  date1904: boolean;
  /** The shared texts; called only when a cell needs them. */
  sharedStrings: () => readonly string[];
}

const dayMs = 86_400_000;

/** Serial of an ISO 8601 date, date and time, or time, in the workbook's date system; NaN when it isn't one. */
function isoToSerial(text: string, date1904: boolean): number {
  const match = /^(?:(\d{4})-(\d\d)-(\d\d))?T?(?:(\d\d):(\d\d)(?::(\d\d(?:\.\d+)?))?)?Z?$/.exec(text.trim());
  if (match === null || text.trim() === '') return Number.NaN;
  const [, year, month, day, hour = 0, minute = 0, second = 0] = match;
  const time = (Number(hour) * 3600 + Number(minute) * 60 + Number(second)) / 86_400;
  if (year === undefined) return time;
  const epoch = date1904 ? Date.UTC(1904, 0, 1) : Date.UTC(1899, 11, 30);
  return (Date.UTC(Number(year), Number(month) - 1, Number(day)) - epoch) / dayMs + time;
}

/** The stored value of the scanner's current cell. */
export function scannedValue(scanner: SheetScanner, context: ReadingContext): CellValue {
  if (!scanner.hasValue) return null;
  switch (scanner.type) {
    case CellType.number:
      return scanner.numberValue();
    case CellType.shared: {
      const text = context.sharedStrings()[scanner.numberValue()];
      if (text === undefined) {
        throw new InputError(
          'it refers to a text that the workbook does not hold',
          'Open the workbook in a spreadsheet program and save it again.',
          { ...context.place, line: `${context.place.line ?? ''}!${cellName(scanner.row, scanner.column)}` },
        );
      }
      return text;
    }
    case CellType.text:
      return decodeCellText(scanner.valueText());
    case CellType.inline:
      return decodeCellText(scanner.inlineText());
    case CellType.boolean:
      return /^\s*(1|true)\s*$/.test(scanner.valueText());
    case CellType.error:
      return new CellError(scanner.valueText().trim());
    case CellType.date: {
      const serial = isoToSerial(scanner.valueText(), context.date1904);
      return Number.isNaN(serial) ? scanner.valueText() : serial;
    }
  }
}

/** Ranges that one array formula or data table fills: only its first cell holds the formula. */
export class ArrayRanges {
  private readonly ranges: { range: CellRange; formula: string }[] = [];

  /** Takes note of the scanner's current cell. */
  note(scanner: SheetScanner): void {
    if (scanner.formulaType !== FormulaType.array && scanner.formulaType !== FormulaType.table) return;
    if (scanner.formulaRange === '') return;
    this.ranges.push({ range: scanner.statedRange(scanner.formulaRange), formula: scanner.formulaText() });
  }

  /** The array that covers a cell, if any. */
  find(row: number, column: number): { range: CellRange; formula: string } | undefined {
    if (this.ranges.length === 0) return undefined;
    return this.ranges.find(
      ({ range }) =>
        row >= range.firstRow &&
        row <= range.lastRow &&
        column >= range.firstColumn &&
        column <= range.lastColumn,
    );
  }
}

/**
 * Reads a sheet's cells in file order: row by row, left to right, only those that the file holds.
 *
 * The reader is a cursor. It makes no object for a cell, so a million cells take a fraction of a second: go on with
 * {@link next}, then ask for what you need of the current cell.
 *
 * @example
 * const reader = workbook.readSheet('Readings');
 * while (reader.next()) if (reader.column === 1) console.log(reader.row, reader.value);
 */
export class SheetReader {
  private readonly scanner: SheetScanner;
  private readonly shared = new Map<number, MovableFormula>();
  private readonly arrays = new ArrayRanges();
  private readonly lastInColumn: MovableFormula[] = [];
  private readonly comparable = new Map<string, string>();

  /**
   * @param bytes XML of the sheet
   * @param context facts of the workbook
   */
  constructor(
    bytes: Buffer,
    private readonly context: ReadingContext,
  ) {
    this.scanner = new SheetScanner(bytes, context.place);
  }

  /**
   * Goes on to the next cell.
   *
   * @returns false when there is none
   * @throws InputError when the sheet is damaged
   */
  next(): boolean {
    const { scanner } = this;
    for (;;) {
      const event = scanner.advance();
      if (event === ScanEvent.dataEnd) return false;
      if (event !== ScanEvent.cell) continue;
      if (scanner.formulaType > FormulaType.normal) this.noteFormula();
      return true;
    }
  }

  /** Row of the cell, from 1. */
  get row(): number {
    return this.scanner.row;
  }

  /** Column of the cell, from 1. */
  get column(): number {
    return this.scanner.column;
  }

  /** Name of the cell, for example `B7`. */
  get name(): string {
    return cellName(this.scanner.row, this.scanner.column);
  }

  /** Index of the cell's style among the workbook's cell formats. */
  get style(): number {
    return this.scanner.style;
  }

  get kind(): CellKind {
    const { scanner } = this;
    if (!scanner.hasValue) return 'blank';
    switch (scanner.type) {
      case CellType.number:
        return 'number';
      case CellType.boolean:
        return 'boolean';
      case CellType.error:
        return 'error';
      case CellType.date:
        return 'date';
      default:
        return 'text';
    }
  }

  /**
   * The stored value: a formula's last result, or what was typed; null where nothing is stored. A date stored as
   * text of ISO 8601 is given as the serial of the workbook's date system.
   */
  get value(): CellValue {
    return scannedValue(this.scanner, this.context);
  }

  /** The stored value where it is a number, else NaN. Quicker than {@link value}. */
  get number(): number {
    const { scanner } = this;
    if (scanner.type === CellType.number) return scanner.hasValue ? scanner.numberValue() : Number.NaN;
    if (scanner.type !== CellType.date || !scanner.hasValue) return Number.NaN;
    return isoToSerial(scanner.valueText(), this.context.date1904);
  }

  /** Whether a value is stored. */
  get hasValue(): boolean {
    return this.scanner.hasValue;
  }

  /** Whether a formula gives the value: its own, a shared one, or an array that covers the cell. */
  get hasFormula(): boolean {
    const { scanner } = this;
    return (
      scanner.formulaType !== FormulaType.none || this.arrays.find(scanner.row, scanner.column) !== undefined
    );
  }

  /**
   * The formula, without the equals sign; undefined where there is none. A shared formula is given as it reads in
   * this cell; a cell of an array has the array's formula; a data table has none to show, and gives ''.
   */
  get formula(): string | undefined {
    const { scanner } = this;
    switch (scanner.formulaType) {
      case FormulaType.none:
        return this.arrays.find(scanner.row, scanner.column)?.formula;
      case FormulaType.shared:
        if (scanner.formulaTextEnd > scanner.formulaTextStart) return scanner.formulaText();
        return this.sharedFormula().at(scanner);
      default:
        return scanner.formulaText();
    }
  }

  /**
   * The formula with its references as distances, see `relativeFormula`. Quick for shared formulas: all cells of one
   * give the same text.
   */
  get relativeFormula(): string | undefined {
    const { scanner } = this;
    if (scanner.formulaType === FormulaType.shared && scanner.formulaTextEnd === scanner.formulaTextStart) {
      return this.sharedFormula().relative();
    }
    const { formula } = this;
    if (formula === undefined) return undefined;
    // A program that does not share formulas writes each anew; mostly it is the one above, moved.
    const above = this.lastInColumn[scanner.column];
    if (above?.at(scanner) === formula) return above.relative();
    const own = new MovableFormula(formula, { row: scanner.row, column: scanner.column });
    this.lastInColumn[scanner.column] = own;
    return own.relative();
  }

  /** The formula in the form that `comparableFormula` gives: the same for "the same" formula down a column. */
  get comparableFormula(): string | undefined {
    const relative = this.relativeFormula;
    if (relative === undefined) return undefined;
    let comparable = this.comparable.get(relative);
    if (comparable === undefined) {
      comparable = normaliseFormula(relative);
      this.comparable.set(relative, comparable);
    }
    return comparable;
  }

  /** The range that an array formula fills, where this cell belongs to one. */
  get arrayRange(): CellRange | undefined {
    return this.arrays.find(this.scanner.row, this.scanner.column)?.range;
  }

  private noteFormula(): void {
    const { scanner } = this;
    if (scanner.formulaType === FormulaType.shared && scanner.formulaTextEnd > scanner.formulaTextStart) {
      const home = { row: scanner.row, column: scanner.column };
      this.shared.set(scanner.sharedIndex, new MovableFormula(scanner.formulaText(), home));
    }
    this.arrays.note(scanner);
  }

  private sharedFormula(): MovableFormula {
    const found = this.shared.get(this.scanner.sharedIndex);
    if (found !== undefined) return found;
    throw new InputError(
      'it shares a formula that the sheet does not hold',
      'Open the workbook in a spreadsheet program and save it again.',
      { ...this.context.place, line: `${this.context.place.line ?? ''}!${this.name}` },
    );
  }
}
