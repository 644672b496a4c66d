import { BILL_FIELDS, BILL_SETTINGS, type BILLS } from '../fields/bill-fields.js';
import type { CellsOf } from '../fields/field.js';
import { blankCells } from '../fields/rule.js';

/** What the bills sheet holds: settings, and a row a bill. */
export type BillsCells = CellsOf<typeof BILLS>;
/** A bill as its row holds it. */
export type BillCells = BillsCells['rows'][number];

/** What a difference may be and still be none, in a new workbook. */
const USUAL_AGREEMENT = 1;

/** The bills sheet of a workbook into which no bill was typed. */
export function blankBillsCells(): BillsCells {
  return {
    settings: { ...blankCells(BILL_SETTINGS), rounding: 'each line', agreesWithin: USUAL_AGREEMENT },
    rows: BILL_FIELDS.map((fields) => blankCells(fields)),
  };
}
