import type { HeatingLine, LineLabel } from '../../../heating/comparison/heating-line.js';
import { monthsToFitFormula } from '../../../heating/fit-use-to-degree-days.js';
import { SETTINGS } from '../../fields/heating-settings.js';
import { partLetters, SHEETS } from '../../layout.js';
import type { Book } from '../book.js';
import { formula, label } from '../cells.js';
import { sheetTop } from '../column-headers.js';
import { ref } from '../references.js';
import type { Cell, SheetModel } from '../sheet-model.js';
import { HEATING_FROM_DEGREE_DAYS, heatingDays } from './heating-days.js';
import {
  CURVE_KEYS,
  CURVE_POINTS,
  DAILY_LINE_KEYS,
  FIGURE_HEADINGS,
  FIGURE_LETTERS,
  FIGURE_LINES,
  figureCell,
  figureName,
  findFigureRow,
  TARIFF_PLACE,
  TEMPERATURE_YEAR_KEYS,
} from './heating-figures-rows.js';
import { temperatureName } from './heating-rows.js';
import { styleOf, unitOf } from './line-looks.js';
import { lineReferences } from './line-references.js';
import { usedSettingFormula } from './used-setting-formula.js';

const own = (column: number): string => partLetters('heatingFigures', column);

function figureCells(
  { key, label: text, unit, format, description }: LineLabel,
  formulaText: string,
): Cell[] {
  const row = findFigureRow(key)!;
  const unitText = unitOf({ unit });
  return [
    label(`${own(2)}${row}`, text, 'label'),
    formula(`${FIGURE_LETTERS}${row}`, formulaText, styleOf(format), { name: figureName(key) }),
    ...(unitText === '' ? [] : [label(`${own(4)}${row}`, unitText, 'unit')]),
    label(`${own(5)}${row}`, description, 'hint'),
  ];
}

function settingCells(book: Book): Cell[] {
  return SETTINGS.flatMap(({ input }) =>
    figureCells(
      input.key === TARIFF_PLACE
        ? {
            ...input,
            unit: 'place on Tariffs, 0: none',
            format: 'number0',
            description: 'Today’s where none was chosen.',
          }
        : input,
      usedSettingFormula(book, input),
    ),
  );
}

const fitted = (then: string, otherwise = '""'): string =>
  `IF(${figureName('dailyFitDays')}>0,${then},${otherwise})`;

/** From this share of the coldest day's degree days on, days count as the coldest. */
const COLD_SHARE = 0.8;
/** Criteria of whole days without heating, and of the coldest ones. */
const MILD = `degree_days_of_day,"<${HEATING_FROM_DEGREE_DAYS}",day_is_in_fit,1`;
const coldest = (x: string): string => `${x},">="&${figureName('coldFromDegreeDays')}`;
/** What the curve says: the use without heating, and a part that grows faster than the cold, as the COP falls. */
const curveAt = (degreeDays: string): string =>
  `${figureName('mildKwh')}+${figureName('kwhPerDegreeDay')}*${degreeDays}+${figureName('kwhPerSquaredDegreeDay')}*(${degreeDays})^2`;

type DailyLine = Omit<LineLabel, 'key'> & { formula: (x: string, y: string) => string };
const daily = (
  text: string,
  unit: string,
  format: LineLabel['format'],
  description: string,
  formulaOf: DailyLine['formula'],
): DailyLine => ({ label: text, unit, format, description, formula: formulaOf });
const sum = (text: string, unit: string, formulaOf: DailyLine['formula']): DailyLine =>
  daily(text, unit, 'number1', 'For the least squares of the curve.', (x, y) => fitted(formulaOf(x, y)));

