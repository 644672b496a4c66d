import ExcelJS from 'exceljs';
import { parseReference } from '../../../src/workbook/charts/cell-reference.js';
import type { CachedValues, ChartSpec } from '../../../src/workbook/charts/chart-spec.js';
import { parseRangeRef } from '../../../src/workbook/package/cell-reference.js';

type Row = (string | number | Date | null)[];

const TARIFFS = ['Flat', 'Night saver', 'Two-rate', 'Car nights', 'Heat windows', 'Half-hourly'];
const MONTHS = 14;
const serial = (year: number, month: number) => Date.UTC(year, month, 1) / 86400000 + 25569;

/** A smooth wave, so that the demo needs no random numbers. */
const wave = (at: number, period: number, phase = 0) => Math.sin(((at - phase) / period) * 2 * Math.PI);
const pence = (pounds: number) => Math.round(pounds * 100) / 100;

function costRows(): Row[] {
  return TARIFFS.flatMap((name, index): Row[] => {
    const energy = 1480 - index * 140;
    const withBattery = energy * (0.94 - index * 0.07);
    const standing = 165 + index * 9;
    return [
      [name, energy, standing, -40, energy + standing - 40],
      [
        `${name}, battery`,
        pence(withBattery),
        standing,
        -95 - index * 12,
        pence(withBattery + standing - 95 - index * 12),
      ],
      ...(index === TARIFFS.length - 1 ? [] : [[null, null, null, null, null]]),
    ];
  });
}

function dayRows(): Row[] {
  return Array.from({ length: 48 }, (_, slot): Row => {
    const hour = slot / 2;
    const demand =
      0.45 + 0.25 * wave(hour, 12, 3) + (hour >= 16 && hour < 20 ? 0.55 : 0) + (hour < 5 ? 1.2 : 0);
    const cheap = hour < 5 || (hour >= 13 && hour < 15);
    const dear = hour >= 16 && hour < 19;
    const afterBattery = cheap ? demand + 0.9 : dear ? 0.05 : Math.max(0, demand - 0.35);
    return [slot / 48, pence(demand), pence(afterBattery), cheap ? 12.5 : dear ? 38.2 : 24.6];
  });
}

/** The rate twice for each half-hour, at its beginning and its end: joined, the points are steps. */
function stepRows(): Row[] {
  return dayRows().flatMap(([time, , , rate]): Row[] => [
    [time ?? null, rate ?? null],
    [Number(time) + 1 / 48, rate ?? null],
  ]);
}

function monthRows(): Row[] {
  return Array.from({ length: MONTHS }, (_, month): Row => {
    const cold = 1 + 0.75 * wave(month, 12, -3);
    const costs = TARIFFS.map((_, index) =>
      month === 8 ? null : pence(55 + cold * (105 - index * 9) + index * 2),
    );
    return [
      serial(2023, month),
      ...costs,
      pence(15 + cold * 62),
      pence(22 + cold * 71),
      pence(19 + cold * 80),
    ];
  });
}

function heatRows(): Row[] {
  return Array.from({ length: 400 }, (_, day): Row => {
    const degreeDays = Math.max(0, 7 + 7.5 * wave(day, 365, -90) + 2 * wave(day, 9.7) + 1.3 * wave(day, 3.1));
    const use = 2.4 + 1.55 * degreeDays + 1.8 * wave(day, 5.3) * wave(day, 17);
    return [pence(degreeDays), pence(Math.max(0.5, use))];
  });
}

const BLOCKS: Record<string, Row[]> = {
  Costs: [['Tariff', 'Energy', 'Standing charge', 'Export credit', 'To pay'], ...costRows()],
  'Average day': [['Time', 'Demand', 'Import after battery', 'Unit rate'], ...dayRows()],
  Months: [
    ['Month', ...TARIFFS, 'Heat pump', 'Boiler, from metered gas', 'Boiler, from heat delivered'],
    ...monthRows(),
  ],
  Steps: [['Time', 'Unit rate'], ...stepRows()],
  Heat: [['Degree days', 'Heat pump use', 'Line from', 'Line at'], ...heatRows()],
  Fit: [
    ['Degree days', 'Fitted line'],
    [0, 2.4],
    [18, 30.3],
  ],
  Capacity: [
    ['Capacity', 'Cost'],
    ...[0, 2.5, 5, 7.5, 10, 12.5, 15, 20].map((kwh): Row => [kwh, pence(820 + 520 * Math.exp(-kwh / 5))]),
  ],
  Answer: [['Cost of a year on each tariff, without and with the battery (12 months to December)']],
};

