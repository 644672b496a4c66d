import { InputError } from '../../errors.js';
import { ByteWriter } from './byte-writer.js';
import { type CellRange, cellName, rangeName } from './cell-reference.js';
import { type CachedValue, CellError, DROP, type InputValue } from './cell-value.js';
import { type InputColumn, InputPlan, plannedValue } from './input-plan.js';
import { ArrayRanges, type ReadingContext, scannedValue } from './sheet-reader.js';
import { CellType, FormulaType, ScanEvent, SheetScanner } from './sheet-scanner.js';
import { cachedType, inputType, numberText, typeAttribute } from './stored-type.js';
import { encodeCellText } from './xml-text.js';

/** What to change in a sheet. */
export interface SheetEdits {
  /** Values to type in, by column. Cells and rows that do not exist are made. */
  inputs?: readonly InputColumn[];
  /**
   * Asked once for each cell whose value a formula gives, in file order.
   *
   * @param row row number, from 1
   * @param column column number, from 1
   * @returns the value to store; `DROP` to store none, so that it is calculated on load; `undefined` to leave it
   */
  cached?: (row: number, column: number) => CachedValue;
  /**
   * Relative difference up to which a stored number counts as the wanted one and keeps its bytes; 0 if left out.
   * LibreOffice stores 15 digits: 1e-14 takes its numbers as unchanged.
   */
  tolerance?: number;
}

/** What an edit did. */
export interface EditCounts {
  /** Input cells whose value became another, new cells included. */
  changedInputs: number;
  /** Of these, cells that the file did not hold before. */
  createdCells: number;
  /** Formula cells whose stored value became another. */
  changedCached: number;
  /** Formula cells whose stored value was taken away. */
  droppedCached: number;
  /** Sum of all changes: 0 means that the sheet's bytes are what they were. */
  changedCells: number;
}

/** A sheet after an edit. */
interface EditedSheet extends EditCounts {
  /** XML of the sheet; the very bytes that came in when nothing changed. */
  bytes: Buffer;
}

const booleanText = ['0', '1'] as const;

class SheetEditor {
  readonly scanner: SheetScanner;
  private readonly out: ByteWriter;
  private readonly plan: InputPlan;
  private readonly arrays = new ArrayRanges();
  /** Everything before this offset is written already. */
  private copied: number;
  /** Inputs of the current row, and how many of them are dealt with. */
  private pending: readonly InputColumn[] = [];
  private done = 0;
  /** Style of the last cell of each block, for a new cell below. */
  private readonly styleAbove = new Map<InputColumn, number>();
  /** Row whose `spans` hint does not cover its inputs. */
  private narrowRow = 0;
  private created: CellRange | undefined;
  private readonly counts = { changedInputs: 0, createdCells: 0, changedCached: 0, droppedCached: 0 };
  private readonly prefix: string;
  private readonly tolerance: number;

  constructor(
    private readonly bytes: Buffer,
    private readonly edits: SheetEdits,
    private readonly context: ReadingContext,
  ) {
    this.scanner = new SheetScanner(bytes, context.place);
    this.prefix = this.scanner.prefix;
    this.tolerance = edits.tolerance ?? 0;
    this.plan = new InputPlan(edits.inputs ?? []);
    this.out = new ByteWriter(Math.ceil(bytes.length * 1.3) + 65_536);
    this.copied = this.scanner.dataTagStart;
  }

  run(): EditedSheet {
    const { scanner } = this;
    let lastRow = 0;
    for (let event = scanner.advance(); event !== ScanEvent.dataEnd; event = scanner.advance()) {
      if (event === ScanEvent.row) {
        this.makeRows(lastRow + 1, scanner.row - 1, scanner.rowTagStart);
        lastRow = scanner.row;
        this.pending = this.plan.at(scanner.row);
        this.done = 0;
        if (this.pending.length > 0) this.noteSpans();
      } else if (event === ScanEvent.cell) this.editCell();
      else this.endRow();
    }
    this.makeRows(lastRow + 1, this.plan.lastRow, scanner.dataEnd);
    return this.result();
  }

