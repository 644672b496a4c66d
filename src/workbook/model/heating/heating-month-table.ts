import { absolute } from '../../cell-address.js';
import { FIRST_ROW, SHEETS } from '../../layout.js';
import type { StyleName } from '../../look/styles.js';
import type { Book } from '../book.js';
import { formula, label } from '../cells.js';
import type { Cell } from '../sheet-model.js';
import { figureName } from './heating-figures-rows.js';
import { shownFigure } from './heating-key-figures.js';
import { monthLetters } from './heating-months-rows.js';
import { type HeatingRows, heatingRows } from './heating-rows.js';
import { inCurrencyFormula } from './heating-sentences.js';

/** How the sheet shows a figure, seen from the month in its place from 0. */
type Shown = (figure: string, i: number) => string;

/** A mild month's use ÷ its few degree days says nothing of the house. */
const onColdMonths: Shown = (figure, i) =>
  `IF(ISNUMBER(${figure}),IF(${worked('degreeDaysUsed', i)}>=${worked('days', i)},${figure},""),"")`;

const OVER_TWICE = 'over 200 %';
/** No boiler comes near such an efficiency: the figure itself would only distract. */
const upToTwice: Shown = (figure) => `IF(ISNUMBER(${figure}),IF(${figure}>2,"${OVER_TWICE}",${figure}),"")`;

/** Columns of the months: letters, what the column of the workings is, heading, and the figure of all months. */
const COLUMNS: readonly {
  letters: string;
  key: string;
  text: string;
  unit: string;
  style: StyleName;
  total?: string;
  /** How the sheet shows the figure, where it does not show it as it is. */
  shown?: Shown;
}[] = [
  { letters: 'A', key: 'monthSerial', text: 'Month', unit: '', style: 'monthLeft' },
  {
    letters: 'B',
    key: 'electricityKwh',
    text: 'Electricity in',
    unit: 'kWh',
    style: 'kwh',
    total: 'totalElectricityKwh',
  },
  { letters: 'C', key: 'heatKwh', text: 'Heat out', unit: 'kWh', style: 'kwh', total: 'totalHeatKwh' },
  { letters: 'D', key: 'cop', text: 'COP', unit: 'heat ÷ electr.', style: 'rate', total: 'totalCop' },
  {
    letters: 'E',
    key: 'degreeDaysUsed',
    text: 'Degree days',
    unit: '°C·day',
    style: 'kwh',
    total: 'totalDegreeDays',
  },
  {
    letters: 'F',
    key: 'electricityPerDegreeDay',
    text: 'kWh a degree day',
    unit: 'from 1 °C a day',
    style: 'rate',
    shown: onColdMonths,
  },
  {
    letters: 'G',
    key: 'costSingleRatePounds',
    text: 'Cost, single rate',
    unit: '{major}',
    style: 'money',
    total: 'totalSingleRatePounds',
  },
  {
    letters: 'H',
    key: 'costHalfHourlyPounds',
    text: 'Cost, half-hourly rates',
    unit: '{major}',
    style: 'money',
    total: 'totalHalfHourlyPounds',
  },
  {
    letters: 'I',
    key: 'costBatteryPounds',
    text: 'Cost, through battery',
    unit: '{major}',
    style: 'money',
    total: 'totalBatteryPounds',
  },
  {
    letters: 'J',
    key: 'heatPumpSidePounds',
    text: 'Heat pump’s side',
    unit: '{major}',
    style: 'moneyStrong',
    total: 'totalHeatPumpSidePounds',
  },
  {
    letters: 'K',
    key: 'boilerFromMeterPounds',
    text: 'Boiler (a): last year’s gas',
    unit: '{major}',
    style: 'money',
    total: 'totalFromMeterPounds',
  },
  {
    letters: 'L',
    key: 'boilerFromHeatPounds',
    text: 'Boiler (b): heat ÷ efficiency',
    unit: '{major}',
    style: 'money',
    total: 'totalFromHeatPounds',
  },
  {
    letters: 'M',
    key: 'estimatesApartShare',
    text: '(a) and (b) apart',
    unit: 'percent',
    style: 'percent',
    total: 'totalApartShare',
  },
  {
    letters: 'N',
    key: 'differenceBestPounds',
    text: 'Heat pump less boiler',
    unit: '{major}',
    style: 'moneySigned',
    total: 'totalDifferenceBestPounds',
  },
  {
    letters: 'O',
    key: 'equalCostEfficiency',
    text: 'Equal cost at efficiency',
    unit: 'of the boiler',
    style: 'percent',
    shown: upToTwice,
  },
];

const worked = (key: string, i: number): string =>
  absolute(SHEETS.heatingMonths, monthLetters(key), FIRST_ROW + i);

/** Rows of the table of months. */
export interface MonthTable {
  header: number;
  /** First row of a month. */
  first: number;
  /** Row of all months. */
  total: number;
}

export function monthTable({ shape }: Book): MonthTable {
  const { months } = heatingRows(shape);
  return { header: months + 1, first: months + 3, total: months + 3 + shape.monthRows };
}

/** Month by month: what went in and came out, what it cost, what the boiler would have cost. */
export function monthTableCells(book: Book, { months }: HeatingRows): Cell[] {
  const { header, first, total } = monthTable(book);
  const heads = [
    ...COLUMNS,
    { letters: 'P', text: 'Verdict', unit: '' },
    { letters: 'Q', text: 'Rests on', unit: '' },
  ];
  return [
    ...heads.map(({ letters }, i) =>
      label(`${letters}${months}`, i === 0 ? 'Month by month' : '', 'section'),
    ),
    ...heads.flatMap(({ letters, text, unit }) => [
      label(`${letters}${header}`, text, /[APQ]/.test(letters) ? 'headerLeft' : 'header'),
      label(`${letters}${header + 1}`, unit, 'headerUnit'),
    ]),
    ...Array.from({ length: book.shape.monthRows }, (_, i) => i).flatMap((i) => [
      ...COLUMNS.map(({ letters, key, style, shown }) =>
        formula(`${letters}${first + i}`, shown?.(worked(key, i), i) ?? worked(key, i), style),
      ),
      formula(`P${first + i}`, inCurrencyFormula(worked('monthVerdict', i)), 'text'),
      formula(
        `Q${first + i}`,
        `IF(${worked('metersNote', i)}="",${worked('monthNote', i)},${worked('metersNote', i)})`,
        'text',
      ),
    ]),
    label(`A${total}`, 'All months', 'totalLabel'),
    ...COLUMNS.slice(1).map(({ letters, total: key }) =>
      key === undefined
        ? letters === 'O'
          ? equalCostOfAll(`O${total}`)
          : label(`${letters}${total}`, null, 'totalLabel')
        : shownFigure(`${letters}${total}`, key, TOTAL_STYLES[letters] ?? 'totalMoney'),
    ),
  ];
}

function equalCostOfAll(at: string): Cell {
  return formula(at, upToTwice(figureName('totalEqualCostEfficiency'), 0), 'totalPercent');
}

const TOTAL_STYLES: Readonly<Record<string, StyleName>> = {
  B: 'totalCount',
  C: 'totalCount',
  D: 'totalRate',
  E: 'totalCount',
  M: 'totalPercent',
  N: 'totalSigned',
};
