import { roundMoneyFormula } from '../../charges/round-money.js';
import { NO_END_SERIAL } from '../evaluate/month-lines.js';
import type { WorkbookResults } from '../evaluate/workbook-results.js';
import { FIRST_ROW, MONTH_ROWS, SEED_ROW, SHEETS, TARIFF_COUNT } from '../layout.js';
import { formula, label } from './cells.js';
import { columnHeaders, sheetTop } from './column-headers.js';
import {
  CELL,
  DAY as D,
  dayColumn,
  HALF_HOUR as H,
  halfHourColumn,
  MONTH as M,
  monthColumn,
  PERIOD_ROW,
} from './columns.js';
import type { Cell, FormulaColumn, SheetModel } from './sheet-model.js';

type Text = Pick<FormulaColumn, 'label' | 'unit' | 'description' | 'style'>;

function column(
  letters: string,
  text: Text,
  formulaOf: FormulaColumn['formula'],
  values: FormulaColumn['values'],
): FormulaColumn {
  return { letters, firstRow: FIRST_ROW, rows: MONTH_ROWS, ...text, formula: formulaOf, values };
}

const number = (r: number): string => `ROW($${M.start}${r})-${FIRST_ROW - 1}`;
const fromDays = (letters: string) => (r: number) =>
  `SUMIFS(${dayColumn(letters)},${dayColumn(D.month)},${number(r)})`;
const fromHalfHours = (letters: string) => (r: number) =>
  `SUMIFS(${halfHourColumn(letters)},${halfHourColumn(H.month)},${number(r)})`;
/** A bill rounds on its line. */
const bill = (pence: (r: number) => string) => (r: number) => roundMoneyFormula(`${pence(r)}/100`);

function sharedColumns(): FormulaColumn[] {
  const start = `DATE(YEAR(${CELL.firstDay}),MONTH(${CELL.firstDay})+@-1,1)`;
  const count = { unit: 'count', style: 'count' } as const;
  const kwh = { unit: 'kWh', style: 'kwh' } as const;
  return [
    column(
      M.start,
      {
        label: 'Month',
        unit: 'first day',
        description: 'Every calendar month that the readings touch',
        style: 'month',
      },
      (r) => `IF(${CELL.firstDay}=0,0,IF(${start}<=${CELL.lastDay},${start},0))`.replaceAll('@', number(r)),
      (r) => r.months.start,
    ),
    column(
      M.selected,
      {
        label: 'In the period',
        unit: '1 or 0',
        description: 'Whether the chosen period takes the month in',
        style: 'integer',
      },
      (r) =>
        `IF($${M.start}${r}=0,0,IF(AND($${M.start}${r}>=${CELL.effectiveFrom},$${M.start}${r}<=${CELL.effectiveTo}),1,0))`,
      (r) => r.months.selected,
    ),
    column(
      M.days,
      {
        label: 'Days',
        unit: 'count',
        description: 'Calendar days of the readings in the month',
        style: 'count',
      },
      (r) => `COUNTIFS(${dayColumn(D.month)},${number(r)})`,
      (r) => r.months.days,
    ),
    column(
      M.expected,
      { label: 'Half-hours expected', description: 'By the clock', ...count },
      fromDays(D.expected),
      (r) => r.months.expected,
    ),
    column(
      M.metered,
      { label: 'Half-hours metered', description: 'With an import reading', ...count },
      fromDays(D.metered),
      (r) => r.months.metered,
    ),
    column(
      M.importKwh,
      { label: 'Import without battery', description: 'Sum of the month', ...kwh },
      fromDays(D.importKwh),
      (r) => r.months.importKwh,
    ),
    column(
      M.exportKwh,
      { label: 'Export without battery', description: 'Sum of the month', ...kwh },
      fromDays(D.exportKwh),
      (r) => r.months.exportKwh,
    ),
    column(
      M.demandKwh,
      { label: 'Demand', description: 'Sum of the month', ...kwh },
      fromDays(D.demandKwh),
      (r) => r.months.demandKwh,
    ),
  ];
}

function tariffColumns(tariff: number): FormulaColumn[] {
  const name = `tariff ${tariff + 1}`;
  const lines = (r: WorkbookResults) => r.tariffs[tariff]!.months;
  const money = { unit: '{major}', style: 'money' } as const;
  /** Import at its rate over the month: a column of costs would be worked out again, row by row, with every rate. */
  const costOf = (kwh: string) => (r: number) =>
    `SUMPRODUCT((${halfHourColumn(H.month)}=${number(r)})*${halfHourColumn(kwh)}*${halfHourColumn(H.unitRate(tariff))})`;
  return [
    column(
      M.energy(tariff),
      {
        label: `Energy, ${name}`,
        description: 'Unit rates × import, with VAT, rounded on the line',
        ...money,
      },
      bill(costOf(H.importKwh)),
      (r) => lines(r).energyPounds,
    ),
    column(
      M.standing(tariff),
      { label: `Standing charge, ${name}`, description: 'With VAT, rounded on the line', ...money },
      bill(fromDays(D.standing(tariff))),
      (r) => lines(r).standingPounds,
    ),
    column(
      M.exportCredit(tariff),
      { label: `Export credit, ${name}`, description: 'Rounded on the line', ...money },
      bill(fromDays(D.exportCredit(tariff))),
      (r) => lines(r).exportCreditPounds,
    ),
    column(
      M.total(tariff),
      { label: `Total, ${name}`, description: 'Energy + standing charge − export credit', ...money },
      (r) => `ROUND($${M.energy(tariff)}${r}+$${M.standing(tariff)}${r}-$${M.exportCredit(tariff)}${r},2)`,
      (r) => lines(r).totalPounds,
    ),
    column(
      M.offPeakKwh(tariff),
      { label: `Off-peak, ${name}`, unit: 'kWh', description: 'Import at the lowest rate', style: 'kwh' },
      fromHalfHours(H.offPeakKwh(tariff)),
      (r) => lines(r).offPeakKwh,
    ),
    column(
      M.offPeakCost(tariff),
      {
        label: `Off-peak cost, ${name}`,
        unit: '{minor}',
        description: 'Cost of that import',
        style: 'pence',
      },
      costOf(H.offPeakKwh(tariff)),
      (r) => lines(r).offPeakCostPence,
    ),
  ];
}

