import { InputError } from '../../errors.js';
import type { CellValue } from '../model/sheet-model.js';
import { CellError, type WorkbookPackage } from '../package/index.js';

/** The cells of a small sheet, or of the top of a large one, by name; blank cells are not in it. */
export type SheetCells = ReadonlyMap<string, CellValue>;

/**
 * Reads a small sheet, or the top of a large one.
 *
 * @param workbook an open workbook
 * @param sheet name of the sheet
 * @param lastRow last row that is read; without it all are
 * @returns stored values by cell name
 */
export function readCells(workbook: WorkbookPackage, sheet: string, lastRow = Infinity): SheetCells {
  const cells = new Map<string, CellValue>();
  const reader = workbook.readSheet(sheet);
  while (reader.next() && reader.row <= lastRow) {
    const { value } = reader;
    if (value === null) {
      if (reader.hasFormula) cells.set(reader.name, UNCALCULATED);
    } else cells.set(reader.name, value instanceof CellError ? `${ERROR_MARK}${value.code}` : value);
  }
  return cells;
}

/** Stands for a formula that holds no result. */
const UNCALCULATED = '\u0000no result';
/** Starts the text that stands for an error value. */
const ERROR_MARK = '\u0000error ';

/**
 * The value of an input cell.
 *
 * @param cells the sheet's cells
 * @param at name of the cell
 * @param place file and sheet, for messages
 * @returns its value, null where it is blank
 * @throws InputError when it holds an error value, or a formula that was never calculated
 */
export function inputValue(cells: SheetCells, at: string, place: { file: string; sheet: string }): CellValue {
  const value = cells.get(at) ?? null;
  if (typeof value !== 'string' || !value.startsWith('\u0000')) return value === '' ? null : value;
  const line = `${place.sheet}!${at}`;
  if (value === UNCALCULATED) {
    throw new InputError(
      'the cell holds a formula without a result',
      'Open the workbook in a spreadsheet program and save it, or type the value.',
      { file: place.file, line },
    );
  }
  throw new InputError(
    `the cell holds ${value.slice(ERROR_MARK.length)}`,
    'Correct its formula, or type the value.',
    {
      file: place.file,
      line,
    },
  );
}
