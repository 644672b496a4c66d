import type { Calculated } from '../calculate.js';
import { cellAt, columnNumber } from '../cell-address.js';
import { isAbsoluteReference, parseReference } from '../charts/cell-reference.js';
import type { CachedValues } from '../charts/chart-spec.js';
import type { FormulaValue, SheetModel } from '../model/sheet-model.js';
import { CellError, parseRangeRef } from '../package/index.js';

/**
 * What the cells of the workbook hold, for the values that charts keep beside their references.
 *
 * @param model the sheets, with inputs as they stand
 * @param calculated their values
 * @returns a look-up by reference; undefined where it is none, such as a text, or a cell of it is not the project's
 */
export function cachedValuesOf(model: readonly SheetModel[], calculated: Calculated): CachedValues {
  const sheets = new Map(
    model.map((sheet) => [sheet.name.toLowerCase(), new SheetLookup(sheet, calculated)]),
  );
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
  private readonly cells: ReadonlySet<string>;
  private readonly columns = new Map<number, { firstRow: number; rows: number }[]>();

  constructor(
    private readonly sheet: SheetModel,
    private readonly calculated: Calculated,
  ) {
    this.cells = new Set(sheet.cells.map(({ at }) => at));
    const values = (sheet.valueColumns ?? []).map(({ letters, firstRow, values: { length } }) => ({
      letters,
      firstRow,
      rows: length,
    }));
    for (const { letters, firstRow, rows } of [...sheet.formulaColumns, ...sheet.inputColumns, ...values]) {
      const number = columnNumber(letters);
      this.columns.set(number, [...(this.columns.get(number) ?? []), { firstRow, rows }]);
    }
  }

  /** Undefined where the cell is not the project's. */
  valueAt(row: number, column: number): FormulaValue | undefined {
    const isInColumn = this.columns
      .get(column)
      ?.some(({ firstRow, rows }) => row >= firstRow && row < firstRow + rows);
    if (isInColumn !== true && !this.cells.has(cellAt(column, row))) return undefined;
    return this.calculated.value({ sheet: this.sheet.name, row, column });
  }
}

function plain(value: FormulaValue): string | number | null {
  if (value === null || value instanceof CellError) return null;
  return typeof value === 'boolean' ? String(value) : value;
}
