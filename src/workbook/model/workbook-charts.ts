import type { Column } from '../book/terms.js';
import { absolute, absoluteColumn } from '../cell-address.js';
import type { ChartSpec } from '../charts/chart-spec.js';
import { SIZES_KWH } from '../inputs/battery-cells.js';
import { FIRST_ROW, SEED_ROW, SHEETS, TARIFF_COUNT } from '../layout.js';
import { ANSWER_CHARTS } from './answer-sheet.js';
import { REAL_COST, SIZING, sizingRows } from './battery/battery-rows.js';
import { LAST_PROFILE_ROW, LAST_STEP_ROW, PROFILE } from './battery/profile-sheet.js';
import type { Book } from './book.js';
import { CHART_MONTHS, COST_BLOCK, chartDataRows } from './chart-data-sheet.js';
import { heatingDays } from './heating/heating-days.js';
import { CURVE_KEYS, figureCell } from './heating/heating-figures-rows.js';
import { monthTable } from './heating/heating-month-table.js';
import { heatingRows } from './heating/heating-rows.js';
import { WHEN_CHART } from './when-sheet.js';
import { SEASONS, WHEN_LETTERS } from './when-workings.js';

const DATA = SHEETS.chartData;

/** The units that charts speak of; typed in the charts, because not every program links a chart's text to a cell. */
export interface ChartUnits {
  currency: string;
  minorUnit: string;
}

/** A stretch of rows between two columns. */
function beside(from: string, to: string, rows: { first: number; last: number }): ChartSpec['anchor'] {
  return { fromCell: `${from}${rows.first}`, toCell: `${to}${rows.last}` };
}

function costByTariff(book: Book, { currency }: ChartUnits): ChartSpec {
  const { header, first, last } = chartDataRows(book);
  const range = (letters: string): string => absoluteColumn(DATA, letters, first, last);
  const series = (letters: string): ChartSpec['series'][number] => ({
    name: { ref: absolute(DATA, letters, header) },
    categories: range(COST_BLOCK.label),
    values: range(letters),
    labels: { numberFormat: '#,##0' },
  });
  return {
    sheet: SHEETS.answer,
    anchor: beside('I', 'P', ANSWER_CHARTS.beside),
    kind: 'clusteredBar',
    title: `Cost of each tariff (${currency})`,
    altText:
      'Bars, one or two a tariff, with their figures: the total that the ranking goes by and, where a battery is entered, the total without it. The cheapest tariff comes first; before it the bill as metered, where that is another.',
    categoryAxis: { labelEvery: 1 },
    valueAxis: { title: `Cost (${currency})`, numberFormat: '#,##0', min: 0, hidden: true },
    legend: 'top',
    series: [series(COST_BLOCK.total), { ...series(COST_BLOCK.without), look: 'sky' }],
  };
}

/** A row of dots a tariff, a dot a month: whether it is always on one side of today's shows at a glance. */
function againstTodays({ shape }: Book, { currency }: ChartUnits): ChartSpec {
  const range = (letters: string): string =>
    absoluteColumn(DATA, letters, FIRST_ROW, FIRST_ROW + shape.monthRows - 1);
  return {
    sheet: SHEETS.answer,
    anchor: beside('A', 'P', ANSWER_CHARTS.below),
    kind: 'scatter',
    title: 'Each month against today’s tariff',
    altText:
      'Rows of dots, one row a tariff by its rank, one dot a month: how much less (left of 0) or more it costs than today’s tariff in that month. Today’s own dots stand at 0.',
    categoryAxis: { title: `Less or more than today’s tariff (${currency} a month)`, numberFormat: '#,##0' },
    valueAxis: { title: 'Rank', numberFormat: '0;0;', min: -TARIFF_COUNT, max: 0, majorUnit: 1 },
    legend: 'bottom',
    series: Array.from({ length: TARIFF_COUNT }, (_, i) => ({
      name: { ref: absolute(DATA, CHART_MONTHS.against(i + 1), SEED_ROW - 1) },
      categories: range(CHART_MONTHS.against(i + 1)),
      values: range(CHART_MONTHS.rank(i + 1)),
      plot: 'points' as const,
    })),
  };
}

