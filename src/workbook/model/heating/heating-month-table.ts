import type { StyleName } from '../../build/styles.js';
import { absolute } from '../../cell-address.js';
import type { WorkbookResults } from '../../evaluate/workbook-results.js';
import { FIRST_ROW, MONTH_ROWS, SHEETS } from '../../layout.js';
import { formula, label } from '../cells.js';
import type { Cell, CellValue } from '../sheet-model.js';
import { figureValue } from './figure-values.js';
import { figureCell } from './heating-figures-rows.js';
import { shownFigure } from './heating-key-figures.js';
import { monthLetters } from './heating-months-rows.js';
import { HEATING_ROWS } from './heating-rows.js';
import { inCurrency, inCurrencyFormula } from './heating-sentences.js';

interface Shown {
  formula: (figure: string, i: number) => string;
  value: (figure: CellValue, results: WorkbookResults, i: number) => CellValue;
}

/** A mild month's use ÷ its few degree days says nothing of the house. */
const onColdMonths: Shown = {
  formula: (figure, i) =>
    `IF(ISNUMBER(${figure}),IF(${worked('degreeDaysUsed', i)}>=${worked('days', i)},${figure},""),"")`,
  value: (figure, r, i) =>
    typeof figure === 'number' && Number(monthAt(r, i, 'degreeDaysUsed')) >= Number(monthAt(r, i, 'days'))
      ? figure
      : '',
};

const OVER_TWICE = 'over 200 %';
/** No boiler comes near such an efficiency: the figure itself would only distract. */
const upToTwice: Shown = {
  formula: (figure) => `IF(ISNUMBER(${figure}),IF(${figure}>2,"${OVER_TWICE}",${figure}),"")`,
  value: (figure) => (typeof figure === 'number' ? (figure > 2 ? OVER_TWICE : figure) : ''),
};

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

const monthAt = (results: WorkbookResults, i: number, key: string): CellValue =>
  results.heating.comparison.months[i]![key] ?? '';
const worked = (key: string, i: number): string =>
  absolute(SHEETS.heatingMonths, monthLetters(key), FIRST_ROW + i);

/** First row of a month, and the row of all months. */
export const MONTH_TABLE = {
  header: HEATING_ROWS.months + 1,
  first: HEATING_ROWS.months + 3,
  total: HEATING_ROWS.months + 3 + MONTH_ROWS,
} as const;

/** Month by month: what went in and came out, what it cost, what the boiler would have cost. */
export function monthTableCells(): Cell[] {
  const { header, first, total } = MONTH_TABLE;
  const heads = [
    ...COLUMNS,
    { letters: 'P', text: 'Verdict', unit: '' },
    { letters: 'Q', text: 'Rests on', unit: '' },
  ];
  return [
    ...heads.map(({ letters }, i) =>
      label(`${letters}${HEATING_ROWS.months}`, i === 0 ? 'Month by month' : '', 'section'),
    ),
    ...heads.flatMap(({ letters, text, unit }) => [
      label(`${letters}${header}`, text, /[APQ]/.test(letters) ? 'headerLeft' : 'header'),
      label(`${letters}${header + 1}`, unit, 'headerUnit'),
    ]),
    ...Array.from({ length: MONTH_ROWS }, (_, i) => i).flatMap((i) => [
      ...COLUMNS.map(({ letters, key, style, shown }) =>
        formula(
          `${letters}${first + i}`,
          shown?.formula(worked(key, i), i) ?? worked(key, i),
          (r) => shown?.value(monthAt(r, i, key), r, i) ?? monthAt(r, i, key),
          style,
        ),
      ),
      formula(
        `P${first + i}`,
        inCurrencyFormula(worked('monthVerdict', i)),
        (r) => inCurrency(String(monthAt(r, i, 'monthVerdict')), r),
        'text',
      ),
      formula(
        `Q${first + i}`,
        `IF(${worked('metersNote', i)}="",${worked('monthNote', i)},${worked('metersNote', i)})`,
        (r) => r.heating.months[i]!.metersNote || monthAt(r, i, 'monthNote'),
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
  const key = 'totalEqualCostEfficiency';
  return formula(
    at,
    upToTwice.formula(figureCell(key), 0),
    (r) => upToTwice.value(figureValue(r, key), r, 0),
    'totalPercent',
  );
}

const TOTAL_STYLES: Readonly<Record<string, StyleName>> = {
  B: 'totalCount',
  C: 'totalCount',
  D: 'totalRate',
  E: 'totalCount',
  M: 'totalPercent',
  N: 'totalSigned',
};
