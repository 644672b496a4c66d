import type { Style } from 'exceljs';
import { STYLES } from '../look/styles.js';
import { label } from './cells.js';
import type { Cell, SheetModel } from './sheet-model.js';

/**
 * On a sheet that people paste into: a pasted cell brings its own lock along, so that on a protected sheet it could never
 * be changed again.
 */
export const UNPROTECTED =
  'Not protected, so that a paste stays possible. Leave the columns on the right as they are: the fill tells a formula that was typed over.';
const PROTECTED = 'Protected against slips, without a password.';
const WITH_OPEN_CELLS = 'Protected against slips, without a password; the framed cells stay open.';

/** Where it is said on sheets whose second row is no hint. */
const PLACES: Readonly<Record<string, string>> = {
  Answer: 'B28',
  Tariffs: 'B1',
  Battery: 'D1',
  Timers: 'D1',
  Heating: 'I6',
};

/**
 * Says on a protected sheet that it is, and that no password is needed.
 *
 * @param sheet a sheet of the model
 * @returns the sheet, with the words where it is protected
 * @throws RangeError when there is no place for them
 */
export function withProtectionSaid(sheet: SheetModel): SheetModel {
  if (!sheet.protected) return sheet;
  const words = sheet.cells.some(isOpen) ? WITH_OPEN_CELLS : PROTECTED;
  const at = PLACES[sheet.name];
  if (at !== undefined) return { ...sheet, cells: [...sheet.cells, label(at, words, 'hint')] };
  const isHint = (cell: Cell): boolean => cell.kind === 'label' && cell.at === 'A2' && cell.style === 'hint';
  if (!sheet.cells.some(isHint)) {
    throw new RangeError(`${sheet.name} has no place to say that it is protected`);
  }
  return {
    ...sheet,
    cells: sheet.cells.map((cell) =>
      cell.kind === 'label' && isHint(cell) ? { ...cell, value: `${String(cell.value)} ${words}` } : cell,
    ),
  };
}

/** Whether a cell is the user's to fill in; what the fill writes is locked. */
function isOpen(cell: Cell): boolean {
  const look: Partial<Style> = STYLES[cell.style];
  return cell.kind === 'input' && look.protection?.locked === false;
}