  private result(): EditedSheet {
    const { counts, scanner, bytes } = this;
    const changedCells = counts.changedInputs + counts.changedCached + counts.droppedCached;
    if (changedCells === 0) return { bytes, changedCells, ...counts };
    if (scanner.dataSelfClosing && this.created !== undefined) {
      this.out.ascii(`</${this.prefix}sheetData>`);
    }
    this.out.copy(bytes, this.copied, bytes.length);
    const body = this.out.toBuffer();
    return { bytes: Buffer.concat([this.head(), body]), changedCells, ...counts };
  }

  /** Everything before sheetData, with the dimension widened where cells were made outside it. */
  private head(): Buffer {
    const { scanner, bytes, created } = this;
    const head = bytes.subarray(0, scanner.dataTagStart);
    if (created === undefined || scanner.dimensionStart < 0) return head;
    const old = scanner.statedRange(bytes.toString('utf8', scanner.dimensionStart, scanner.dimensionEnd));
    const range: CellRange = {
      firstRow: Math.min(old.firstRow, created.firstRow),
      firstColumn: Math.min(old.firstColumn, created.firstColumn),
      lastRow: Math.max(old.lastRow, created.lastRow),
      lastColumn: Math.max(old.lastColumn, created.lastColumn),
    };
    if (rangeName(range) === rangeName(old)) return head;
    return Buffer.concat([
      head.subarray(0, scanner.dimensionStart),
      Buffer.from(rangeName(range)),
      head.subarray(scanner.dimensionEnd),
    ]);
  }

  /** Writes the old bytes up to an offset. */
  private copyTo(offset: number): void {
    this.out.copy(this.bytes, this.copied, offset);
    this.copied = offset;
  }

  /** Leaves the old bytes up to an offset out. */
  private skipTo(offset: number): void {
    this.copied = offset;
  }

  private editCell(): void {
    const { scanner, pending } = this;
    if (scanner.formulaType > FormulaType.shared) this.arrays.note(scanner);
    while (this.done < pending.length) {
      const input = pending[this.done] as InputColumn;
      if (input.column > scanner.column) break;
      this.done++;
      if (input.column < scanner.column) this.makeCell(input, scanner.cellStart);
      else {
        this.styleAbove.set(input, scanner.style);
        this.editInput(plannedValue(input, scanner.row));
        return;
      }
    }
    const { cached } = this.edits;
    if (cached === undefined) return;
    const covered = scanner.formulaType === FormulaType.none;
    if (covered && this.arrays.find(scanner.row, scanner.column) === undefined) return;
    const value = cached(scanner.row, scanner.column);
    if (value === DROP) this.dropCached();
    else if (value !== undefined) this.editCached(value);
  }

  private endRow(): void {
    const { scanner, pending } = this;
    const end = scanner.rowSelfClosing ? scanner.rowTagEnd : scanner.rowCloseStart;
    const before = this.counts.createdCells;
    for (; this.done < pending.length; this.done++) {
      this.makeCell(pending[this.done] as InputColumn, scanner.rowSelfClosing ? end - 2 : end);
    }
    if (scanner.rowSelfClosing && this.counts.createdCells > before) {
      this.out.ascii(`</${this.prefix}row>`);
      this.skipTo(end);
    }
  }

  /** Notes where an input lies outside the row's `spans`, a hint that may be left out and then is. */
  private noteSpans(): void {
    const { scanner, pending } = this;
    if (scanner.spansStart < 0) return;
    const last = pending.findLast((input) => writes(plannedValue(input, scanner.row)));
    const first = pending.find((input) => writes(plannedValue(input, scanner.row)));
    if (first === undefined || last === undefined) return;
    const spans = this.bytes.toString('latin1', scanner.spansValueStart, scanner.spansEnd - 1);
    const [from = 0, to = 0] = spans.split(/[: ]/).map(Number);
    if (first.column >= from && last.column <= to) return;
    this.narrowRow = scanner.row;
  }

  /** Makes the rows between two existing ones that have inputs. */
  private makeRows(from: number, to: number, offset: number): void {
    for (let row = this.plan.nextRow(from); row <= to; row = this.plan.nextRow(row + 1)) {
      const inputs = this.plan.at(row).filter((input) => writes(plannedValue(input, row)));
      if (inputs.length === 0) continue;
      if (this.scanner.dataSelfClosing) this.openData();
      else this.copyTo(offset);
      this.out.ascii(`<${this.prefix}row r="${row}">`);
      for (const input of inputs) this.writeNewCell(input, row, -1);
      this.out.ascii(`</${this.prefix}row>`);
    }
  }

