import { calculateWorkbook } from '../calculate-inputs.js';
import { assertNotMoved } from '../fill/assert-in-place.js';
import { inspectSheet, type SheetInspection } from '../fill/inspect-sheet.js';
import { openOurWorkbook } from '../fill/open-our-workbook.js';
import { OwnedCells } from '../fill/owned-cells.js';
import { readInputs } from '../inputs/read-inputs.js';
import { workbookModel } from '../model/workbook-model.js';
import type { WorkbookValues } from '../workbook-values.js';

/** What a workbook holds against what the library works out from its inputs. */
export interface Verification {
  sheets: SheetInspection[];
  values: WorkbookValues;
  /** Formula cells that were compared, in formula and value. */
  compared: number;
  /** Whether every formula and every stored value is as it should be. */
  agrees: boolean;
}

/**
 * Recomputes a workbook from its inputs and compares every formula and every stored value.
 *
 * @param bytes the workbook
 * @param file its name, for messages
 * @returns what differs, sheet by sheet
 * @throws InputError when the workbook is not ours, counts dates from 1904, can't be read, or something on its
 *   sheets was moved
 * @example verifyWorkbook(readFileSync('home.xlsx'), 'home.xlsx').agrees // true
 */
export function verifyWorkbook(bytes: Uint8Array, file: string): Verification {
  const { workbook, book } = openOurWorkbook(bytes, file);
  const inputs = readInputs(workbook, book.shape);
  const model = workbookModel(inputs, book);
  const calculated = calculateWorkbook(model, book, inputs);
  const sheets = model.map((sheet) => inspectSheet(workbook, new OwnedCells(sheet, calculated), true));
  assertNotMoved(
    workbook,
    model,
    new Set(sheets.filter(({ altered }) => altered.length > 0).map(({ sheet }) => sheet)),
  );
  workbook.checkParts();
  return {
    sheets,
    values: { inputs, book, calculated },
    compared: sheets.reduce((sum, sheet) => sum + sheet.intact, 0),
    agrees: sheets.every((sheet) => sheet.altered.length === 0 && sheet.differing.length === 0),
  };
}
