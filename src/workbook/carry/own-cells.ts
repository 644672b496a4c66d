import { CellError, type CellRange, type CellValue, type WorkbookPackage } from '../package/index.js';
import { isIn, type LaidSheet } from './earlier-layout.js';
import type { NotCarried } from './not-carried.js';

/** A cell of the user's own. */
export interface OwnCell {
  row: number;
  column: number;
  value: CellValue;
  formula?: string;
  /** Whether the formula fills several cells. */
  isArray: boolean;
  /** Index of its format in the old workbook. */
  style: number;
}

/** What the user put on a sheet. */
export interface OwnSheetCells {
  sheet: string;
  /** Whether the whole sheet is the user's. */
  isOwn: boolean;
  cells: OwnCell[];
}

/**
 * The user's own cells of a sheet.
 *
 * @param workbook the workbook
 * @param sheet name of the sheet
 * @param laid which of its cells are the project's; undefined where the sheet is the user's
 */
export function ownCellsOf(
  workbook: WorkbookPackage,
  sheet: string,
  laid: LaidSheet | undefined,
): OwnSheetCells {
  const cells: OwnCell[] = [];
  const reader = workbook.readSheet(sheet);
  while (reader.next()) {
    const { row, column, hasFormula } = reader;
    const isFilled = reader.hasValue || hasFormula;
    // On a sheet of the user's own a cell without a value can have a border or a colour.
    if (laid === undefined ? !isFilled && reader.style === 0 : !isFilled || isIn(laid.ours, row, column)) {
      continue;
    }
    const { formula } = reader;
    cells.push({
      row,
      column,
      value: reader.value,
      ...(hasFormula && formula !== undefined ? { formula } : {}),
      isArray: reader.arrayRange !== undefined,
      style: reader.style,
    });
  }
  return { sheet, isOwn: laid === undefined, cells };
}

/**
 * Formulas of the project that hold something else.
 *
 * @param workbook the workbook
 * @param laid a sheet of its layout
 */
export function overwrittenFormulas(workbook: WorkbookPackage, laid: LaidSheet): NotCarried[] {
  const found: NotCarried[] = [];
  const reader = workbook.readSheet(laid.name);
  while (reader.next()) {
    const { row, column } = reader;
    if (reader.hasFormula || !reader.hasValue || !isIn(laid.formulas, row, column)) continue;
    found.push({
      sheet: laid.name,
      row,
      column,
      found: shown(reader.value),
      why: 'typed over a formula of the workbook, which is back',
    });
  }
  return found;
}

/** A value as a message shows it. */
export function shown(value: CellValue): string {
  if (value === null) return 'nothing';
  return value instanceof CellError || typeof value !== 'string' ? String(value) : `"${value}"`;
}

/** The range of one cell. */
export const rangeOfCell = (row: number, column: number): CellRange => ({
  firstRow: row,
  lastRow: row,
  firstColumn: column,
  lastColumn: column,
});