/** What the cells of the demo hold, as its charts' cached values. */
export const demoValues: CachedValues = (ref) => {
  const { sheet, cells } = parseReference(ref);
  const { firstRow, firstColumn, lastRow, lastColumn } = parseRangeRef(cells);
  const values: (string | number | null)[] = [];
  for (let row = firstRow; row <= lastRow; row += 1) {
    for (let column = firstColumn; column <= lastColumn; column += 1) {
      values.push((BLOCKS[sheet]?.[row - 1]?.[column - 1] ?? null) as string | number | null);
    }
  }
  return values;
};

/** A workbook with comments on its chart sheet, a hidden workings sheet and no chart yet. */
export async function demoWorkbook(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  workbook.created = new Date(Date.UTC(2024, 0, 1));
  workbook.modified = workbook.created;
  const charts = workbook.addWorksheet('Charts', {
    pageSetup: { orientation: 'portrait', fitToPage: true, fitToWidth: 1, fitToHeight: 0 },
  });
  charts.getCell('A1').value = 'Demo of every chart';
  charts.getCell('A1').note = 'A comment: kept through a legacy drawing.';
  charts.headerFooter.oddFooter = '&P';
  for (const [name, rows] of Object.entries(BLOCKS)) {
    const sheet = workbook.addWorksheet(name, name === 'Fit' ? { state: 'hidden' } : {});
    for (const row of rows) sheet.addRow(row);
  }
  workbook.getWorksheet('Average day')!.getColumn(1).numFmt = 'hh:mm';
  workbook.getWorksheet('Months')!.getColumn(1).numFmt = 'mmm yy';
  workbook.getWorksheet('Answer')!.getCell('A3').note = 'Another comment.';
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}

const column = (sheet: string, letter: string, rows: number) =>
  `${/^\w+$/.test(sheet) ? sheet : `'${sheet.replaceAll("'", "''")}'`}!$${letter}$2:$${letter}$${rows + 1}`;
const head = (sheet: string, letter: string) => ({ ref: column(sheet, letter, 0).replace(/\$2:.*$/, '$1') });
const place = (index: number) => ({
  fromCell: index % 2 === 0 ? `A${3 + Math.floor(index / 2) * 21}` : `K${3 + Math.floor(index / 2) * 21}`,
  toCell: index % 2 === 0 ? `I${22 + Math.floor(index / 2) * 21}` : `S${22 + Math.floor(index / 2) * 21}`,
});

const DAY = 'Average day';
const costCategories = column('Costs', 'A', 17);

