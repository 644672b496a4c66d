import { CHANNELS } from '../../../src/readings/channels.js';
import type { Tariff } from '../../../src/tariffs/tariff.js';
import { localMsToSerial } from '../../../src/time/serial.js';
import { ZoneClock } from '../../../src/time/zone-clock.js';
import type { Column } from '../../../src/workbook/book/terms.js';
import { calculateWorkbook } from '../../../src/workbook/calculate-inputs.js';
import { blankStart } from '../../../src/workbook/fill/blank-start.js';
import { type BillCells, blankBillsCells } from '../../../src/workbook/inputs/bill-cells.js';
import { blankReadings } from '../../../src/workbook/inputs/blank-readings.js';
import { blankTariffCells, tariffCells } from '../../../src/workbook/inputs/tariff-cells.js';
import type { ReadingRows, WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { RATES_USED, TARIFF_COUNT } from '../../../src/workbook/layout.js';
import { type BillColumns, billColumns } from '../../../src/workbook/model/bills/bill-columns.js';
import { declareBook } from '../../../src/workbook/model/book.js';
import { clockTable } from '../../../src/workbook/model/clock-table.js';
import { workbookModel } from '../../../src/workbook/model/workbook-model.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import type { Rows } from '../workings/workings-case.js';

/** Readings as the rows of the sheet hold them. */
export function readingRows(rows: Rows, capacity: number, isEstimated = (_: number) => false): ReadingRows {
  const clock = new ZoneClock(rows.zone, rows.startUtcMs[0] ?? 0, rows.startUtcMs.at(-1) ?? 0);
  const readings = blankReadings(capacity);
  readings.count = rows.startUtcMs.length;
  rows.startUtcMs.forEach((start, i) => {
    readings.startSerial[i] = localMsToSerial(start + clock.offsetMinutesAt(start) * 60_000);
    for (const channel of CHANNELS) readings.values[channel][i] = rows.channels[channel]?.[i] ?? Number.NaN;
    if (isEstimated(i)) readings.estimated[i] = 1;
  });
  return readings;
}

/** What is typed into a row of the bills sheet; what is not said stays blank. */
export type TypedBill = Partial<Omit<BillCells, 'lines'>> & {
  lines?: readonly Partial<BillCells['lines'][number]>[];
};

export function billCells({ lines = [], ...typed }: TypedBill): BillCells {
  const [blank] = blankBillsCells().rows;
  if (blank === undefined) throw new Error('there is no bill');
  return { ...blank, ...typed, lines: blank.lines.map((line, k) => ({ ...line, ...lines[k] })) };
}

/** A workbook of a few days with readings, tariffs and bills, as a spreadsheet program would show it. */
export interface BillCase extends WorkbookValues {
  columns: BillColumns & { ownTotal: Column };
  /** What stands in a column beside a bill, from 0. */
  at: (label: string, bill: number) => unknown;
}

export function billCase(
  rows: Rows,
  tariffs: readonly Tariff[],
  bills: readonly TypedBill[],
  {
    vatShare = 0.05,
    days = 40,
    rounding = 'each line',
    agreesWithin = 1,
    ratesUsed = RATES_USED.asTheyWere,
    isEstimated,
  }: {
    vatShare?: number;
    days?: number;
    rounding?: string;
    agreesWithin?: number;
    ratesUsed?: string;
    isEstimated?: (row: number) => boolean;
  } = {},
): BillCase {
  const book = declareBook(days);
  const blank = blankBillsCells();
  const start = blankStart();
  const inputs: WorkbookInputs = {
    ...start,
    home: {
      ...start.home,
      timeZone: rows.zone,
      vatShare,
      currency: '£',
      minorUnit: 'p',
      largestHalfHourKwh: 12,
    },
    todaysTariff: tariffs[0]?.name ?? null,
    ratesUsed,
    clockTimeZone: rows.zone,
    tariffs: Array.from({ length: TARIFF_COUNT }, (_, t) =>
      tariffs[t] === undefined ? blankTariffCells() : tariffCells(tariffs[t]),
    ),
    bills: {
      settings: { rounding, agreesWithin },
      rows: blank.rows.map((row, i) => (bills[i] === undefined ? row : billCells(bills[i]))),
    },
    readings: readingRows(rows, book.shape.readingRows, isEstimated),
    clock: clockTable(rows.zone),
  };
  const calculated = calculateWorkbook(workbookModel(inputs, book), book, inputs);
  const columns = billColumns(book);
  return {
    inputs,
    book,
    calculated,
    columns,
    at: (label, bill) => {
      const column = columns.worked.find(({ text }) => text.label === label);
      if (column === undefined) throw new Error(`no column is called "${label}"`);
      return calculated.value(column.cell(bill));
    },
  };
}
