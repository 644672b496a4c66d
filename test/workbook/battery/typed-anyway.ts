import { calculateWorkbook } from '../../../src/workbook/calculate-inputs.js';
import { parseCell } from '../../../src/workbook/cell-address.js';
import { OwnedCells } from '../../../src/workbook/fill/owned-cells.js';
import { readInputs, shapeOfWorkbook } from '../../../src/workbook/inputs/read-inputs.js';
import { bookOf } from '../../../src/workbook/model/book.js';
import { workbookModel } from '../../../src/workbook/model/workbook-model.js';
import { openWorkbookPackage } from '../../../src/workbook/package/index.js';
import { storedNumber } from '../../../src/workbook/stored-number.js';
import type { TypedInput } from '../sample-workbooks.js';

/**
 * A workbook with inputs typed in, right or wrong, and every formula's value worked out anew by the library: what a
 * spreadsheet program shows for inputs that a fill would refuse.
 */
export function typedAnyway(bytes: Uint8Array, typed: readonly TypedInput[]): Uint8Array {
  const workbook = openWorkbookPackage(bytes, 'home.xlsx');
  for (const { sheet, cell, value } of typed) {
    const { row, column } = parseCell(cell);
    workbook.editSheet(sheet, { inputs: [{ column, firstRow: row, values: [value] }] });
  }
  const changed = workbook.toBytes();
  const again = openWorkbookPackage(changed, 'home.xlsx');
  const book = bookOf(shapeOfWorkbook(again));
  const inputs = readInputs(again, book.shape);
  const model = workbookModel(inputs, book);
  const calculated = calculateWorkbook(model, book, inputs);
  for (const sheet of model) {
    const owned = new OwnedCells(sheet, calculated);
    again.editSheet(sheet.name, {
      cached: (row, column) => {
        const value = owned.valueAt(row, column);
        return value === undefined ? undefined : (storedNumber(value) ?? '');
      },
    });
  }
  return again.toBytes();
}
