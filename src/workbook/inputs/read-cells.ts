import { type Fault, InputError, type Place } from '../../errors.js';
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
 * @param unreadable where it is noted that the cell can't be read; without it, that is thrown
 * @returns its value, null where it is blank or can't be read
 * @throws InputError when it holds an error value, or a formula that was never calculated, and there is nowhere to note it
 */
export function inputValue(
  cells: SheetCells,
  at: string,
  place: { file: string; sheet: string },
  unreadable?: Fault[],
): CellValue {
  const value = cells.get(at) ?? null;
  if (typeof value !== 'string' || !value.startsWith('\u0000')) return value === '' ? null : value;
  const inCell = { file: place.file, line: `${place.sheet}!${at}` };
  const fault =
    value === UNCALCULATED
      ? uncalculated(inCell)
      : {
          found: `the cell holds ${value.slice(ERROR_MARK.length)}`,
          whatToDo: 'Correct its formula, or type the value.',
          place: inCell,
        };
  if (unreadable === undefined) throw new InputError(fault.found, fault.whatToDo, fault.place);
  unreadable.push(fault);
  return null;
}

/** That a formula holds no result. */
export function uncalculated(place: Place): Fault {
  return {
    found: 'the cell holds a formula without a result',
    whatToDo: 'Open the workbook in a spreadsheet program and save it, or type the value.',
    place,
  };
}
