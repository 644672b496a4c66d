import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Area, initSync, Model } from '@ironcalc/wasm';
import { type CellKind, type EngineCell, SheetValues } from '../../scripts/lib/calc/sheet-values.js';
import { cellName, LAST_ROW, parseCellRef } from '../../src/workbook/package/cell-reference.js';
import { MovableFormula } from '../../src/workbook/package/movable-formula.js';
import type { EngineResult } from './compare-cells.js';
import { readStoredWorkbook, type StoredCell } from './stored-cells.js';

type Value = number | string | boolean | null;

const ENGINE = 'IronCalc';
/** The engine prints values only; this format gives its 15 significant digits whatever the size. */
const FULL_PRECISION = '0.0000000000000000E+00';
const READABLE_NUMBER = /^-?\d\.\d{16}E[+-]\d\d$/;
const ALL_DIGITS = '0.00000000000000000000';
const STYLED_COLUMNS = 256;
const TYPES: Record<number, CellKind> = { 1: 'number', 2: 'text', 4: 'boolean', 16: 'error' };

/** What version 0.8 cannot calculate, told from the formula alone. */
const BEYOND_ENGINE: readonly { pattern: RegExp; reason: string }[] = [
  {
    pattern: /:\s*INDEX\(|\bINDEX\((?:[^()]|\((?:[^()]|\([^()]*\))*\))*\)\s*:/i,
    reason: 'a range between INDEX cells',
  },
  {
    pattern: /SUMPRODUCT\(.*\bIS(?:TEXT|NUMBER|BLANK|LOGICAL|ERROR|ERR|NA)\(\s*[^()]*:[^()]*\)/i,
    reason: 'an IS function over a range inside SUMPRODUCT',
  },
];

/** Why the engine cannot calculate a formula, or undefined. */
export function beyondIronCalc(formula: string): string | undefined {
  const withoutTexts = formula.replace(/"(?:[^"]|"")*"/g, '""');
  return BEYOND_ENGINE.find(({ pattern }) => pattern.test(withoutTexts))?.reason;
}

let ready = false;

/** A workbook inside the in-process engine. Sheets count from 0, rows and columns from 1. */
export class IronCalcBook {
  private readonly model: Model;
  private readonly sheetNames: string[] = [];
  private readonly used: { rows: number; columns: number }[] = [];
  private readonly formulas = new Set<string>();

  constructor(sheetNames: readonly string[]) {
    if (!ready) {
      initSync({ module: readFileSync(fileURLToPath(import.meta.resolve('@ironcalc/wasm/wasm_bg.wasm'))) });
      ready = true;
    }
    this.model = new Model('workbook', 'en', 'UTC', 'en');
    this.model.pauseEvaluation();
    for (const [index, name] of sheetNames.entries()) {
      if (index > 0) this.model.newSheet();
      this.model.renameSheet(index, name);
      // By whole columns: cell by cell it would take longer than the calculation.
      this.setFormat(
        { sheet: index, row: 1, column: 1, width: STYLED_COLUMNS, height: LAST_ROW },
        FULL_PRECISION,
      );
      this.sheetNames.push(name);
      this.used.push({ rows: 0, columns: 0 });
    }
  }

  defineName(name: string, formula: string): void {
    this.model.newDefinedName(name, null, formula);
  }

  /** Sets an input; a text is never taken for a formula or a number. */
  setValue(sheet: number, row: number, column: number, value: Value): void {
    this.formulas.delete(`${sheet}!${row},${column}`);
    if (value === null) this.model.rangeClearContents(sheet, row, column, row, column);
    else this.put(sheet, row, column, typeof value === 'string' ? `'${value}` : String(value).toUpperCase());
  }

  /** Sets a formula, written without `=`. */
  setFormula(sheet: number, row: number, column: number, formula: string): void {
    this.formulas.add(`${sheet}!${row},${column}`);
    this.put(sheet, row, column, `=${formula}`);
  }

  /** Changes inputs by place, as `CalcDocument.setCells` does. */
  setCells(cells: readonly { sheet: string; cell: string; value: Value }[]): void {
    for (const { sheet, cell, value } of cells) {
      const { row, column } = parseCellRef(cell);
      this.setValue(this.sheetIndex(sheet), row, column, value);
    }
  }

  /** Calculates, and reads every cell at full precision. */
  values(): Map<string, SheetValues> {
    this.evaluate();
    return new Map(
      this.sheetNames.map((name, sheet) => {
        const { rows, columns } = this.used[sheet]!;
        const values = SheetValues.empty(name, rows, columns);
        for (let row = 1; row <= rows; row++) {
          for (let column = 1; column <= columns; column++) {
            const { kind, value, isFormula } = this.read(sheet, row, column);
            if (kind !== 'blank') values.set(row, column, kind, value, isFormula);
          }
        }
        return [name, values];
      }),
    );
  }

  evaluate(): void {
    this.model.resumeEvaluation();
    this.model.evaluate();
    this.model.pauseEvaluation();
  }

  /** One cell after `evaluate`. */
  read(sheet: number, row: number, column: number): EngineCell {
    const isFormula = this.formulas.has(`${sheet}!${row},${column}`);
    const ref = cellName(row, column);
    let text = this.model.getFormattedCellValue(sheet, row, column);
    const type = this.model.getCellType(sheet, row, column);
    const kind = text === '' && !isFormula ? 'blank' : TYPES[type];
    if (kind === undefined) throw new Error(`${ENGINE}: ${ref} has the unknown type ${type}`);
    if (kind === 'number' && !READABLE_NUMBER.test(text)) {
      // The engine gives dates, percentages and currency a format of their own, and writes exponents of three digits
      // wrongly; those numbers are read in full instead.
      const format = /E[+-]\d{3}/.test(text) ? ALL_DIGITS : FULL_PRECISION;
      this.setFormat({ sheet, row, column, width: 1, height: 1 }, format);
      text = this.model.getFormattedCellValue(sheet, row, column);
    }
    return { ref, row, column, kind, value: readValue(kind, text, ref), isFormula };
  }

  private setFormat(area: Area, format: string): void {
    this.model.updateRangeStyle(area, 'num_fmt', format);
  }

  private put(sheet: number, row: number, column: number, input: string): void {
    this.model.setUserInput(sheet, row, column, input);
    const used = this.used[sheet]!;
    used.rows = Math.max(used.rows, row);
    used.columns = Math.max(used.columns, column);
  }

  private sheetIndex(name: string): number {
    const index = this.sheetNames.indexOf(name);
    if (index < 0) throw new Error(`${ENGINE} has no sheet named ${name}`);
    return index;
  }
}

function readValue(kind: CellKind, text: string, ref: string): Value {
  if (kind === 'blank') return null;
  if (kind === 'boolean') return text === 'TRUE';
  if (kind !== 'number') return text;
  const number = Number(text);
  if (text === '' || Number.isNaN(number))
    throw new Error(`${ENGINE}: ${ref} shows ${text}, which is not readable`);
  return number;
}

/**
 * Loads an .xlsx into the in-process engine: values, formulas, shared formulas, sheet and defined names.
 * A formula beyond the engine is replaced by its stored value, so that what depends on it is still calculated, and
 * listed in `unsupported` with the reason.
 */
export function loadIronCalc(file: string | Uint8Array): {
  book: IronCalcBook;
  unsupported: Map<string, string>;
  result: () => EngineResult;
} {
  const stored = readStoredWorkbook(file);
  const book = new IronCalcBook(stored.sheets.map(({ name }) => name));
  for (const { name, formula, localSheet } of stored.names) {
    if (!name.startsWith('_xlnm.') && localSheet === undefined) book.defineName(name, formula);
  }
  const unsupported = new Map<string, string>();
  for (const [index, sheet] of stored.sheets.entries()) {
    const masters = new Map<string, MovableFormula>();
    for (const cell of sheet.cells()) {
      const formula = formulaText(cell, masters);
      const reason = formula === undefined ? undefined : beyondIronCalc(formula);
      if (reason !== undefined) unsupported.set(`${sheet.name}!${cell.ref}`, reason);
      if (formula !== undefined && reason === undefined)
        book.setFormula(index, cell.row, cell.column, formula);
      else if (cell.value !== null) book.setValue(index, cell.row, cell.column, cell.value);
    }
  }
  return { book, unsupported, result: () => ({ engine: ENGINE, values: book.values(), unsupported }) };
}

function formulaText(cell: StoredCell, masters: Map<string, MovableFormula>): string | undefined {
  const { formula } = cell;
  if (formula?.type !== 'shared' || formula.sharedIndex === undefined) return formula?.text;
  if (formula.text !== '') {
    masters.set(formula.sharedIndex, new MovableFormula(formula.text, cell));
    return formula.text;
  }
  const master = masters.get(formula.sharedIndex);
  if (master === undefined)
    throw new Error(`${cell.ref} shares formula ${formula.sharedIndex}, which no cell defines`);
  return master.at(cell);
}

/** One cell of a small grid: an input or a formula without `=`. */
export type GridCell = { ref: string } & ({ value: Value } | { formula: string });

/** Calculates a small grid on one sheet; the result has every formula cell by reference. */
export function evaluateFormulas(cells: readonly GridCell[]): Map<string, EngineCell> {
  const book = new IronCalcBook(['Sheet1']);
  const formulas: { row: number; column: number }[] = [];
  for (const cell of cells) {
    const place = parseCellRef(cell.ref);
    if ('formula' in cell) {
      formulas.push(place);
      book.setFormula(0, place.row, place.column, cell.formula);
    } else {
      book.setValue(0, place.row, place.column, cell.value);
    }
  }
  book.evaluate();
  return new Map(formulas.map(({ row, column }) => [cellName(row, column), book.read(0, row, column)]));
}
