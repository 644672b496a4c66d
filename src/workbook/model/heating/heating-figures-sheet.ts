import type { HeatingLine, LineLabel } from '../../../heating/comparison/heating-line.js';
import { monthsToFitFormula } from '../../../heating/fit-use-to-degree-days.js';
import { SETTINGS } from '../../fields/heating-settings.js';
import { SHEETS } from '../../layout.js';
import type { Book } from '../book.js';
import { formula, label } from '../cells.js';
import { sheetTop } from '../column-headers.js';
import { ref } from '../references.js';
import type { Cell, SheetModel } from '../sheet-model.js';
import { heatingDays } from './heating-days.js';
import {
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

function figureCells(
  { key, label: text, unit, format, description }: LineLabel,
  formulaText: string,
): Cell[] {
  const row = findFigureRow(key)!;
  const unitText = unitOf({ unit });
  return [
    label(`B${row}`, text, 'label'),
    formula(`${FIGURE_LETTERS}${row}`, formulaText, styleOf(format), { name: figureName(key) }),
    ...(unitText === '' ? [] : [label(`D${row}`, unitText, 'unit')]),
    label(`E${row}`, description, 'hint'),
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

const fitted = (then: string, otherwise: string): string =>
  `IF(${figureName('dailyFitDays')}>0,${then},${otherwise})`;

const DAILY: Record<
  (typeof DAILY_LINE_KEYS)[number],
  Omit<LineLabel, 'key'> & { formula: (x: string, y: string) => string }
> = {
  dailyFitDays: {
    label: 'Days in the line',
    unit: 'count',
    format: 'number0',
    description: 'Whole days with degree days; 0 where fewer than three, or all of about the same weather.',
    formula: (x) => monthsToFitFormula(x),
  },
  dailyBaseKwh: {
    label: 'Electricity that does not depend on weather',
    unit: 'kWh/day',
    format: 'number2',
    description: 'Intercept of daily use on degree days: mostly hot water.',
    formula: (x, y) => fitted(`INTERCEPT(${y},${x})`, '""'),
  },
  dailyKwhPerDegreeDay: {
    label: 'Electricity that depends on weather',
    unit: 'kWh/(°C·day)',
    format: 'number2',
    description: 'Slope of daily use on degree days.',
    formula: (x, y) => fitted(`SLOPE(${y},${x})`, '""'),
  },
  dailyRSquared: {
    label: 'Explained by weather',
    unit: 'share 0–1',
    format: 'share',
    description: 'Share of the variance of daily use that degree days explain (R²).',
    formula: (x, y) => fitted(`RSQ(${y},${x})`, '""'),
  },
  dailyFromDegreeDays: {
    label: 'Line from',
    unit: '°C·day',
    format: 'number1',
    description: 'First end of the line in the chart.',
    formula: () => '0',
  },
  dailyFromKwh: {
    label: 'Line from',
    unit: 'kWh',
    format: 'number1',
    description: 'First end of the line in the chart.',
    formula: () => fitted(figureName('dailyBaseKwh'), '0'),
  },
  dailyToDegreeDays: {
    label: 'Line to',
    unit: '°C·day',
    format: 'number1',
    description: 'Coldest day in the line.',
    formula: (x) => fitted(`MAX(${x})`, '0'),
  },
  dailyToKwh: {
    label: 'Line to',
    unit: 'kWh',
    format: 'number1',
    description: 'Second end of the line in the chart.',
    formula: () =>
      fitted(
        `${figureName('dailyBaseKwh')}+${figureName('dailyKwhPerDegreeDay')}*${figureName('dailyToDegreeDays')}`,
        '0',
      ),
  },
};

const TEMPERATURE_YEAR: Record<
  (typeof TEMPERATURE_YEAR_KEYS)[number],
  Omit<LineLabel, 'key'> & { formula: string }
> = {
  temperatureYearFrom: {
    label: 'From',
    unit: 'date',
    format: 'date',
    description: 'So many days before the last one on Temperatures as a year has.',
    formula: `MAX(${temperatureName('date')})-${figureName('yearDays')}+1`,
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
    `IF(COUNTIFS(${inYear},${degreeDays},">-1E+300")=${figureName('yearDays')},` +
    `SUMIFS(${degreeDays},${inYear}),"")`
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
    widths: { A: 3, B: 44, C: 14, D: 22, E: 100 },
    freeze: { columns: 0, rows: 2 },
    protected: true,
    landscape: true,
    cells: [
      ...sheetTop('Heating figures', 'Workings: single figures of the comparison. Nothing to fill in.'),
      ...FIGURE_HEADINGS.flatMap(({ title, row }) =>
        ['B', 'C', 'D', 'E'].map((letters, i) => label(`${letters}${row}`, i === 0 ? title : '', 'section')),
      ),
      ...settingCells(book),
      ...FIGURE_LINES.flatMap((line) => figureCells(line, figureFormula(line))),
      ...DAILY_LINE_KEYS.flatMap((key) => {
        const { formula: formulaOf, ...text } = DAILY[key];
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
