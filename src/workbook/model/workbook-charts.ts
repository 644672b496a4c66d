import { absolute, absoluteColumn } from '../cell-address.js';
import type { ChartSpec } from '../charts/chart-spec.js';
import { FIRST_ROW, LAST_MONTH_ROW, SEED_ROW, SHEETS, TARIFF_COUNT } from '../layout.js';
import { CHART_MONTHS, COST_BLOCK } from './chart-data-sheet.js';

const DATA = SHEETS.chartData;

/** The units that charts speak of; typed in the charts, because not every program links a chart's text to a cell. */
export interface ChartUnits {
  currency: string;
  minorUnit: string;
}

function costByTariff({ currency }: ChartUnits): ChartSpec {
  const last = COST_BLOCK.first + TARIFF_COUNT * COST_BLOCK.rowsEach - 2;
  const range = (letters: string): string => absoluteColumn(DATA, letters, COST_BLOCK.first, last);
  const series = (letters: string): ChartSpec['series'][number] => ({
    name: { ref: absolute(DATA, letters, COST_BLOCK.header) },
    categories: range(COST_BLOCK.label),
    values: range(letters),
  });
  return {
    sheet: SHEETS.answer,
    anchor: { fromCell: 'A15', toCell: 'J38' },
    kind: 'stackedBar',
    title: 'Cost of each tariff over the period, without and with the battery',
    altText:
      'Stacked bars, one or two a tariff: energy and standing charge add up, export credit is taken off. The cheapest tariff comes first.',
    categoryAxis: { title: 'Tariff' },
    valueAxis: { title: `Cost (${currency})`, numberFormat: '#,##0' },
    legend: 'bottom',
    series: [series(COST_BLOCK.energy), series(COST_BLOCK.standing), series(COST_BLOCK.exportCredit)],
  };
}

function costByMonth({ currency }: ChartUnits): ChartSpec {
  const range = (letters: string): string => absoluteColumn(DATA, letters, FIRST_ROW, LAST_MONTH_ROW);
  return {
    sheet: SHEETS.answer,
    anchor: { fromCell: 'A40', toCell: 'J60' },
    kind: 'line',
    title: 'Cost by month on each tariff',
    altText: 'Lines, one a tariff: its total for each calendar month of the readings.',
    categoryAxis: { title: 'Month' },
    valueAxis: { title: `Total (${currency} a month)`, numberFormat: '#,##0' },
    legend: 'bottom',
    series: Array.from({ length: TARIFF_COUNT }, (_, t) => ({
      name: { ref: absolute(DATA, CHART_MONTHS.total(t), SEED_ROW - 1) },
      categories: range(CHART_MONTHS.month),
      values: range(CHART_MONTHS.total(t)),
    })),
  };
}

/** Every chart of the workbook. */
export function workbookCharts(units: ChartUnits): ChartSpec[] {
  return [costByTariff(units), costByMonth(units)];
}
