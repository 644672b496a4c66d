import { beforeAll, expect, it } from 'vitest';
import { isoDateToSerial } from '../../../src/time/serial.js';
import { BILL_FIELDS } from '../../../src/workbook/fields/bill-fields.js';
import { fieldPairs } from '../../../src/workbook/fields/field.js';
import { fillWorkbook } from '../../../src/workbook/fill/fill-workbook.js';
import { RATES_USED, SHEETS } from '../../../src/workbook/layout.js';
import { openWorkbookPackage } from '../../../src/workbook/package/index.js';
import { describeWithCalc, describeWithGnumeric } from '../../engines/availability.js';
import { assertCellsEqual, compareCells } from '../../engines/compare-cells.js';
import { recalculateWithGnumeric } from '../../engines/gnumeric.js';
import { recalculateWithCalc } from '../../engines/libreoffice.js';
import { withFile } from '../../engines/with-file.js';
import { withTyped } from '../sample-workbooks.js';
import { smallMonth } from '../small-month.js';
import { billCells, type TypedBill } from './bill-case.js';

/** October 2026, in which the clock changes on the 25th, on tariffs of every kind; each bill is wrong in its own way. */
const BILLS: readonly TypedBill[] = [
  {
    from: isoDateToSerial('2026-10-01'),
    to: isoDateToSerial('2026-10-08'),
    tariff: 'Two-rate night',
    total: 60,
    lines: [
      { kwh: 60, rate: 27.48 },
      { kwh: 200, rate: 7.9 },
    ],
    standing: 51.2,
    days: 14,
    exportKwh: 10,
    exportRate: 15,
  },
  {
    from: isoDateToSerial('2026-10-09'),
    to: isoDateToSerial('2026-10-20'),
    tariff: 'Old night meter',
    total: 61.1,
    lines: [
      { rate: 30.857, opening: 100, closing: 220 },
      { rate: 15.43, opening: 300, closing: 420 },
    ],
    standing: 53.24,
    vat: 2.9,
    reads: 'estimated',
  },
  {
    from: isoDateToSerial('2026-10-22'),
    to: isoDateToSerial('2026-10-26'),
    tariff: 'Heat pump hours',
    total: 44,
    lines: [
      { kwh: 40, rate: 26.9 },
      { kwh: 50, rate: 14.1 },
      { kwh: 20, rate: 40.4 },
    ],
    standing: 54.6,
  },
  {
    from: isoDateToSerial('2026-10-27'),
    to: isoDateToSerial('2026-11-02'),
    tariff: 'Half-hourly price',
    total: 50,
    lines: [{ kwh: 200, rate: 20 }],
    standing: 52.4,
  },
  // One without readings.
  {
    from: isoDateToSerial('2025-10-27'),
    to: isoDateToSerial('2025-11-20'),
    tariff: 'Single rate',
    total: 5,
    lines: [{ kwh: 10, rate: 26 }],
    standing: 52.4,
  },
];

/** Formula cells of the bills sheet and of the days at least. */
const CELLS = 1_400;

const FILE = 'home.xlsx';
let bytes: Uint8Array;
beforeAll(async () => {
  const workbook = openWorkbookPackage(await smallMonth(), FILE);
  for (const [{ cell }, value] of fieldPairs(BILL_FIELDS.slice(0, BILLS.length), BILLS.map(billCells))) {
    const { row, column } = cell.place;
    workbook.editSheet(SHEETS.bills, { inputs: [{ column, firstRow: row, values: [value] }] });
  }
  bytes = fillWorkbook(workbook.toBytes(), FILE, undefined, { keepLeastCost: true }).bytes;
}, 240_000);

describeWithCalc('LibreOffice works bills out as the workbook stored them', () => {
  it('and after the rates are priced as they are now, which is not for bills', async () => {
    await withFile(bytes, async (path) => {
      const result = await recalculateWithCalc(path);
      const found = compareCells(bytes, result);
      assertCellsEqual(found, CELLS);
      expect(found.bySheet.get(SHEETS.bills)).toBeGreaterThan(CELLS);
    });
    const now = withTyped(bytes, [{ sheet: SHEETS.answer, cell: 'J4', value: RATES_USED.asTheyAreNow }]);
    await withFile(now, async (path) => {
      assertCellsEqual(compareCells(now, await recalculateWithCalc(path)), CELLS);
    });
  });
});

describeWithGnumeric('Gnumeric works bills out as the workbook stored them', () => {
  it('on tariffs of every kind', async () => {
    await withFile(bytes, async (path) => {
      assertCellsEqual(compareCells(bytes, await recalculateWithGnumeric(path)), CELLS);
    });
  });
});