  /** Turns `<sheetData/>` into an opening tag; the closing one comes at the end. */
  private openData(): void {
    const { scanner } = this;
    if (this.copied >= scanner.dataTagEnd) return;
    this.copyTo(scanner.dataTagEnd - 2);
    this.out.ascii('>');
    this.skipTo(scanner.dataTagEnd);
  }

  /** Makes a cell that the row does not hold, before an offset. */
  private makeCell(input: InputColumn, offset: number): void {
    const { scanner } = this;
    if (!writes(plannedValue(input, scanner.row))) return;
    this.dropSpans();
    if (this.copied < offset) this.copyTo(offset);
    if (scanner.rowSelfClosing && this.copied === offset) {
      this.out.ascii('>');
      this.skipTo(scanner.rowTagEnd);
    }
    this.writeNewCell(input, scanner.row, scanner.rowStyle);
  }

  private dropSpans(): void {
    const { scanner } = this;
    if (this.narrowRow !== scanner.row || this.copied > scanner.spansStart) return;
    this.copyTo(scanner.spansStart);
    this.skipTo(scanner.spansEnd);
  }

  private writeNewCell(input: InputColumn, row: number, rowStyle: number): void {
    const { column } = input;
    const above = input.style ?? this.styleAbove.get(input);
    const style = above ?? (rowStyle >= 0 ? rowStyle : this.columnStyle(column));
    this.styleAbove.set(input, style);
    const value = plannedValue(input, row) as number | string | boolean;
    const { out, prefix } = this;
    out.ascii(`<${prefix}c r="${cellName(row, column)}"${style > 0 ? ` s="${style}"` : ''}`);
    out.ascii(`${typeAttribute(inputType(value))}>`);
    this.writeContent(value);
    out.ascii(`</${prefix}c>`);
    this.counts.createdCells++;
    this.counts.changedInputs++;
    const { created } = this;
    if (created === undefined) {
      this.created = { firstRow: row, firstColumn: column, lastRow: row, lastColumn: column };
      return;
    }
    created.lastRow = row;
    if (column < created.firstColumn) created.firstColumn = column;
    if (column > created.lastColumn) created.lastColumn = column;
  }

  private columnStyle(column: number): number {
    return this.scanner.columnStyles.find(([first, last]) => column >= first && column <= last)?.[2] ?? 0;
  }

  private editInput(value: InputValue): void {
    if (value === undefined) return;
    const { scanner } = this;
    if (
      scanner.formulaType !== FormulaType.none ||
      this.arrays.find(scanner.row, scanner.column) !== undefined
    ) {
      throw new InputError(
        'a formula stands where a value is to be written',
        'Clear the cell, or move the formula elsewhere, and try again.',
        {
          ...this.context.place,
          line: `${this.context.place.line ?? ''}!${cellName(scanner.row, scanner.column)}`,
        },
      );
    }
    if (this.holds(value)) return;
    this.counts.changedInputs++;
    this.writeTag(value === null ? CellType.number : inputType(value));
    if (value === null) {
      // `<c …></c>` rather than `<c …/>`: any reader takes it, and the tag stays as it was.
      if (!scanner.cellSelfClosing) this.out.ascii(`</${this.prefix}c>`);
    } else {
      this.writeContent(value);
      this.out.ascii(`</${this.prefix}c>`);
    }
    this.skipTo(scanner.cellEnd);
  }

  /** Whether the current cell holds this value already. A date stored as text counts as its serial. */
  private holds(value: number | string | boolean | CellError | null): boolean {
    const { scanner } = this;
    if (!scanner.hasValue) return value === null;
    if (typeof value === 'number') {
      if (scanner.type === CellType.number) return this.same(scanner.numberValue(), value);
      if (scanner.type !== CellType.date) return false;
      const serial = scannedValue(scanner, this.context);
      return typeof serial === 'number' && this.same(serial, value);
    }
    if (value === null) return false;
    const old = scannedValue(scanner, this.context);
    if (value instanceof CellError) return old instanceof CellError && old.code === value.code;
    return old === value;
  }