/** Every chart the workbook has, and the kinds it does not use, on one sheet. */
export const demoCharts: ChartSpec[] = [
  {
    sheet: 'Charts',
    anchor: place(0),
    kind: 'combo',
    title: { ref: 'Answer!$A$1' },
    altText:
      'Stacked columns for six tariffs, each without and with the battery: energy, standing charge, export credit.',
    categoryAxis: { title: 'Tariff' },
    valueAxis: { title: 'Cost (£ a year)', numberFormat: '#,##0' },
    series: [
      {
        name: head('Costs', 'B'),
        categories: costCategories,
        values: column('Costs', 'B', 17),
        plot: 'stackedColumn',
      },
      {
        name: head('Costs', 'C'),
        categories: costCategories,
        values: column('Costs', 'C', 17),
        plot: 'stackedColumn',
      },
      {
        name: head('Costs', 'D'),
        categories: costCategories,
        values: column('Costs', 'D', 17),
        plot: 'stackedColumn',
        look: 'vermilion',
      },
      {
        name: head('Costs', 'E'),
        categories: costCategories,
        values: column('Costs', 'E', 17),
        plot: 'markers',
        look: 'ink',
        marker: 'diamond',
        labels: { numberFormat: '#,##0' },
      },
    ],
  },
  {
    sheet: 'Charts',
    anchor: place(1),
    kind: 'stackedBar',
    title: 'The same costs as bars',
    altText: 'Stacked bars: energy, standing charge and export credit.',
    categoryAxis: { title: 'Tariff' },
    valueAxis: { title: 'Cost (£ a year)', numberFormat: '#,##0' },
    series: ['B', 'C', 'D'].map((letter) => ({
      name: head('Costs', letter),
      categories: costCategories,
      values: column('Costs', letter, 17),
    })),
  },
  {
    sheet: 'Charts',
    anchor: place(2),
    kind: 'scatter',
    title: 'The average day: demand, import after the battery, unit rate',
    altText: 'Two lines over 48 half-hours, and the unit rate as steps.',
    categoryAxis: { title: 'Time of day', numberFormat: 'hh:mm', min: 0, max: 1, majorUnit: 0.125 },
    valueAxis: { title: 'Energy (kWh a half-hour)', numberFormat: '0.0', min: 0 },
    secondaryAxis: { title: 'Unit rate (p/kWh)', numberFormat: '0', min: 0 },
    series: [
      {
        name: head(DAY, 'B'),
        categories: column(DAY, 'A', 48),
        values: column(DAY, 'B', 48),
        plot: 'joined',
        look: 'ink',
        dash: 'solid',
      },
      {
        name: head(DAY, 'C'),
        categories: column(DAY, 'A', 48),
        values: column(DAY, 'C', 48),
        plot: 'joined',
        look: 'vermilion',
        dash: 'sysDash',
      },
      {
        name: head('Steps', 'B'),
        categories: column('Steps', 'A', 96),
        values: column('Steps', 'B', 96),
        plot: 'joined',
        axis: 'right',
        look: 'sky',
        dash: 'solid',
      },
    ],
  },
  {
    sheet: 'Charts',
    anchor: place(3),
    kind: 'line',
    title: 'Cost by month on each tariff',
    altText: 'Six lines over fourteen months.',
    legend: 'right',
    categoryAxis: { title: 'Month', holds: 'number', numberFormat: 'mmm yy' },
    valueAxis: { title: 'Cost (£ a month)', numberFormat: '#,##0', min: 0 },
    series: ['B', 'C', 'D', 'E', 'F', 'G'].map((letter) => ({
      name: head('Months', letter),
      categories: column('Months', 'A', MONTHS),
      values: column('Months', letter, MONTHS),
    })),
  },
  {
    sheet: 'Charts',
    anchor: place(4),
    kind: 'clusteredColumn',
    title: 'Heat pump against boiler, by month',
    altText: 'Three columns a month: the heat pump and two estimates of the boiler.',
    categoryAxis: { title: 'Month', holds: 'number', numberFormat: 'mmm yy' },
    valueAxis: { title: 'Cost (£ a month)', numberFormat: '#,##0', min: 0 },
    series: ['H', 'I', 'J'].map((letter) => ({
      name: head('Months', letter),
      categories: column('Months', 'A', MONTHS),
      values: column('Months', letter, MONTHS),
    })),
  },
  {
    sheet: 'Charts',
    anchor: place(5),
    kind: 'scatter',
    title: 'Daily heat-pump use against degree days',
    altText: '400 days as points, with the fitted straight line.',
    categoryAxis: { title: 'Degree days (base 15.5 °C)', numberFormat: '0', min: 0 },
    valueAxis: { title: 'Heat pump use (kWh a day)', numberFormat: '0', min: 0 },
    series: [
      { name: 'A day', categories: column('Heat', 'A', 400), values: column('Heat', 'B', 400), look: 'sky' },
      {
        name: head('Fit', 'B'),
        categories: column('Fit', 'A', 2),
        values: column('Fit', 'B', 2),
        plot: 'joined',
        look: 'ink',
      },
    ],
  },
  {
    sheet: 'Charts',
    anchor: place(6),
    kind: 'scatter',
    title: 'Cost of a year against battery capacity',
    altText: 'A falling line that flattens beyond ten kilowatt-hours.',
    categoryAxis: { title: 'Usable capacity (kWh)', numberFormat: '0', min: 0 },
    valueAxis: { title: 'Cost (£ a year)', numberFormat: '#,##0' },
    series: [
      {
        name: head('Capacity', 'B'),
        categories: column('Capacity', 'A', 8),
        values: column('Capacity', 'B', 8),
        plot: 'joined',
        look: 'blue',
        marker: 'circle',
        dash: 'solid',
      },
    ],
  },
  {
    sheet: 'Charts',
    anchor: place(7),
    kind: 'stackedColumn',
    title: 'All seven looks & their <order>',
    altText: 'The palette as stacked columns.',
    categoryAxis: { title: 'Month', holds: 'number', numberFormat: 'mmm yy' },
    valueAxis: { title: 'Cost (£)', numberFormat: '#,##0' },
    series: ['B', 'C', 'D', 'E', 'F', 'G', 'H'].map((letter) => ({
      name: head('Months', letter),
      categories: column('Months', 'A', MONTHS),
      values: column('Months', letter, MONTHS),
    })),
  },
  {
    sheet: 'Answer',
    anchor: { fromCell: 'B5', toCell: 'J22' },
    kind: 'steps',
    title: 'Unit rate over the day',
    altText: 'Steps between three rates.',
    categoryAxis: { title: 'Time of day', holds: 'number', numberFormat: 'hh:mm', labelEvery: 6 },
    valueAxis: { title: 'Unit rate (p/kWh)', numberFormat: '0', min: 0 },
    series: [
      { name: head(DAY, 'D'), categories: column(DAY, 'A', 48), values: column(DAY, 'D', 48), look: 'blue' },
    ],
  },
  {
    sheet: 'Answer',
    anchor: { fromCell: 'B24', toCell: 'J42' },
    kind: 'combo',
    title: 'The average day with columns for the rate',
    altText: 'Two lines over 48 half-hours with the unit rate as steps behind them.',
    categoryAxis: {
      title: 'Time of day (half-hour beginning)',
      holds: 'number',
      numberFormat: 'hh:mm',
      labelEvery: 6,
    },
    valueAxis: { title: 'Unit rate (p/kWh)', numberFormat: '0', min: 0 },
    secondaryAxis: { title: 'Energy (kWh a half-hour)', numberFormat: '0.0', min: 0 },
    series: [
      {
        name: head(DAY, 'B'),
        categories: column(DAY, 'A', 48),
        values: column(DAY, 'B', 48),
        plot: 'line',
        axis: 'right',
        look: 'ink',
        marker: 'none',
      },
      {
        name: head(DAY, 'C'),
        categories: column(DAY, 'A', 48),
        values: column(DAY, 'C', 48),
        plot: 'line',
        axis: 'right',
        look: 'vermilion',
        dash: 'dash',
        marker: 'none',
      },
      {
        name: head(DAY, 'D'),
        categories: column(DAY, 'A', 48),
        values: column(DAY, 'D', 48),
        plot: 'steps',
        look: 'sky',
      },
    ],
  },
  {
    sheet: 'Answer',
    anchor: { fromCell: 'L5', toCell: 'T22' },
    kind: 'clusteredBar',
    title: 'Cost against capacity, as bars',
    altText: 'Eight bars.',
    categoryAxis: { title: 'Usable capacity (kWh)', holds: 'number', numberFormat: '0.0' },
    valueAxis: { title: 'Cost (£ a year)', numberFormat: '#,##0', min: 0 },
    series: [
      {
        name: head('Capacity', 'B'),
        categories: column('Capacity', 'A', 8),
        values: column('Capacity', 'B', 8),
        labels: { numberFormat: '0' },
      },
    ],
  },
];
