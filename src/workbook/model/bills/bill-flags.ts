import type { Reference } from '../../../formula/nodes.js';
import { areaReference } from '../../book/terms.js';
import { cellAt } from '../../cell-address.js';
import { BILL_SETTINGS, FIRST_BILL_ROW, LAST_BILL_ROW } from '../../fields/bill-fields.js';
import { BILL_RULES, type BillRules } from '../../fields/bill-rules.js';
import { brokenIn, limitRule, type Rule } from '../../fields/rule.js';
import { SHEETS } from '../../layout.js';
import { formula, label } from '../cells.js';
import type { Cell } from '../sheet-model.js';
import { BILL_FLAGS_COLUMN } from './bill-places.js';

/** What each column of flags is about, in their order. */
const flagsOf = ({ dates, missingDates, overlap, entries }: BillRules): readonly (readonly Rule[])[] => [
  dates,
  missingDates,
  overlap,
  ...entries,
];
const [FIRST] = BILL_RULES;
const COUNT = FIRST === undefined ? 0 : flagsOf(FIRST).length;

const columns = (
  first: number,
  last: number,
  firstRow = FIRST_BILL_ROW,
  lastRow = LAST_BILL_ROW,
): Reference =>
  areaReference({
    sheet: SHEETS.bills,
    firstRow,
    lastRow,
    firstColumn: BILL_FLAGS_COLUMN + first,
    lastColumn: BILL_FLAGS_COLUMN + last,
  });

/** The flags of all bills by what they are about. */
export const BILL_FLAGS = {
  dates: columns(0, 1),
  overlap: columns(2, 2),
  entries: columns(3, COUNT - 1),
} as const;

/** The flags of the bill in the same row. */
export const flagsOfRow: Reference = (() => {
  const ofRow = (row: number): Reference => columns(0, COUNT - 1, row, row);
  return {
    print: (home) =>
      ofRow(home.row)
        .print(home)
        .replace(/\$(\d)/g, '$1'),
    area: (home) => ofRow(home.row).area(home),
    moves: { first: 1, last: 1 },
  };
})();

/** Above 0 where something of the bill can’t be used. */
export function billFlagCells(): Cell[] {
  const heading = FIRST_BILL_ROW - 2;
  const names = [
    'Dates',
    'Dates missing',
    'Overlap',
    ...Array.from({ length: COUNT - 3 }, (_, i) => `Entries ${i + 1}`),
  ];
  return [
    label(
      cellAt(BILL_FLAGS_COLUMN, heading - 1),
      'Flags: above 0 where something of the bill can’t be used.',
      'hint',
    ),
    ...names.map((name, i) => label(cellAt(BILL_FLAGS_COLUMN + i, heading), name, 'header')),
    ...BILL_RULES.flatMap((rules, row) =>
      flagsOf(rules).map((flag, i) =>
        formula(cellAt(BILL_FLAGS_COLUMN + i, FIRST_BILL_ROW + row), brokenIn(flag), 'integer'),
      ),
    ),
  ];
}

/** Whether a setting of the sheet can’t be used. */
export const BILL_SETTINGS_FLAG = brokenIn(Object.values(BILL_SETTINGS).map((field) => limitRule(field)));
