import { label } from './cells.js';
import type { Cell, SheetModel } from './sheet-model.js';

/**
 * On a sheet that people paste into: a pasted cell brings its own lock along, so that on a protected sheet it could never
 * be changed again.
 */
export const UNPROTECTED =
  'Not protected, so that a paste stays possible. Leave the columns on the right as they are: the fill tells a formula that was typed over.';
const PROTECTED = 'Protected against slips, without a password; the coloured cells stay open.';

/** Where it is said on sheets whose second row is no hint. */
const PLACES: Readonly<Record<string, string>> = {
  Answer: 'B28',
  Tariffs: 'B1',
  Battery: 'D1',
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
  const at = PLACES[sheet.name];
  if (at !== undefined) return { ...sheet, cells: [...sheet.cells, label(at, PROTECTED, 'hint')] };
  const isHint = (cell: Cell): boolean => cell.kind === 'label' && cell.at === 'A2' && cell.style === 'hint';
  if (!sheet.cells.some(isHint)) {
    throw new RangeError(`${sheet.name} has no place to say that it is protected`);
  }
  return {
    ...sheet,
    cells: sheet.cells.map((cell) =>
      cell.kind === 'label' && isHint(cell) ? { ...cell, value: `${String(cell.value)} ${PROTECTED}` } : cell,
    ),
  };
}
