import { HEATING_BLOCKS } from '../../../heating/compare-heating.js';
import type { HeatingLine } from '../../../heating/comparison/heating-line.js';
import { Line } from '../../book/terms.js';
import { absolute, columnNumber } from '../../cell-address.js';
import { isSetting, SETTINGS } from '../../fields/heating-settings.js';
import { wordsOf } from '../../fields/words-of.js';
import { partLetters, SHEETS } from '../../layout.js';

/** Key under which the place of the tariff stands among the settings. */
export const TARIFF_PLACE = 'tariff';

/** Points of the curve through the days, from 0 degree days to those of the coldest day. */
export const CURVE_POINTS = 9;
const points = Array.from({ length: CURVE_POINTS }, (_, i) => i);
/** Keys of the curve's points: a chart takes all of one kind as a range, so they stand one below another. */
export const CURVE_KEYS = {
  degreeDays: points.map((i) => `curveDegreeDays${i}`),
  kwh: points.map((i) => `curveKwh${i}`),
} as const;

/** Figures of the curve through the days, beside those of the comparison. */
export const DAILY_LINE_KEYS: readonly string[] = [
  'dailyFitDays',
  'mildDays',
  'mildKwh',
  'curveSquares',
  'curveCubes',
  'curveFourths',
  'curveUse',
  'curveSquaredUse',
  'curveDeterminant',
  'kwhPerDegreeDay',
  'kwhPerSquaredDegreeDay',
  ...CURVE_KEYS.degreeDays,
  ...CURVE_KEYS.kwh,
  'coldFromDegreeDays',
  'coldDays',
  'coldKwh',
  'coldCurveKwh',
];

/** Figures of the last year of the temperatures sheet. */
export const TEMPERATURE_YEAR_KEYS = ['temperatureYearFrom', 'temperatureYearDegreeDays'] as const;

/** Blocks of the heating figures sheet: heading and the keys below it. */
export const FIGURE_BLOCKS: readonly { title: string; keys: readonly string[] }[] = [
  { title: 'Settings as they are used', keys: SETTINGS.map(({ input }) => input.key) },
  { title: 'Last year’s gas', keys: HEATING_BLOCKS.gasFit.lines.map(({ key }) => key) },
  { title: 'All months compared', keys: HEATING_BLOCKS.totals.lines.map(({ key }) => key) },
  { title: 'A year', keys: HEATING_BLOCKS.year.lines.map(({ key }) => key) },
  { title: 'Heat pump by day', keys: DAILY_LINE_KEYS },
  { title: 'The last year of temperatures', keys: TEMPERATURE_YEAR_KEYS },
];

/** Lines of the comparison that stand on the heating figures sheet. */
export const FIGURE_LINES: readonly HeatingLine[] = [
  ...HEATING_BLOCKS.gasFit.lines,
  ...HEATING_BLOCKS.totals.lines,
  ...HEATING_BLOCKS.year.lines,
];

const FIRST = 4;
const rows = new Map<string, number>();
const headings: { title: string; row: number }[] = [];
let next = FIRST;
for (const { title, keys } of FIGURE_BLOCKS) {
  headings.push({ title, row: next++ });
  for (const key of keys) rows.set(key, next++);
  next++;
}

/** Headings of the blocks with their rows. */
export const FIGURE_HEADINGS: readonly { title: string; row: number }[] = headings;
/** Column of the figures. */
export const FIGURE_LETTERS = partLetters('heatingFigures', 3);

/** Row of a figure; undefined where there is none of that key. */
export function findFigureRow(key: string): number | undefined {
  return rows.get(key);
}

function rowOf(key: string): number {
  const row = rows.get(key);
  if (row === undefined) throw new RangeError(`no heating figure is called ${key}`);
  return row;
}

/** Address of a figure. */
export function figureCell(key: string): string {
  return absolute(SHEETS.heatingFigures, FIGURE_LETTERS, rowOf(key));
}

/** Names that would stand for something else, or for nothing in particular, beyond the heating sheets. */
const OWN_NAMES: Readonly<Record<string, string>> = {
  [TARIFF_PLACE]: 'heating_tariff_place',
  degreeDayBaseC: 'base_temperature',
  months: 'months_compared',
  monthsCompared: 'months_with_comparison',
  verdict: 'heating_difference_verdict',
};

/** Defined name of a figure; a setting's is that of what is taken of it. */
export function figureName(key: string): string {
  rowOf(key);
  return OWN_NAMES[key] ?? (isSetting(key) ? `${wordsOf(key)}_used` : wordsOf(key));
}

/** A figure as a term. */
export function figureLine(key: string): Line {
  const place = { sheet: SHEETS.heatingFigures, row: rowOf(key), column: columnNumber(FIGURE_LETTERS) };
  return new Line(place, 'rate', figureName(key));
}
