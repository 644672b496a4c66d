import { expect, it } from 'vitest';
import { CHANNELS } from '../../src/readings/channels.js';
import { columnNumber } from '../../src/workbook/cell-address.js';
import { fillWorkbook } from '../../src/workbook/fill/fill-workbook.js';
import { FIRST_ROW, SHEETS } from '../../src/workbook/layout.js';
import { READING } from '../../src/workbook/model/columns.js';
import { openWorkbookPackage } from '../../src/workbook/package/index.js';
import { checkCounts } from './shown-by-sheet.js';
import { inputsOf, smallMonth, workedOut } from './small-month.js';

const FILE = 'home.xlsx';
const ROWS = 31 * 48 + 2;

/** October of a home that meters nothing but its import, which runs backwards in one half-hour. */
async function withNegativeImport(): Promise<Uint8Array> {
  const workbook = openWorkbookPackage(await smallMonth(), FILE);
  const inputs = CHANNELS.filter((channel) => channel !== 'importKwh').map((channel) => ({
    column: columnNumber(READING[channel]),
    firstRow: FIRST_ROW,
    values: Array.from({ length: ROWS }, () => null),
  }));
  workbook.editSheet(SHEETS.readings, {
    inputs: [
      ...inputs,
      { column: columnNumber(READING.importKwh), firstRow: FIRST_ROW + 400, values: [-0.05] },
    ],
  });
  return workbook.toBytes();
}

it('a negative kWh of import is filled and counted, and nothing of the home hangs on it', async () => {
  const filled = fillWorkbook(await withNegativeImport(), FILE, undefined).bytes;
  const values = workedOut(inputsOf(filled));
  expect(checkCounts(values)['Negative kWh']).toBe(1);
  const { heatPumpKwh, carKwh } = values.book.workings.halfHours;
  for (const used of [heatPumpKwh, carKwh]) {
    expect([...values.calculated.column(used)].every((kwh) => kwh === 0)).toBe(true);
  }
});
