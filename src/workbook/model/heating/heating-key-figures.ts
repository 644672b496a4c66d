import type { StyleName } from '../../look/styles.js';
import { formula, label } from '../cells.js';
import type { Cell } from '../sheet-model.js';
import { FIGURE_LINES, figureName } from './heating-figures-rows.js';
import type { HeatingRows } from './heating-rows.js';
import { styleOf, unitOf } from './line-looks.js';

const lineOf = (key: string) => {
  const line = FIGURE_LINES.find((candidate) => candidate.key === key);
  if (line === undefined) throw new RangeError(`no figure is called ${key}`);
  return line;
};

/** A cell that shows a figure of the workings. */
export function shownFigure(at: string, key: string, style?: StyleName): Cell {
  return formula(at, figureName(key), style ?? styleOf(lineOf(key).format));
}

/** Label, figure and unit in a row. */
export function figureRow(row: number, key: string, text?: string, style?: StyleName): Cell[] {
  const line = lineOf(key);
  return [
    label(`A${row}`, text ?? line.label, 'label'),
    shownFigure(`B${row}`, key, style),
    ...unitBeside(row, line),
  ];
}

/** The unit beside a figure, where the figure does not say it itself. */
function unitBeside(row: number, line: { unit: string }): Cell[] {
  const unit = unitOf(line);
  return ['percent', 'count', ''].includes(unit) ? [] : [label(`C${row}`, unit, 'unitBeside')];
}

/** Rows with a figure for each of the two estimates of the boiler. */
const BOTH: readonly [text: string, meter: string, heat: string | null, style: StyleName][] = [
  ['Heat pump’s side, {major}', 'totalHeatPumpSidePounds', 'totalHeatPumpSidePounds', 'money'],
  ['Boiler’s side, {major}', 'totalFromMeterPounds', 'totalFromHeatPounds', 'money'],
  [
    'Heat pump less boiler, {major}',
    'totalDifferenceFromMeterPounds',
    'totalDifferenceFromHeatPounds',
    'moneySigned',
  ],
  ['Give or take of the gas fit, {major}', 'totalFromMeterRangePounds', null, 'money'],
  ['Months with the estimate', 'monthsFromMeter', 'monthsFromHeat', 'integer'],
];

const SINGLE: readonly string[] = [
  'totalApartShare',
  'months',
  'totalElectricityKwh',
  'totalHeatKwh',
  'totalDegreeDays',
  'totalCop',
  'totalBreakEvenCop',
  'totalAverageRatePence',
  'totalBreakEvenElectricityPence',
  'totalEqualCostEfficiency',
  'carbonSavedKg',
];

/** The figures of all months together, the two estimates beside each other. */
export function keyFigureCells({ keyFigures: first }: HeatingRows): Cell[] {
  return [
    label(`A${first}`, 'All months compared', 'headerLeft'),
    label(`B${first}`, '(a) last year’s gas', 'header'),
    label(`C${first}`, '(b) heat ÷ efficiency', 'header'),
    ...BOTH.flatMap(([text, meter, heat, style], i) => {
      const row = first + 1 + i;
      return [
        label(`A${row}`, text, i === 2 ? 'labelStrong' : 'label'),
        shownFigure(`B${row}`, meter, style),
        ...(heat === null ? [] : [shownFigure(`C${row}`, heat, style)]),
      ];
    }),
    ...SINGLE.flatMap((key, i) => figureRow(first + 2 + BOTH.length + i, key)),
  ];
}
