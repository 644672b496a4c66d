import { MAX_RATE_PERIODS } from '../../tariffs/tariff.js';
import { absoluteColumn, sheetPrefix } from '../cell-address.js';
import {
  DAY_ROWS,
  FIRST_ROW,
  LAST_DAY_ROW,
  LAST_READING_ROW,
  SEED_ROW,
  SHEETS,
  TARIFF_COUNT,
} from '../layout.js';
import { formula, label } from './cells.js';
import { columnHeaders, sheetTop } from './column-headers.js';
import { CELL, CLOCK, clockColumn, DAY as D, HALF_HOUR as H, halfHourColumn } from './columns.js';
import { periodBlock, RATES } from './rates-rows.js';
import type { FormulaColumn, SheetModel } from './sheet-model.js';
import { tariffLetters } from './tariff-rows.js';

const HALF_HOURS = sheetPrefix(SHEETS.halfHours);

function column(
  letters: string,
  text: Pick<FormulaColumn, 'label' | 'unit' | 'description' | 'style'>,
  formulaOf: FormulaColumn['formula'],
  values: FormulaColumn['values'],
): FormulaColumn {
  return { letters, firstRow: FIRST_ROW, rows: DAY_ROWS, ...text, formula: formulaOf, values };
}

/** Sum of a half-hourly line over the day of the row. */
function sumOfDay(letters: string): FormulaColumn['formula'] {
  return (r) =>
    `IF($${D.date}${r}=0,0,SUMIFS(${halfHourColumn(letters)},${halfHourColumn(H.day)},$${D.date}${r}-${CELL.firstDay}+1))`;
}

function sharedColumns(): FormulaColumn[] {
  const kwh = { unit: 'kWh', style: 'kwhFine' } as const;
  return [
    column(
      D.date,
      {
        label: 'Day',
        unit: 'local date',
        description: 'Every day from the first reading to the last',
        style: 'date',
      },
      (r) =>
        `IF(${CELL.firstDay}=0,0,IF(${CELL.firstDay}+ROW()-${FIRST_ROW}<=${CELL.lastDay},${CELL.firstDay}+ROW()-${FIRST_ROW},0))`.replace(
          /ROW\(\)/g,
          `ROW($A${r})`,
        ),
      (r) => r.days.date,
    ),
    column(
      D.month,
      {
        label: 'Month',
        unit: 'row of Months',
        description: 'Calendar month counted from the first',
        style: 'integer',
      },
      (r) =>
        `IF($${D.date}${r}=0,0,(YEAR($${D.date}${r})-YEAR(${CELL.firstDay}))*12+MONTH($${D.date}${r})-MONTH(${CELL.firstDay})+1)`,
      (r) => r.days.monthNumber,
    ),
    column(
      D.expected,
      {
        label: 'Half-hours expected',
        unit: 'count',
        description: '48, or 46 and 50 where the clock changes by an hour',
        style: 'integer',
      },
      (r) =>
        `IF($${D.date}${r}=0,0,48+SUMIFS(${clockColumn(CLOCK.gained)},${clockColumn(CLOCK.day)},$${D.date}${r})/30)`,
      (r) => r.days.expected,
    ),
    column(
      D.metered,
      {
        label: 'Half-hours metered',
        unit: 'count',
        description: 'Half-hours with an import reading',
        style: 'integer',
      },
      sumOfDay(H.metered),
      (r) => r.days.metered,
    ),
    column(
      D.importKwh,
      { label: 'Import without battery', description: 'Sum of the day’s half-hours', ...kwh },
      sumOfDay(H.importKwh),
      (r) => r.days.importKwh,
    ),
    column(
      D.exportKwh,
      { label: 'Export without battery', description: 'Sum of the day’s half-hours', ...kwh },
      sumOfDay(H.exportKwh),
      (r) => r.days.exportKwh,
    ),
    column(
      D.demandKwh,
      { label: 'Demand', description: 'Sum of the day’s half-hours', ...kwh },
      sumOfDay(H.demandKwh),
      (r) => r.days.demandKwh,
    ),
  ];
}

