import { parseCell } from '../../../src/workbook/cell-address.js';
import { evaluateWorkbook } from '../../../src/workbook/evaluate/evaluate-workbook.js';
import { OwnedCells } from '../../../src/workbook/fill/owned-cells.js';
import { readInputs } from '../../../src/workbook/inputs/read-inputs.js';
import { workbookModel } from '../../../src/workbook/model/workbook-model.js';
import { openWorkbookPackage } from '../../../src/workbook/package/index.js';
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
  const inputs = readInputs(again);
  const results = evaluateWorkbook(inputs);
  for (const sheet of workbookModel(inputs)) {
    const owned = new OwnedCells(sheet, results);
    again.editSheet(sheet.name, { cached: (row, column) => owned.valueAt(row, column) ?? '' });
  }
  return again.toBytes();
}