function averageDay({ minorUnit }: ChartUnits): ChartSpec {
  const range = (letters: string, last: number): string =>
    absoluteColumn(SHEETS.profile, letters, FIRST_ROW, last);
  const time = range(PROFILE.start, LAST_PROFILE_ROW);
  const kwh = (letters: string, name: string): ChartSpec['series'][number] => ({
    name,
    categories: time,
    values: range(letters, LAST_PROFILE_ROW),
    plot: 'joined',
  });
  return {
    sheet: SHEETS.battery,
    anchor: beside('K', 'O', { first: REAL_COST.heading + 1, last: REAL_COST.heading + 19 }),
    kind: 'scatter',
    title: 'The average day on the chosen tariff',
    altText:
      'Through the day: what the home uses and what it buys with the battery, in kWh a half-hour, and the unit rate as steps on the right axis. The battery charges where buying stands above use.',
    categoryAxis: { title: 'Time of day', numberFormat: 'hh:mm', min: 0, max: 1, majorUnit: 0.125 },
    valueAxis: { title: 'Energy (kWh a half-hour)', numberFormat: '0.0' },
    secondaryAxis: { title: `Unit rate (${minorUnit}/kWh)`, numberFormat: '0' },
    legend: 'bottom',
    series: [
      kwh(PROFILE.demand, 'Demand'),
      kwh(PROFILE.importWith, 'Bought, with the battery'),
      {
        name: 'Unit rate',
        categories: range(PROFILE.stepTime, LAST_STEP_ROW),
        values: range(PROFILE.stepRate, LAST_STEP_ROW),
        plot: 'joined',
        axis: 'right',
      },
    ],
  };
}

function averageDayBySeason({ minorUnit }: ChartUnits): ChartSpec {
  const range = (letters: string): string =>
    absoluteColumn(SHEETS.profile, letters, FIRST_ROW, LAST_PROFILE_ROW);
  const time = range(PROFILE.start);
  return {
    sheet: SHEETS.when,
    anchor: { fromCell: WHEN_CHART.from, toCell: WHEN_CHART.to },
    kind: 'combo',
    title: 'Bought on the average day of each season, against the unit rate of the tariff looked at',
    altText:
      'Lines through the day, one a season: what the home buys in each half-hour, in kWh, as metered. Behind them, as columns on the left axis, the unit rate of the tariff that Battery looks at.',
    categoryAxis: { title: 'Time of day', numberFormat: 'hh:mm', holds: 'number', labelEvery: 4 },
    valueAxis: { title: `Unit rate (${minorUnit}/kWh)`, numberFormat: '0', min: 0 },
    secondaryAxis: { title: 'Bought (kWh a half-hour)', numberFormat: '0.0', min: 0 },
    legend: 'bottom',
    series: [
      { name: 'Unit rate', categories: time, values: range(PROFILE.unitRate), plot: 'steps', look: 'yellow' },
      ...SEASONS.map((name, season): ChartSpec['series'][number] => ({
        name,
        categories: time,
        values: range(WHEN_LETTERS.season(season)),
        plot: 'line',
        axis: 'right',
        marker: 'none',
        look: SEASON_LOOKS[season] ?? 'ink',
      })),
    ],
  };
}

/** Cold seasons blue, warm ones orange; their dashes differ too. */
const SEASON_LOOKS = ['blue', 'green', 'vermilion', 'ink'] as const;

