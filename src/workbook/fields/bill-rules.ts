import type { Node, Reference } from '../../formula/nodes.js';
import { serialToIsoDate } from '../../time/serial.js';
import { areaReference, call, f } from '../book/terms.js';
import {
  BILL_COLUMN,
  BILL_FIELDS,
  BILL_FROM,
  BILL_SETTINGS,
  BILL_TO,
  type BillFields,
  RATE_WORDS,
} from './bill-fields.js';
import { type Field, listFields } from './field.js';
import { limitRule, type Rule, type TypedCells } from './rule.js';

type Found = string | ((typed: TypedCells) => string);

const rule = (field: Field, is: Node, found: Found, whatToDo: string): Rule => ({
  at: field.cell.place,
  is: f`IF(${is},1,0)`,
  refusal: (typed) => ({ found: typeof found === 'string' ? found : found(typed), whatToDo }),
});
/** Rules that a cell breaks by itself, whatever stands beside it. */
const ofOneCell = new Set<Rule>();
function limit(field: Field): Rule {
  const own = limitRule(field);
  ofOneCell.add(own);
  return own;
}
const isBlank = ({ cell }: Field): Node => f`ISBLANK(${cell})`;
const cellsOf = (row: number, first: number, last: number): Reference => {
  const { sheet } = BILL_FROM.area({ sheet: '', row: 1, column: 1 });
  return areaReference({ sheet, firstRow: row, lastRow: row, firstColumn: first, lastColumn: last });
};

/** Whether anything stands in the row of a bill. */
export function isTyped({ from }: BillFields): Node {
  const { row } = from.cell.place;
  const { from: first, total, kwh, opening } = BILL_COLUMN;
  return f`COUNTA(${cellsOf(row, first, total)},${cellsOf(row, kwh, opening + 2 * RATE_WORDS.length - 1)})>0`;
}

const missing = (bill: BillFields, field: Field, whatToDo: string): Rule =>
  rule(field, f`AND(${isTyped(bill)},${isBlank(field)})`, `${field.spec.what} is missing`, whatToDo);

function dateRules({ from, to }: BillFields): Rule[] {
  const [first, last] = [from.cell, to.cell];
  const day = (typed: TypedCells, field: Field): string => serialToIsoDate(Number(typed.of(field.cell)));
  return [
    limit(from),
    limit(to),
    rule(
      to,
      f`IF(COUNT(${first},${last})=2,${last}<${first},FALSE)`,
      (typed) => `the bill ends on ${day(typed, to)}, before it begins on ${day(typed, from)}`,
      'Correct one of the dates.',
    ),
  ];
}

function missingDateRules(bill: BillFields): Rule[] {
  const { from, to } = bill;
  return [
    missing(bill, from, 'Type the first day that the bill charges, or clear the row.'),
    missing(bill, to, 'Type the last day that the bill charges, or clear the row.'),
  ];
}

function overlapRules({ from, to }: BillFields): Rule[] {
  const [first, last] = [from.cell, to.cell];
  const both = f`COUNTIFS(${BILL_FROM},"<="&${last},${BILL_TO},">="&${first})`;
  return [
    rule(
      from,
      f`IF(COUNT(${first},${last})=2,IF(${last}>=${first},${both}>1,FALSE),FALSE)`,
      (typed) => `another bill charges days of the one from ${serialToIsoDate(Number(typed.of(first)))} too`,
      'Correct the dates; of a bill that was sent anew, keep the last.',
    ),
  ];
}

function lineRules(bill: BillFields, k: number): Rule[] {
  const line = bill.lines[k];
  if (line === undefined) return [];
  const { kwh, rate, opening, closing } = line;
  return [
    limit(kwh),
    limit(rate),
    rule(
      rate,
      f`AND(COUNTA(${kwh.cell},${opening.cell},${closing.cell})>0,${isBlank(rate)})`,
      `rate ${k + 1} is missing`,
      'Type it as printed, or clear the kWh and the registers of that rate.',
    ),
  ];
}

function registerRules({ lines }: BillFields, k: number): Rule[] {
  const line = lines[k];
  if (line === undefined) return [];
  const { opening, closing } = line;
  return [
    limit(opening),
    limit(closing),
    rule(
      closing,
      f`COUNTA(${opening.cell})<>COUNTA(${closing.cell})`,
      `one of the two registers of rate ${k + 1} is missing`,
      'Type both, or clear both.',
    ),
    rule(
      closing,
      f`IF(COUNT(${opening.cell},${closing.cell})=2,${closing.cell}<${opening.cell},FALSE)`,
      (typed) =>
        `the closing register ${String(typed.of(closing.cell))} is below the opening one, ${String(typed.of(opening.cell))}`,
      'Correct them; where the register began again at 0, add its round to the closing one.',
    ),
  ];
}

function kwhRules(bill: BillFields): Rule[] {
  const [first] = bill.lines;
  if (first === undefined) return [];
  const counted = call(
    'COUNTA',
    bill.lines.flatMap(({ kwh, opening, closing }) => [kwh.cell, opening.cell, closing.cell]),
  );
  return [
    rule(
      first.kwh,
      f`AND(${isTyped(bill)},${counted}=0)`,
      'the bill has no kWh',
      'Type them as printed, or the registers; 0 where nothing was used.',
    ),
  ];
}

/** The rules of a bill, by what its flags are about. */
export interface BillRules {
  readonly dates: readonly Rule[];
  readonly missingDates: readonly Rule[];
  readonly overlap: readonly Rule[];
  /** The others, in as many flags as keep their formulas short. */
  readonly entries: readonly (readonly Rule[])[];
}

function billRules(bill: BillFields): BillRules {
  const { tariff, total, standing, days, vat, exportKwh, exportRate, reads } = bill;
  const limits = (...fields: Field[]): Rule[] => fields.map(limit);
  return {
    dates: dateRules(bill),
    missingDates: missingDateRules(bill),
    overlap: overlapRules(bill),
    entries: [
      [...limits(tariff, total), missing(bill, tariff, 'Choose the tariff of these days.')],
      [
        missing(bill, total, 'Type what these days come to on the bill.'),
        ...limits(standing),
        missing(bill, standing, 'Type it as printed, 0 where there is none.'),
      ],
      limits(days, vat, exportKwh),
      [...limits(exportRate, reads), ...kwhRules(bill)],
      ...bill.lines.map((_, k) => lineRules(bill, k)),
      ...bill.lines.map((_, k) => registerRules(bill, k)),
    ],
  };
}

/** The rules of every bill. */
export const BILL_RULES: readonly BillRules[] = BILL_FIELDS.map(billRules);

/** The rules of how bills are held against the readings. */
export const BILL_SETTING_RULES: readonly Rule[] = listFields(BILL_SETTINGS).map(limit);

const everyRule = [
  ...BILL_SETTING_RULES,
  ...BILL_RULES.flatMap(({ dates, missingDates, overlap, entries }) => [
    ...dates,
    ...missingDates,
    ...overlap,
    ...entries.flat(),
  ]),
];

/** Every rule of the bills: first those that a cell breaks by itself, so that a refusal names that cell. */
export const ALL_BILL_RULES: readonly Rule[] = [
  ...everyRule.filter((own) => ofOneCell.has(own)),
  ...everyRule.filter((own) => !ofOneCell.has(own)),
];
