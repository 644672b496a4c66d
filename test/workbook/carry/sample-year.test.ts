import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { PATHS } from '../../../src/cli/paths.js';
import { carryWorkbook } from '../../../src/workbook/carry/carry-workbook.js';
import { addressesIn } from '../../../src/workbook/carry/earlier-layout.js';
import { LAYOUT_2 } from '../../../src/workbook/carry/layout-2.js';
import { parseCell } from '../../../src/workbook/cell-address.js';
import { readingRowsOf } from '../../../src/workbook/fill/workbook-readings.js';
import { parseStartingInputs } from '../../../src/workbook/inputs/parse-starting-inputs.js';
import { SHEETS } from '../../../src/workbook/layout.js';
import { HELPER_ROW } from '../../../src/workbook/model/tariff-rows.js';
import { type InputValue, openWorkbookPackage } from '../../../src/workbook/package/index.js';
import { shapeOf } from '../../../src/workbook/sheets/shape.js';
import { sampleReadings } from '../sample-workbooks.js';
import { NOW } from '../template.js';
import { layout2Workbook } from './layout-2.js';

/** What the last version that wrote layout 2 worked out for the sample’s tariffs and readings: totals without a battery, in pounds. */
const STORED = {
  'Two-rate night': 1585.49,
  'Half-hourly price': 1563.25,
  'Heat pump hours': 1982.76,
  'Old night meter': 1997.19,
  'Free weekend lunch': 2080.81,
  'Single rate': 2193.42,
};

it('the sample year of layout 2, carried over, costs on every tariff what it did, to the penny', async () => {
  const { values } = await carryWorkbook(sampleYearOfLayout2(), 'old.xlsx', { now: NOW });
  const { calculated } = values;
  const totals = [...'CDEFGH'].map((letters) => [
    calculated.at(SHEETS.tariffs, `${letters}5`),
    Number(calculated.at(SHEETS.tariffs, `${letters}${HELPER_ROW.totalWithout}`)).toFixed(2),
  ]);
  const expected = Object.entries(STORED).map(([name, total]) => [name, total.toFixed(2)]);
  expect(Object.fromEntries(totals)).toEqual(Object.fromEntries(expected));
}, 180_000);

/** The kept workbook with the sample's tariffs typed, its year pasted, and no month chosen. */
function sampleYearOfLayout2(): Uint8Array {
  const workbook = openWorkbookPackage(layout2Workbook(), 'old.xlsx');
  const { tariffs } = parseStartingInputs(readFileSync(PATHS.sampleInputs, 'utf8'), 'sample');
  const type = (sheet: string, at: string, value: InputValue): void => {
    const { row, column } = parseCell(at);
    workbook.editSheet(sheet, { inputs: [{ column, firstRow: row, values: [value] }] });
  };
  type(LAYOUT_2.inputs.period.sheet, 'C4', null);
  LAYOUT_2.inputs.tariffs.columns.forEach((places, t) => {
    const cells = leavesIn(tariffs[t], places);
    addressesIn(places).forEach((at, i) => {
      type(LAYOUT_2.inputs.tariffs.sheet, at, cells[i]);
    });
  });
  const rows = readingRowsOf(sampleReadings().readings, 'old.xlsx', shapeOf(400));
  const { sheet, firstRow, letters } = LAYOUT_2.inputs.readings;
  const columns = { start: rows.startSerial, offset: rows.offsetHours, ...rows.values };
  workbook.editSheet(sheet, {
    inputs: Object.entries(columns).map(([key, values]) => ({
      column: parseCell(`${letters[key as keyof typeof letters]}1`).column,
      firstRow,
      values: values.subarray(0, rows.count),
      nan: 'blank' as const,
    })),
  });
  return workbook.toBytes();
}

/** What the cells of a tariff hold, in the order of their addresses; a cell without an address is left out. */
function leavesIn(cells: unknown, places: unknown): InputValue[] {
  if (typeof places === 'string') return [(cells ?? null) as InputValue];
  if (places === null || typeof places !== 'object') return [];
  return Object.entries(places).flatMap(([key, place]) =>
    leavesIn((cells as Record<string, unknown>)[key], place),
  );
}