/** Least squares through a given start (common practice, no source): use − start on degree days and their squares. */
const DAILY: Readonly<Record<string, DailyLine>> = {
  dailyFitDays: daily(
    'Days in the curve',
    'count',
    'number0',
    `Whole days from ${HEATING_FROM_DEGREE_DAYS} °C·day on; 0 where fewer than three, or all of about the same weather.`,
    (x) => monthsToFitFormula(x),
  ),
  mildDays: daily(
    'Days without heating',
    'count',
    'number0',
    `Whole days below ${HEATING_FROM_DEGREE_DAYS} °C·day.`,
    () => `COUNTIFS(${MILD})`,
  ),
  mildKwh: daily(
    'Use on days without heating',
    'kWh/day',
    'number2',
    'Mean of these days, hot water and standby: where the curve starts. 0 where there is no such day.',
    () => `IF(${figureName('mildDays')}=0,0,SUMIFS(heat_pump_of_day,${MILD})/${figureName('mildDays')})`,
  ),
  curveSquares: sum('Sum of squared degree days', '(°C·day)²', (x) => `SUMPRODUCT(${x},${x})`),
  curveCubes: sum('Sum of cubed degree days', '(°C·day)³', (x) => `SUMPRODUCT(${x},${x},${x})`),
  curveFourths: sum('Sum of their fourth powers', '(°C·day)⁴', (x) => `SUMPRODUCT(${x},${x},${x},${x})`),
  curveUse: sum(
    'Sum of degree days × use beyond the start',
    '°C·day·kWh',
    (x, y) => `SUMPRODUCT(${x},${y})-${figureName('mildKwh')}*SUM(${x})`,
  ),
  curveSquaredUse: sum(
    'Sum of squared degree days × use beyond the start',
    '(°C·day)²·kWh',
    (x, y) => `SUMPRODUCT(${x},${x},${y})-${figureName('mildKwh')}*${figureName('curveSquares')}`,
  ),
  curveDeterminant: sum(
    'Determinant of the two equations',
    '(°C·day)⁶',
    () =>
      `${figureName('curveSquares')}*${figureName('curveFourths')}-${figureName('curveCubes')}*${figureName('curveCubes')}`,
  ),
  kwhPerDegreeDay: daily(
    'Use for a degree day, at its mildest',
    'kWh/(°C·day)',
    'number2',
    'Of the curve through the days with heating, that starts at the use without heating.',
    () =>
      fitted(
        `(${figureName('curveUse')}*${figureName('curveFourths')}-${figureName('curveSquaredUse')}*${figureName('curveCubes')})/${figureName('curveDeterminant')}`,
      ),
  ),
  kwhPerSquaredDegreeDay: daily(
    'And for a squared degree day',
    'kWh/(°C·day)²',
    'number2',
    'Above 0 where the COP falls with the cold.',
    () =>
      fitted(
        `(${figureName('curveSquaredUse')}*${figureName('curveSquares')}-${figureName('curveUse')}*${figureName('curveCubes')})/${figureName('curveDeterminant')}`,
      ),
  ),
  ...Object.fromEntries(
    CURVE_KEYS.degreeDays.flatMap((key, i) => [
      [
        key,
        daily(`Point ${i + 1} of the curve`, '°C·day', 'number1', 'For the chart.', (x) =>
          fitted(`MAX(${x})*${i}/${CURVE_POINTS - 1}`, '0'),
        ),
      ],
      [
        CURVE_KEYS.kwh[i] ?? '',
        daily(`Point ${i + 1} of the curve`, 'kWh', 'number1', 'For the chart.', () =>
          fitted(curveAt(figureName(key)), '0'),
        ),
      ],
    ]),
  ),
  coldFromDegreeDays: daily(
    'The coldest days, from',
    '°C·day',
    'number1',
    `${COLD_SHARE * 100} % of the degree days of the coldest day.`,
    (x) => `${COLD_SHARE}*MAX(${x})`,
  ),
  coldDays: daily(
    'The coldest days',
    'count',
    'number0',
    'Days of the curve from there on.',
    (x) => `COUNTIFS(${coldest(x)})`,
  ),
  coldKwh: daily('Use on the coldest days', 'kWh/day', 'number1', 'Their mean.', (x, y) =>
    fitted(`SUMIFS(${y},${coldest(x)})/${figureName('coldDays')}`),
  ),
  coldCurveKwh: daily(
    'The curve on the coldest days',
    'kWh/day',
    'number1',
    'At their mean degree days.',
    (x) => fitted(curveAt(`SUMIFS(${x},${coldest(x)})/${figureName('coldDays')}`)),
  ),
};

const TEMPERATURE_YEAR: Record<
  (typeof TEMPERATURE_YEAR_KEYS)[number],
  Omit<LineLabel, 'key'> & { formula: string }
> = {
  temperatureYearFrom: {
    label: 'From',
    unit: 'date',
    format: 'date',
    description:
      'So many days before the last one with a temperature as a year has; blank where there is none.',
    formula: `IF(COUNT(${temperatureName('date')})=0,"",MAX(${temperatureName('date')})-${figureName('yearDays')}+1)`,
  },
  temperatureYearDegreeDays: {
    label: 'Degree days of that year',
    unit: '°C·day',
    format: 'number0',
    description: 'Blank where a day is missing.',
    formula: temperatureYearDegreeDays(),
  },
};

function temperatureYearDegreeDays(): string {
  const [days, degreeDays] = [temperatureName('date'), temperatureName('degreeDays')];
  const inYear = `${days},">="&${figureName('temperatureYearFrom')}`;
  return (
    `IF(${figureName('temperatureYearFrom')}="","",IF(COUNTIFS(${inYear},${degreeDays},">-1E+300")=${figureName('yearDays')},` +
    `SUMIFS(${degreeDays},${inYear}),""))`
  );
}

/** A formula reads by names; where that makes it too long, by places on this sheet. */
function figureFormula(line: HeatingLine): string {
  const named = lineReferences();
  const text = line.formula(named);
  if (text.length <= LONGEST_FORMULA) return text;
  return line.formula({ ...named, cell: (key) => figureCell(key).replace(/^.*!/, '') });
}
const LONGEST_FORMULA = 300;

/** Workings: every single figure of the comparison, with what it is. */
export function heatingFiguresSheet(book: Book): SheetModel {
  const { fitDegreeDays, fitKwh } = heatingDays(book);
  return {
    name: SHEETS.heatingFigures,
    tab: 'workings',
    widths: { [own(1)]: 3, [own(2)]: 44, [own(3)]: 14, [own(4)]: 22, [own(5)]: 100 },
    freeze: { columns: 0, rows: 2 },
    protected: true,
    landscape: true,
    cells: [
      ...sheetTop(
        'Heating figures',
        'Workings: single figures of the comparison. Nothing to fill in.',
        own(1),
      ),
      ...FIGURE_HEADINGS.flatMap(({ title, row }) =>
        [2, 3, 4, 5].map((column) => label(`${own(column)}${row}`, column === 2 ? title : '', 'section')),
      ),
      ...settingCells(book),
      ...FIGURE_LINES.flatMap((line) => figureCells(line, figureFormula(line))),
      ...DAILY_LINE_KEYS.flatMap((key) => {
        const line = DAILY[key];
        if (line === undefined) throw new RangeError(`nothing says what ${key} is`);
        const { formula: formulaOf, ...text } = line;
        return figureCells({ key, ...text }, formulaOf(ref(fitDegreeDays), ref(fitKwh)));
      }),
      ...TEMPERATURE_YEAR_KEYS.flatMap((key) => {
        const { formula: text, ...line } = TEMPERATURE_YEAR[key];
        return figureCells({ key, ...line }, text);
      }),
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [],
  };
}
