import type { Node } from '../../formula/nodes.js';
import { MAX_WINDOWS } from '../../tariffs/tariff.js';
import { areaReference, call, f, Line } from '../book/terms.js';
import { cellAt } from '../cell-address.js';
import { HOME_FIELDS } from '../fields/home-fields.js';
import { ASKED, ASKED_RATES_COLUMN } from '../fields/mistyped-rates.js';
import { CURRENCY_IS_KNOWN, PLAUSIBLE } from '../fields/plausible.js';
import { ratesHeadingRow } from '../fields/tariff-fields.js';
import { FIRST_TARIFF_COLUMN, TARIFF_NAMES } from '../fields/tariff-places.js';
import { SHEETS, TARIFF_COUNT } from '../layout.js';
import { formula } from './cells.js';
import type { Cell } from './sheet-model.js';
import { LAST_TARIFF_ROW, ratePeriodRows } from './tariff-rows.js';

/** First column of what is said of a check of rates, right of its counts tariff by tariff. */
export const ASKED_COLUMN = 16;
/** Headings of what is said there. */
export const ASKED_HEADINGS = [
  'Tariff',
  'Row',
  'Value',
  'Meant',
  'First that is asked about',
  'What is asked',
];
/** Their widths, in characters. */
export const ASKED_WIDTHS = [8, 8, 10, 10, 60, 90] as const;
/** What is asked, in the row of a check. */
export const askedLine = (row: number): Line =>
  new Line({ sheet: SHEETS.checks, row, column: ASKED_COLUMN + ASKED_HEADINGS.length - 1 }, 'text');

const FIRST_RATE_ROW = ratePeriodRows(0).standing;
const SET_ROWS = ratesHeadingRow(1) - ratesHeadingRow(0);
const { minorUnit, currency } = HOME_FIELDS;
const tariffs = Array.from({ length: TARIFF_COUNT }, (_, t) => t);
const rateRows = (firstColumn: number, columns = 1) =>
  areaReference({
    sheet: SHEETS.tariffs,
    firstRow: FIRST_RATE_ROW,
    lastRow: LAST_TARIFF_ROW,
    firstColumn,
    lastColumn: firstColumn + columns - 1,
  });
const marksOf = (tariff: number) => rateRows(ASKED_RATES_COLUMN + tariff);

export type AskedRateKind = keyof typeof ASKED;

/** How many rates of a kind look mistyped, of each tariff. */
export function askedOfTariffs(kind: AskedRateKind): Node[] {
  return tariffs.map((t) => f`COUNTIFS(${marksOf(t)},${ASKED[kind]})`);
}

/** What is asked of a rate, by its value. */
function questionOf(kind: AskedRateKind, value: Line, meant: Line): Node {
  const { leastPence, mostUnitRatePence } = PLAUSIBLE;
  const inPounds = f`"Typed in "&${currency.cell}`;
  const written = f`"? "&${meant}&" "&${minorUnit.cell}&" is written "&${meant}&"."`;
  const isSmall = f`${value}<${leastPence}`;
  const slip = f`IF(${isSmall},${inPounds},"A decimal point lost")&${written}`;
  switch (kind) {
    case 'unitRate':
      return f`IF(${value}=0,"No rate beside it is above 0: is one missing?",IF(${value}<0,"Below 0, using energy is paid for: is the minus right?",${slip}))`;
    case 'standing':
      return f`IF(${value}<0,"Below 0, each day is paid for: is the minus right?",IF(${isSmall},${inPounds}&${written},"A month’s? A day’s would be "&${meant}&"."))`;
    case 'exportRate':
      return f`IF(${value}<0,"Below 0, you pay for export: is the minus right?",IF((${isSmall})+${CURRENCY_IS_KNOWN}*(${value}>${mostUnitRatePence})>0,${slip},"More than any unit rate of the tariff: is it right?"))`;
  }
}

/** Rate of a set by its place from the first row of rates, with its label, and the set where it is a later one. */
function labelOf(tariff: Line, rate: Line): Node {
  const ofFirstSet = MAX_WINDOWS + 3;
  const change = f`IF(${rate}<=${ofFirstSet},"",", change "&INT((${rate}-1)/${SET_ROWS})&" of rates")`;
  return f`"“"&INDEX(${TARIFF_NAMES},1,${tariff})&"”, "&INDEX(${rateRows(1)},${rate})&${change}`;
}

/**
 * What is asked of the first rate of a kind that looks mistyped.
 *
 * @param kind which rates
 * @param row of the check
 * @param counts what it counts, tariff by tariff
 * @returns the words, and the cells that they are made in
 */
export function askedRate(
  kind: AskedRateKind,
  row: number,
  counts: readonly Line[],
): { cells: Cell[]; words: Node } {
  const line = (i: number, style: Line['style']): Line =>
    new Line({ sheet: SHEETS.checks, row, column: ASKED_COLUMN + i }, style);
  const tariff = line(0, 'integer');
  const rate = line(1, 'integer');
  const value = line(2, 'rateFine');
  const meant = line(3, 'rateFine');
  const found = line(4, 'text');
  const question = askedLine(row);
  const places = tariffs.map((t) => f`MATCH(${ASKED[kind]},${marksOf(t)},0)`);
  const values = rateRows(FIRST_TARIFF_COLUMN, TARIFF_COUNT);
  const unit = kind === 'standing' ? '/day. ' : '/kWh. ';
  const ofLarge = kind === 'standing' ? f`ROUND(${value}/30,2)` : f`${value}/10`;
  const cell = ({ place: { column }, style }: Line, is: Node): Cell =>
    formula(cellAt(column, row), is, style);
  const where = (is: Node): Node => f`IF(${tariff}=0,"",${is})`;
  return {
    cells: [
      cell(
        tariff,
        counts.reduceRight<Node>((others, of, t) => f`IF(${of}>0,${t + 1},${others})`, f`0`),
      ),
      cell(rate, f`IF(${tariff}=0,0,${call('CHOOSE', [tariff, ...places])})`),
      cell(value, where(f`INDEX(${values},${rate},${tariff})`)),
      cell(meant, where(f`ROUND(IF(${value}<${PLAUSIBLE.leastPence},100*${value},${ofLarge}),4)`)),
      cell(found, where(f`${labelOf(tariff, rate)}&": "&ROUND(${value},4)&" "&${minorUnit.cell}&${unit}`)),
      cell(question, where(questionOf(kind, value, meant))),
    ],
    words: f`${found}&${question}`,
  };
}
