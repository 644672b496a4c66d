import { InputError } from '../../errors.js';
import { parseCell } from '../cell-address.js';
import { assertUsualDates } from '../inputs/assert-usual-dates.js';
import { assertOurWorkbook, shapeOfWorkbook } from '../inputs/read-inputs.js';
import { SHEETS } from '../layout.js';
import { type Book, bookOf } from '../model/book.js';
import { LAYOUT_CELL, LAYOUT_NAME } from '../model/notes-sheet.js';
import { workbookModel } from '../model/workbook-model.js';
import { openWorkbookPackage, type WorkbookPackage } from '../package/index.js';
import { assertInPlace } from './assert-in-place.js';
import { blankStart } from './blank-start.js';

/**
 * Opens a workbook that this project built, and makes sure that its sheets are as they were laid out.
 *
 * @param bytes the workbook
 * @param file its name, for messages
 * @returns the workbook and what it is declared as
 * @throws InputError when it is not ours, counts dates from 1904, or something on its sheets was moved
 */
export function openOurWorkbook(bytes: Uint8Array, file: string): { workbook: WorkbookPackage; book: Book } {
  const workbook = openWorkbookPackage(bytes, file);
  assertLayoutInPlace(workbook);
  assertOurWorkbook(workbook);
  assertUsualDates(workbook);
  const book = bookOf(shapeOfWorkbook(workbook));
  assertInPlace(workbook, workbookModel(blankStart(), book));
  return { workbook, book };
}

/** The notes say by which layout everything else is read, so that they are looked at first. */
function assertLayoutInPlace(workbook: WorkbookPackage): void {
  const found = workbook.namedRange(LAYOUT_NAME);
  const { row, column } = parseCell(LAYOUT_CELL);
  if (found === undefined || (found.range.firstRow === row && found.range.firstColumn === column)) return;
  throw new InputError(
    `the number of the layout belongs here, but stands in ${workbook.definedName(LAYOUT_NAME)?.replaceAll('$', '')}`,
    `Undo what was inserted in, deleted from or moved on ${SHEETS.notes}.`,
    { file: workbook.fileName, line: `${SHEETS.notes}!${LAYOUT_CELL}` },
  );
}