  private same(stored: number, wanted: number): boolean {
    return stored === wanted || Math.abs(stored - wanted) <= this.tolerance * Math.abs(wanted);
  }

  /** Value of an input cell, after its tag. */
  private writeContent(value: number | string | boolean): void {
    const { out, prefix } = this;
    if (typeof value === 'string') {
      // A text of its own, never a formula, whatever it begins with.
      out.ascii(`<${prefix}is><${prefix}t xml:space="preserve">`);
      out.text(encodeCellText(value));
      out.ascii(`</${prefix}t></${prefix}is>`);
      return;
    }
    out.ascii(`<${prefix}v>`);
    out.ascii(typeof value === 'number' ? numberText(value) : booleanText[Number(value) as 0 | 1]);
    out.ascii(`</${prefix}v>`);
  }

  private editCached(value: number | string | boolean | CellError): void {
    const { scanner, out, prefix } = this;
    if (typeof value === 'number' && !Number.isFinite(value)) {
      throw new RangeError(
        `${cellName(scanner.row, scanner.column)} can't hold ${value}: a cell holds finite numbers only`,
      );
    }
    if (this.holds(value)) return;
    this.counts.changedCached++;
    this.writeTag(cachedType(value));
    if (scanner.valueStart >= 0 && scanner.valueTextEnd > scanner.valueTextStart) {
      this.copyTo(scanner.valueTextStart);
      this.writeCachedText(value);
      this.skipTo(scanner.valueTextEnd);
      return;
    }
    // No value yet: it comes right after the formula, or alone in a cell that an array fills.
    if (scanner.formulaEnd >= 0) this.copyTo(scanner.formulaEnd);
    out.ascii(`<${prefix}v>`);
    this.writeCachedText(value);
    out.ascii(`</${prefix}v>`);
    if (scanner.cellSelfClosing) out.ascii(`</${prefix}c>`);
    if (scanner.valueStart >= 0) this.skipTo(scanner.valueEnd);
    else if (scanner.inlineStart >= 0) this.skipTo(scanner.inlineEnd);
  }

  private writeCachedText(value: number | string | boolean | CellError): void {
    if (typeof value === 'number') this.out.ascii(numberText(value));
    else if (typeof value === 'boolean') this.out.ascii(booleanText[Number(value) as 0 | 1]);
    else this.out.text(typeof value === 'string' ? encodeCellText(value) : encodeCellText(value.code));
  }

  private dropCached(): void {
    const { scanner } = this;
    if (!scanner.hasValue) return;
    this.counts.droppedCached++;
    this.writeTag(CellType.number);
    if (scanner.valueStart >= 0) {
      this.copyTo(scanner.valueStart);
      this.skipTo(scanner.valueEnd);
    } else if (scanner.inlineStart >= 0) {
      this.copyTo(scanner.inlineStart);
      this.skipTo(scanner.inlineEnd);
    }
  }

  /** Writes the tag of the current cell, open, with this type; other attributes stay as they are. */
  private writeTag(type: CellType): void {
    const { scanner, out } = this;
    this.dropSpans();
    const tagEnd = scanner.cellSelfClosing ? scanner.cellTagEnd - 2 : scanner.cellTagEnd - 1;
    if (scanner.type !== type) {
      if (scanner.typeStart >= 0) {
        this.copyTo(scanner.typeStart);
        this.skipTo(scanner.typeEnd);
      }
      this.copyTo(tagEnd);
      out.ascii(typeAttribute(type));
    }
    this.copyTo(tagEnd);
    out.ascii('>');
    this.skipTo(scanner.cellTagEnd);
  }
}

function writes(value: InputValue): boolean {
  return value !== undefined && value !== null;
}

/**
 * Changes values in the XML of a sheet, in one pass, and nothing else: formulas, styles and every byte between the
 * changed values stay as they are.
 *
 * @param bytes XML of the sheet
 * @param edits what to change
 * @param context facts of the workbook
 * @returns the new XML and what was changed
 * @throws InputError when the sheet is damaged, or a formula stands in an input cell
 * @throws RangeError for a number that is not finite, or inputs that overlap or leave the sheet
 */
export function editSheetXml(bytes: Buffer, edits: SheetEdits, context: ReadingContext): EditedSheet {
  return new SheetEditor(bytes, edits, context).run();
}
