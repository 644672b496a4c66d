import { z } from 'zod';
import { isoDateToSerial } from '../../time/serial.js';
import {
  BILL_FIELDS,
  BILL_RATES,
  BILL_ROUNDING,
  BILL_ROWS,
  BILL_SETTINGS,
  READS,
} from '../fields/bill-fields.js';
import { type BillCells, type BillsCells, blankBillsCells } from './bill-cells.js';
import { numberSchema } from './number-schema.js';

const [FIRST] = BILL_FIELDS;
const [LINE] = FIRST?.lines ?? [];
if (FIRST === undefined || LINE === undefined) throw new RangeError('the workbook holds no bill');

/** A bill of the starting inputs, as printed; money in pounds, rates in pence. What is left out stays blank. */
export const startingBillSchema = z.strictObject({
  from: z.iso.date(),
  to: z.iso.date(),
  tariff: z.string(),
  totalPounds: numberSchema(FIRST.total),
  lines: z
    .array(
      z.strictObject({
        kwh: numberSchema(LINE.kwh).optional(),
        ratePence: numberSchema(LINE.rate),
        openingKwh: numberSchema(LINE.opening).optional(),
        closingKwh: numberSchema(LINE.closing).optional(),
      }),
    )
    .max(BILL_RATES),
  standingChargePencePerDay: numberSchema(FIRST.standing),
  days: numberSchema(FIRST.days).optional(),
  vatPounds: numberSchema(FIRST.vat).optional(),
  exportKwh: numberSchema(FIRST.exportKwh).optional(),
  exportRatePence: numberSchema(FIRST.exportRate).optional(),
  reads: z.enum(READS).optional(),
});
type StartingBill = z.infer<typeof startingBillSchema>;

/** The bills of the starting inputs, and how they are held against the readings. What is left out stays blank. */
export const startingBillsSchema = z.strictObject({
  rounding: z.enum(BILL_ROUNDING).optional(),
  agreesWithinPounds: numberSchema(BILL_SETTINGS.agreesWithin).optional(),
  rows: z.array(startingBillSchema).max(BILL_ROWS),
});
type StartingBills = z.infer<typeof startingBillsSchema>;

function billCells(bill: StartingBill): BillCells {
  return {
    from: isoDateToSerial(bill.from),
    to: isoDateToSerial(bill.to),
    tariff: bill.tariff,
    total: bill.totalPounds,
    lines: Array.from({ length: BILL_RATES }, (_, k) => {
      const line = bill.lines[k];
      return {
        kwh: line?.kwh ?? null,
        rate: line?.ratePence ?? null,
        opening: line?.openingKwh ?? null,
        closing: line?.closingKwh ?? null,
      };
    }),
    standing: bill.standingChargePencePerDay,
    days: bill.days ?? null,
    vat: bill.vatPounds ?? null,
    exportKwh: bill.exportKwh ?? null,
    exportRate: bill.exportRatePence ?? null,
    reads: bill.reads ?? null,
  };
}

/** The starting bills as cells; a row that is undefined stays blank. */
export function startingBillsCells(
  bills: (Omit<StartingBills, 'rows'> & { readonly rows: readonly (StartingBill | undefined)[] }) | undefined,
): BillsCells {
  const blank = blankBillsCells();
  if (bills === undefined) return blank;
  return {
    settings: {
      rounding: bills.rounding ?? blank.settings.rounding,
      agreesWithin: bills.agreesWithinPounds ?? blank.settings.agreesWithin,
    },
    rows: blank.rows.map((row, i) => {
      const typed = bills.rows[i];
      return typed === undefined ? row : billCells(typed);
    }),
  };
}