function tariffColumns(tariff: number): FormulaColumn[] {
  const c = tariffLetters(tariff);
  const number = tariff + 1;
  const later = absoluteColumn(
    SHEETS.rates,
    c,
    RATES.firstValidFrom + 1,
    RATES.firstValidFrom + MAX_RATE_PERIODS - 1,
  );
  const ofPeriod = (firstRow: number, r: number): string =>
    `INDEX(${periodBlock(tariff, firstRow)},$${D.ratePeriod(tariff)}${r})`;
  const lines = (r: Parameters<FormulaColumn['values']>[0]) => r.tariffs[tariff]!.days;
  return [
    column(
      D.ratePeriod(tariff),
      {
        label: `Rates in force, tariff ${number}`,
        unit: 'set, from 1',
        description: 'Which set of rates holds on the day',
        style: 'integer',
      },
      (r) => `IF($${D.date}${r}=0,0,1+SUMPRODUCT((${later}>0)*(${later}<=$${D.date}${r})))`,
      (r) => lines(r).ratePeriod,
    ),
    column(
      D.standing(tariff),
      {
        label: `Standing charge, tariff ${number}`,
        unit: '{minor}',
        description: 'With VAT; runs every calendar day, whatever was metered',
        style: 'pence',
      },
      (r) => `IF($${D.date}${r}=0,0,${ofPeriod(RATES.firstStanding, r)})`,
      (r) => lines(r).standingPence,
    ),
    column(
      D.exportCredit(tariff),
      {
        label: `Export credit, tariff ${number}`,
        unit: '{minor}',
        description: 'Export without battery × export rate; carries no VAT',
        style: 'pence',
      },
      (r) => `IF($${D.date}${r}=0,0,$${D.exportKwh}${r}*${ofPeriod(RATES.firstExport, r)})`,
      (r) => lines(r).exportCreditPence,
    ),
  ];
}

/** The workings, one row a calendar day. */
export function daysSheet(): SheetModel {
  const byTariff = Array.from({ length: TARIFF_COUNT }, (_, tariff) => tariffColumns(tariff));
  const columns = [...sharedColumns(), ...[0, 1, 2].flatMap((item) => byTariff.map((t) => t[item]!))];
  return {
    name: SHEETS.days,
    tab: 'workings',
    widths: Object.fromEntries(columns.map((c) => [c.letters, 13])),
    heights: { [FIRST_ROW - 3]: 48 },
    freeze: { columns: 1, rows: SEED_ROW },
    protected: true,
    landscape: true,
    printTitleRows: `${FIRST_ROW - 3}:${FIRST_ROW - 2}`,
    cells: [
      ...sheetTop('Days', 'Workings: one row a calendar day. Nothing to fill in.'),
      label('A3', 'First day', 'label'),
      formula(
        'B3',
        `IFERROR(INT(INDEX(${halfHourColumn(H.start)},MATCH(1,${halfHourColumn(H.used)},0))),0)`,
        (r) => r.halfHours.firstDay,
        'date',
      ),
      label('A4', 'Last day', 'label'),
      formula(
        'B4',
        `IF(B3=0,0,INT(MAX(${HALF_HOURS}$${H.start}$${FIRST_ROW}:$${H.start}$${LAST_READING_ROW})))`,
        (r) => r.halfHours.lastDay,
        'date',
      ),
      ...columnHeaders(columns),
    ],
    formulaColumns: columns,
    inputColumns: [],
    conditional: [
      {
        range: `${D.date}${FIRST_ROW}:${D.metered}${LAST_DAY_ROW}`,
        formula: `$${D.metered}${FIRST_ROW}<$${D.expected}${FIRST_ROW}`,
        style: 'bad',
      },
    ],
  };
}