/** Sums over the chosen period, under the months. */
function periodCells(): Cell[] {
  const chosen = (letters: string): string => `SUMIFS(${ownColumn(letters)},${ownColumn(M.selected)},1)`;
  const cell = (
    letters: string,
    text: string,
    value: (r: WorkbookResults) => number,
    style: FormulaColumn['style'],
  ): Cell => formula(`${letters}${PERIOD_ROW}`, text, value, style);
  const cells: Cell[] = [
    label(`${M.start}${PERIOD_ROW}`, 'Chosen period', 'labelStrong'),
    cell(
      M.selected,
      `SUM(${ownColumn(M.selected)})`,
      (r) => r.months.selected.reduce((a, b) => a + b, 0),
      'integer',
    ),
    cell(M.days, chosen(M.days), (r) => r.period.days, 'count'),
    cell(M.expected, chosen(M.expected), (r) => r.period.expected, 'count'),
    cell(M.metered, chosen(M.metered), (r) => r.period.metered, 'count'),
    cell(M.importKwh, chosen(M.importKwh), (r) => r.period.importKwh, 'kwh'),
    cell(M.exportKwh, chosen(M.exportKwh), (r) => r.period.exportKwh, 'kwh'),
    cell(M.demandKwh, chosen(M.demandKwh), (r) => r.period.demandKwh, 'kwh'),
  ];
  for (let t = 0; t < TARIFF_COUNT; t++) {
    const sums = (r: WorkbookResults) => r.tariffs[t]!.sums;
    const pounds = (letters: string): string => `ROUND(${chosen(letters)},2)`;
    cells.push(
      cell(M.energy(t), pounds(M.energy(t)), (r) => sums(r).energy, 'moneyStrong'),
      cell(M.standing(t), pounds(M.standing(t)), (r) => sums(r).standing, 'moneyStrong'),
      cell(M.exportCredit(t), pounds(M.exportCredit(t)), (r) => sums(r).exportCredit, 'moneyStrong'),
      cell(M.total(t), pounds(M.total(t)), (r) => sums(r).total, 'moneyStrong'),
      cell(M.offPeakKwh(t), chosen(M.offPeakKwh(t)), (r) => sums(r).offPeakKwh, 'kwh'),
      cell(M.offPeakCost(t), chosen(M.offPeakCost(t)), (r) => sums(r).offPeakCost, 'pence'),
    );
  }
  return cells;
}

function ownColumn(letters: string): string {
  return monthColumn(letters);
}

/** The workings, one row a calendar month, with the bill lines of every tariff. */
export function monthsSheet(): SheetModel {
  const byTariff = Array.from({ length: TARIFF_COUNT }, (_, tariff) => tariffColumns(tariff));
  const columns = [
    ...sharedColumns(),
    ...[0, 1, 2, 3, 4, 5].flatMap((item) => byTariff.map((t) => t[item]!)),
  ];
  return {
    name: SHEETS.months,
    tab: 'workings',
    widths: Object.fromEntries(columns.map((c) => [c.letters, 13])),
    heights: { [FIRST_ROW - 3]: 48 },
    freeze: { columns: 1, rows: SEED_ROW },
    protected: true,
    landscape: true,
    printTitleRows: `${FIRST_ROW - 3}:${FIRST_ROW - 2}`,
    cells: [
      ...sheetTop(
        'Months',
        'Workings: one row a calendar month, with the bill lines of every tariff. Nothing to fill in.',
      ),
      label('A3', 'Period from', 'label'),
      formula(
        'B3',
        `IF(ISNUMBER(${CELL.fromMonth}),DATE(YEAR(${CELL.fromMonth}),MONTH(${CELL.fromMonth}),1),0)`,
        (r) => r.months.effectiveFrom,
        'date',
      ),
      label('A4', 'Period to', 'label'),
      formula(
        'B4',
        `IF(ISNUMBER(${CELL.toMonth}),DATE(YEAR(${CELL.toMonth}),MONTH(${CELL.toMonth}),1),${NO_END_SERIAL})`,
        (r) => r.months.effectiveTo,
        'date',
      ),
      ...columnHeaders(columns),
      ...periodCells(),
    ],
    formulaColumns: columns,
    inputColumns: [],
    conditional: [],
  };
}
