import {
  type Area,
  type CellPlace,
  type Node,
  type Reference,
  referencesIn,
} from '../../src/formula/nodes.js';
import { parseFormulaText } from '../../src/formula/parse-text.js';
import { definedNames } from '../../src/workbook/calculate.js';
import { columnNumber, parseCell } from '../../src/workbook/cell-address.js';
import type { SheetModel } from '../../src/workbook/model/sheet-model.js';

/** Cells with one formula, one below the other, and what it looks at. */
export interface Formulas extends CellPlace {
  rows: number;
  /** Label of a column; of a single cell its name, else its address. */
  label: string;
  references: readonly Reference[];
}

/** Every formula of a workbook. */
export function formulasOf(model: readonly SheetModel[]): Formulas[] {
  const names = definedNames(model);
  return model.flatMap(({ name: sheet, cells, formulaColumns }) => {
    const of = (row: number, column: number, rows: number, label: string, is: string | Node): Formulas => {
      const home = { sheet, row, column };
      const node = typeof is === 'string' ? parseFormulaText(is, home, names) : is;
      return { ...home, rows, label, references: [...referencesIn(node)] };
    };
    const single = cells.flatMap((cell) => {
      if (cell.kind !== 'formula') return [];
      const { row, column } = parseCell(cell.at);
      return [of(row, column, 1, cell.name ?? cell.at, cell.formula)];
    });
    const columns = formulaColumns.flatMap(({ letters, firstRow, rows, label, formula }) => {
      const column = columnNumber(letters);
      if (typeof formula !== 'function') return [of(firstRow, column, rows, label, formula)];
      return Array.from({ length: rows }, (_, i) =>
        of(firstRow + i, column, 1, label, formula(firstRow + i)),
      );
    });
    return [...single, ...columns];
  });
}

/**
 * Which formulas a program works out anew when a cell changes, if it asks for what they look at and not for whether that
 * changed: most do. A reference to a range looks at all of it.
 *
 * @param formulas every formula
 * @param from the cell that changes
 * @returns formulas with a cell that hangs on it, directly or through others
 */
export function reachedFrom(formulas: readonly Formulas[], from: CellPlace): Formulas[] {
  const reached = new Map<string, Set<number>>();
  const rowsOf = (sheet: string, column: number): Set<number> => {
    const key = `${sheet}!${column}`;
    const known = reached.get(key) ?? new Set();
    reached.set(key, known);
    return known;
  };
  rowsOf(from.sheet, from.column).add(from.row);
  const touches = ({ sheet, firstRow, lastRow, firstColumn, lastColumn }: Area): boolean => {
    for (let column = firstColumn; column <= lastColumn; column++) {
      const rows = reached.get(`${sheet}!${column}`);
      if (rows === undefined) continue;
      if (rows.size > lastRow - firstRow) {
        for (let row = firstRow; row <= lastRow; row++) if (rows.has(row)) return true;
      } else for (const row of rows) if (row >= firstRow && row <= lastRow) return true;
    }
    return false;
  };
  const reachedCells = new Map<Formulas, number>();
  let isSettled = false;
  while (!isSettled) {
    isSettled = true;
    for (const formula of formulas) {
      const { sheet, row: firstRow, column, rows, references } = formula;
      if (reachedCells.get(formula) === rows) continue;
      const own = rowsOf(sheet, column);
      for (let row = firstRow; row < firstRow + rows; row++) {
        if (own.has(row) || !references.some(({ area }) => touches(area({ sheet, row, column })))) continue;
        own.add(row);
        reachedCells.set(formula, (reachedCells.get(formula) ?? 0) + 1);
        isSettled = false;
      }
    }
  }
  return formulas.filter((formula) => reachedCells.has(formula));
}
