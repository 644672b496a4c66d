import { absoluteColumn, sheetPrefix } from '../cell-address.js';
import { monthText } from '../evaluate/calendar-parts.js';
import { spreadsheetRound } from '../evaluate/spreadsheet-round.js';
import { sumSelected } from '../evaluate/tariff-totals.js';
import type { WorkbookResults } from '../evaluate/workbook-results.js';
import { FIRST_ROW, LAST_MONTH_ROW, MONTH_ROWS, SEED_ROW, SHEETS, TARIFF_COUNT } from '../layout.js';
import { CellError } from '../package/index.js';
import { BATTERY_MONTH } from './battery/battery-columns.js';
import { formula, label } from './cells.js';
import { sheetTop } from './column-headers.js';
import { MONTH as M, monthColumn } from './columns.js';
import { monthTextFormula, tariffRow } from './sentences.js';
import type { Cell, FormulaColumn, SheetModel } from './sheet-model.js';
import { TARIFF_ROW as T, tariffLetters } from './tariff-rows.js';

/** Leaves a gap in a chart. */
export const NO_POINT = new CellError('#N/A');

/** Columns of the chart data: cost by month for each tariff. */
export const CHART_MONTHS = {
  month: 'A',
  total: (tariff: number) =>
    tariffLetters(tariff).replace(/./, (c) => String.fromCharCode(c.charCodeAt(0) - 1)),
} as const;

const MONTHS = sheetPrefix(SHEETS.months);
const tariffs = Array.from({ length: TARIFF_COUNT }, (_, t) => t);

function monthColumns(): FormulaColumn[] {
  const column = (
    letters: string,
    text: Pick<FormulaColumn, 'label' | 'unit' | 'description' | 'style'>,
    formulaOf: FormulaColumn['formula'],
    values: FormulaColumn['values'],
  ): FormulaColumn => ({
    letters,
    firstRow: FIRST_ROW,
    rows: MONTH_ROWS,
    ...text,
    formula: formulaOf,
    values,
  });
  const start = (r: number): string => `${MONTHS}$${M.start}${r}`;
  return [
    column(
      CHART_MONTHS.month,
      {
        label: 'Month',
        unit: 'name',
        description: 'Label of the month; blank on unused rows',
        style: 'text',
      },
      (r) => `IF(${start(r)}=0,"",${monthTextFormula(start(r))})`,
      (results) => Array.from(results.months.start, (serial) => (serial === 0 ? '' : monthText(serial))),
    ),
    ...tariffs.map((t) =>
      column(
        CHART_MONTHS.total(t),
        {
          label: `Total, tariff ${t + 1}`,
          unit: '{major}',
          description: 'Total of the month; no point where there is no month or no tariff',
          style: 'money',
        },
        (r) =>
          `IF(OR(${start(r)}=0,${SHEETS.tariffs}!$${tariffLetters(t)}$${T.name}=""),NA(),${MONTHS}$${M.total(t)}${r})`,
        (results: WorkbookResults) =>
          Array.from(results.months.start, (serial, m) =>
            serial === 0 || !results.tariffs[t]!.totals.named
              ? NO_POINT
              : results.tariffs[t]!.months.totalPounds[m]!,
          ),
      ),
    ),
  ];
}

/** First row of the block of costs by tariff: two rows a tariff, without and with battery. */
export const COST_BLOCK = {
  header: FIRST_ROW + MONTH_ROWS + 6,
  first: FIRST_ROW + MONTH_ROWS + 7,
  label: 'A',
  energy: 'B',
  standing: 'C',
  exportCredit: 'D',
  rowsEach: 2,
} as const;

function tariffAt(results: WorkbookResults, rank: number): number {
  return results.tariffs.findIndex((tariff) => tariff.totals.rank === rank);
}

/** One bar of the cost chart: a formula and a value for each part, given the tariff's place. */
interface Bar {
  suffix: string;
  energy: (place: string) => string;
  exportCredit: (place: string) => string;
  energyOf: (results: WorkbookResults, tariff: number) => number;
  exportOf: (results: WorkbookResults, tariff: number) => number;
}

const WITHOUT: Bar = {
  suffix: '',
  energy: (place) => `INDEX(${tariffRow(T.energy)},1,${place})`,
  exportCredit: (place) => `INDEX(${tariffRow(T.exportCredit)},1,${place})`,
  energyOf: (results, t) => results.tariffs[t]!.totals.energyPounds ?? 0,
  exportOf: (results, t) => results.tariffs[t]!.totals.exportCreditPounds ?? 0,
};

/** Rows with each tariff's energy and export credit with the battery, over the chosen period. */
const WITH_BATTERY_ROW = { energy: COST_BLOCK.first - 6, exportCredit: COST_BLOCK.first - 5 } as const;
const ownRow = (row: number): string =>
  `$${CHART_MONTHS.total(0)}$${row}:$${CHART_MONTHS.total(TARIFF_COUNT - 1)}$${row}`;

const WITH_BATTERY: Bar = {
  suffix: ' + battery',
  energy: (place) => `INDEX(${ownRow(WITH_BATTERY_ROW.energy)},1,${place})`,
  exportCredit: (place) => `INDEX(${ownRow(WITH_BATTERY_ROW.exportCredit)},1,${place})`,
  energyOf: (results, t) => chosenPounds(results, results.battery.tariffs[t]!.months.energyPounds),
  exportOf: (results, t) => chosenPounds(results, results.battery.tariffs[t]!.months.exportCreditPounds),
};

