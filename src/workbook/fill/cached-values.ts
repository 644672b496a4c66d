import { CHANNELS } from '../../readings/channels.js';
import { cellAt, columnNumber } from '../cell-address.js';
import { isAbsoluteReference, parseReference } from '../charts/cell-reference.js';
import type { CachedValues } from '../charts/chart-spec.js';
import type { WorkbookResults } from '../evaluate/workbook-results.js';
import { FIRST_ROW, SHEETS } from '../layout.js';
import { READING } from '../model/columns.js';
import type { FormulaColumn, FormulaValue, SheetModel } from '../model/sheet-model.js';
import { CellError, parseRangeRef } from '../package/index.js';

/**
 * What the cells of the workbook hold, for the values that charts keep beside their references.
 *
 * @param model the sheets, with inputs as they stand
 * @param results the library's values
 * @returns a look-up by reference; undefined where it is none, such as a text, or a cell of it is not the project's
 */
export function cachedValuesOf(model: readonly SheetModel[], results: WorkbookResults): CachedValues {
  const sheets = new Map(model.map((sheet) => [sheet.name.toLowerCase(), new SheetLookup(sheet, results)]));
  return (reference) => {
    if (!isAbsoluteReference(reference)) return undefined;
    const { sheet, cells } = parseReference(reference);
    const lookup = sheets.get(sheet.toLowerCase());
    if (lookup === undefined) return undefined;
    const { firstRow, lastRow, firstColumn, lastColumn } = parseRangeRef(cells);
    const values: (string | number | null)[] = [];
    for (let row = firstRow; row <= lastRow; row++) {
      for (let column = firstColumn; column <= lastColumn; column++) {
        const value = lookup.valueAt(row, column);
        if (value === undefined) return undefined;
        values.push(plain(value));
      }
    }
    return values;
  };
}

class SheetLookup {
  private readonly cells = new Map<string, () => FormulaValue>();
  private readonly columns = new Map<number, FormulaColumn[]>();
  private readonly valuesOf = new Map<FormulaColumn, ArrayLike<FormulaValue>>();

  constructor(
    private readonly sheet: SheetModel,
    private readonly results: WorkbookResults,
  ) {
    for (const cell of sheet.cells) {
      this.cells.set(cell.at, cell.kind === 'formula' ? () => cell.value(results) : () => cell.value);
    }
    for (const column of sheet.formulaColumns) {
      const number = columnNumber(column.letters);
      this.columns.set(number, [...(this.columns.get(number) ?? []), column]);
    }
  }

  /** Undefined where the cell is not the project's. */
  valueAt(row: number, column: number): FormulaValue | undefined {
    const long = this.columns.get(column)?.find((c) => row >= c.firstRow && row < c.firstRow + c.rows);
    if (long !== undefined) {
      const values = this.valuesOf.get(long) ?? long.values(this.results);
      this.valuesOf.set(long, values);
      return values[row - long.firstRow] ?? null;
    }
    if (this.sheet.name === SHEETS.readings && row >= FIRST_ROW) return this.readingAt(row, column);
    return this.cells.get(cellAt(column, row))?.();
  }

  private readingAt(row: number, column: number): FormulaValue | undefined {
    const channel = CHANNELS.find((name) => columnNumber(READING[name]) === column);
    if (channel === undefined) return undefined;
    const value = this.results.inputs.readings.values[channel][row - FIRST_ROW];
    return value === undefined || Number.isNaN(value) ? null : value;
  }
}

function plain(value: FormulaValue): string | number | null {
  if (value === null || value instanceof CellError) return null;
  return typeof value === 'boolean' ? String(value) : value;
}