function paybackBySize({ shape }: Book): ChartSpec {
  const { first, status } = sizingRows(shape);
  // From the first size that is a battery on.
  const range = (letters: string): string =>
    absoluteColumn(SHEETS.battery, letters, first + 1, first + SIZES_KWH.length - 1);
  return {
    sheet: SHEETS.battery,
    anchor: beside('J', 'O', { first: status + 1, last: status + 23 }),
    kind: 'clusteredColumn',
    title: 'Years until a battery pays back, by size',
    altText:
      'A column for each usable capacity: installed price ÷ what the battery saves a year before wear, by the rule, on the tariff looked at. No column where it saves nothing, or where no price is typed: the line above says which.',
    categoryAxis: { title: 'Usable capacity (kWh)', numberFormat: '0', holds: 'number', labelEvery: 1 },
    valueAxis: { title: 'Simple payback (years)', numberFormat: '0', min: 0 },
    legend: 'bottom',
    series: [
      {
        name: 'Simple payback, years',
        categories: range(SIZING.size),
        values: range(SIZING.payback),
      },
    ],
  };
}

function heatPumpAgainstBoiler(book: Book, { currency }: ChartUnits): ChartSpec {
  const { first, total } = monthTable(book);
  const { keyFigures } = heatingRows(book.shape);
  const range = (letters: string): string => absoluteColumn(SHEETS.heating, letters, first, total - 1);
  const side = (letters: string, name: string): ChartSpec['series'][number] => ({
    name,
    categories: range('A'),
    values: range(letters),
  });
  return {
    sheet: SHEETS.heating,
    anchor: beside('E', 'N', { first: keyFigures, last: keyFigures + 15 }),
    kind: 'clusteredColumn',
    title: 'Heat pump against the boiler, month by month',
    altText:
      'Columns, three a month: what the heat pump cost, and what the boiler would have cost by last year’s gas meter and by the heat delivered.',
    categoryAxis: { title: 'Month', numberFormat: 'mmm yy', holds: 'number' },
    valueAxis: { title: `Cost (${currency} a month)`, numberFormat: '0' },
    legend: 'bottom',
    series: [
      side('J', 'Heat pump'),
      side('K', 'Boiler, by last year’s gas'),
      side('L', 'Boiler, by heat delivered'),
    ],
  };
}

function useAgainstDegreeDays(book: Book): ChartSpec {
  const { year } = heatingRows(book.shape);
  const { chartDegreeDays, chartKwh } = heatingDays(book);
  const days = ({ sheet, letters, firstRow, lastRow }: Column): string =>
    absoluteColumn(sheet, letters, firstRow, lastRow);
  const ends = (from: string, to: string): string =>
    `${figureCell(from)}:${figureCell(to).replace(/^.*!/, '')}`;
  return {
    sheet: SHEETS.heating,
    anchor: beside('E', 'N', { first: year, last: year + 15 }),
    kind: 'scatter',
    title: 'Daily heat-pump use against degree days',
    altText:
      'A point a day: the colder the day, the more the heat pump uses. The curve starts at the average of the days without heating, hot water and standby, and grows faster than the cold, as the COP falls. Words above the chart say how it meets the coldest days.',
    categoryAxis: { title: 'Degree days of the day (°C·day)', numberFormat: '0', min: 0 },
    valueAxis: { title: 'Heat pump (kWh a day)', numberFormat: '0', min: 0 },
    legend: 'bottom',
    series: [
      { name: 'A day', categories: days(chartDegreeDays), values: days(chartKwh), plot: 'points' },
      {
        name: 'What it takes: hot water, and heating that grows with the cold',
        categories: ends(CURVE_KEYS.degreeDays[0] ?? '', CURVE_KEYS.degreeDays.at(-1) ?? ''),
        values: ends(CURVE_KEYS.kwh[0] ?? '', CURVE_KEYS.kwh.at(-1) ?? ''),
        plot: 'joined',
      },
    ],
  };
}

/** Every chart of the workbook. */
export function workbookCharts(book: Book, units: ChartUnits): ChartSpec[] {
  return [
    costByTariff(book, units),
    againstTodays(book, units),
    averageDayBySeason(units),
    averageDay(units),
    paybackBySize(book),
    heatPumpAgainstBoiler(book, units),
    useAgainstDegreeDays(book),
  ];
}