function chosenPounds(results: WorkbookResults, byMonth: Float64Array): number {
  return spreadsheetRound(sumSelected(results.months, byMonth), 2);
}

function withBatteryCells(): Cell[] {
  const chosen = (letters: string): string =>
    `ROUND(SUMIFS(${absoluteColumn(SHEETS.batteryMonths, letters, FIRST_ROW, LAST_MONTH_ROW)},${monthColumn(M.selected)},1),2)`;
  return [
    label(`A${WITH_BATTERY_ROW.energy}`, 'Energy with battery, chosen period', 'label'),
    label(`A${WITH_BATTERY_ROW.exportCredit}`, 'Export credit with battery, chosen period', 'label'),
    ...tariffs.flatMap((t) => [
      formula(
        `${CHART_MONTHS.total(t)}${WITH_BATTERY_ROW.energy}`,
        chosen(BATTERY_MONTH.energy(t)),
        (r) => WITH_BATTERY.energyOf(r, t),
        'money',
      ),
      formula(
        `${CHART_MONTHS.total(t)}${WITH_BATTERY_ROW.exportCredit}`,
        chosen(BATTERY_MONTH.exportCredit(t)),
        (r) => WITH_BATTERY.exportOf(r, t),
        'money',
      ),
    ]),
  ];
}

function barCells(rank: number, bar: Bar, row: number): Cell[] {
  const place = `MATCH(${rank},${tariffRow(T.rank)},0)`;
  const orBlank = (text: string, blank: string): string => `IF(ISNUMBER(${place}),${text},${blank})`;
  const has = (results: WorkbookResults, value: (t: number) => number): number =>
    tariffAt(results, rank) < 0 ? 0 : value(tariffAt(results, rank));
  return [
    formula(
      `${COST_BLOCK.label}${row}`,
      orBlank(`INDEX(${tariffRow(T.name)},1,${place})&"${bar.suffix}"`, '""'),
      (r) =>
        tariffAt(r, rank) < 0 ? '' : `${String(r.inputs.tariffs[tariffAt(r, rank)]!.name)}${bar.suffix}`,
      'text',
    ),
    formula(
      `${COST_BLOCK.energy}${row}`,
      orBlank(bar.energy(place), '0'),
      (r) => has(r, (t) => bar.energyOf(r, t)),
      'money',
    ),
    formula(
      `${COST_BLOCK.standing}${row}`,
      orBlank(`INDEX(${tariffRow(T.standing)},1,${place})`, '0'),
      (r) => has(r, (t) => r.tariffs[t]!.totals.standingPounds ?? 0),
      'money',
    ),
    formula(
      `${COST_BLOCK.exportCredit}${row}`,
      orBlank(`0-${bar.exportCredit(place)}`, '0'),
      (r) => has(r, (t) => 0 - bar.exportOf(r, t)),
      'money',
    ),
  ];
}

/** Figures in the shape that the charts take; nothing here is worked out anew. */
export function chartDataSheet(): SheetModel {
  const columns = monthColumns();
  const headers: Cell[] = columns.flatMap((column, i) => [
    i === 0
      ? label(`${column.letters}${SEED_ROW - 1}`, column.label, 'header')
      : formula(
          `${column.letters}${SEED_ROW - 1}`,
          `IF(${SHEETS.tariffs}!$${tariffLetters(i - 1)}$${T.name}="","–",${SHEETS.tariffs}!$${tariffLetters(i - 1)}$${T.name})`,
          (r) => r.inputs.tariffs[i - 1]!.name ?? '–',
          'header',
        ),
    label(`${column.letters}${SEED_ROW}`, column.unit, 'headerUnit'),
  ]);
  const bars = tariffs.flatMap((t) => {
    const row = COST_BLOCK.first + t * COST_BLOCK.rowsEach;
    return [...barCells(t + 1, WITHOUT, row), ...barCells(t + 1, WITH_BATTERY, row + 1)];
  });
  return {
    name: SHEETS.chartData,
    tab: 'workings',
    widths: Object.fromEntries(columns.map((c) => [c.letters, c.letters === 'A' ? 30 : 14])),
    heights: { [SEED_ROW - 1]: 32 },
    freeze: { columns: 1, rows: 2 },
    protected: true,
    landscape: true,
    cells: [
      ...sheetTop('Chart data', 'Workings: figures in the shape that the charts take. Nothing to fill in.'),
      label(`A${SEED_ROW - 2}`, 'Cost by month', 'section'),
      ...headers,
      label(`A${COST_BLOCK.header - 1}`, 'Cost by tariff, cheapest first', 'section'),
      label(`${COST_BLOCK.label}${COST_BLOCK.header}`, 'Tariff', 'headerLeft'),
      label(`${COST_BLOCK.energy}${COST_BLOCK.header}`, 'Energy', 'header'),
      label(`${COST_BLOCK.standing}${COST_BLOCK.header}`, 'Standing charge', 'header'),
      label(`${COST_BLOCK.exportCredit}${COST_BLOCK.header}`, 'Export credit', 'header'),
      ...withBatteryCells(),
      ...bars,
    ],
    formulaColumns: columns,
    inputColumns: [],
    conditional: [],
  };
}
