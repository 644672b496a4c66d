import { degreeDaysFromDailyMeanDescribed } from '../../../heating/degree-days-from-daily-mean.js';
import { degreeDaysFromMaxMinDescribed } from '../../../heating/degree-days-from-max-min.js';
import { TEMPERATURE_PROBLEM } from '../../evaluate/heating/temperature-lines.js';
import { TEMPERATURE_ROWS } from '../../inputs/heating-cells.js';
import { FIRST_ROW, SEED_ROW, SHEETS } from '../../layout.js';
import { label } from '../cells.js';
import { columnHeaders, sheetTop } from '../column-headers.js';
import type { FormulaColumn, SheetModel } from '../sheet-model.js';
import { figureCell } from './heating-figures-rows.js';
import { LAST_TEMPERATURE_ROW, TEMPERATURE as T } from './heating-rows.js';

const HEADERS: readonly [letters: string, text: string, unit: string][] = [
  [T.date, 'Day', 'date'],
  [T.meanC, 'Mean', '°C'],
  [T.maxC, 'Maximum', '°C'],
  [T.minC, 'Minimum', '°C'],
];

function degreeDaysColumn(): FormulaColumn {
  const base = figureCell('degreeDayBaseC');
  return {
    letters: T.degreeDays,
    firstRow: FIRST_ROW,
    rows: TEMPERATURE_ROWS,
    label: 'Degree days',
    unit: '°C·day',
    description: 'From maximum and minimum where both are given, else from the mean',
    style: 'oneDecimal',
    formula: (r) => {
      const [date, mean, max, min] = [
        `$${T.date}${r}`,
        `$${T.meanC}${r}`,
        `$${T.maxC}${r}`,
        `$${T.minC}${r}`,
      ];
      const fromMaxMin = degreeDaysFromMaxMinDescribed.formula!([max, min, base]);
      const fromMean = degreeDaysFromDailyMeanDescribed.formula!([mean, base]);
      return (
        `IF(NOT(ISNUMBER(${date})),"",IF(${date}<>INT(${date}),"",IF(COUNT(${max},${min})=2,` +
        `IF(${max}<${min},"",${fromMaxMin}),IF(ISNUMBER(${mean}),${fromMean},""))))`
      );
    },
    values: (r) => r.heating.temperatures.degreeDays,
  };
}

function problemColumn(): FormulaColumn {
  return {
    letters: T.problem,
    firstRow: FIRST_ROW,
    rows: TEMPERATURE_ROWS,
    label: 'Problem',
    unit: 'code',
    description: '1 the row can’t be used, 2 repeated or out of order',
    style: 'integer',
    formula: (r) => {
      const above = `$${T.date}${r - 1}`;
      return (
        `IF(AND(COUNTA($${T.date}${r}:$${T.minC}${r})>0,NOT(ISNUMBER($${T.degreeDays}${r}))),${TEMPERATURE_PROBLEM.unusable},` +
        `IF(AND(ISNUMBER($${T.date}${r}),ISNUMBER(${above})),IF($${T.date}${r}<=${above},${TEMPERATURE_PROBLEM.repeatedOrOutOfOrder},0),0))`
      );
    },
    values: (r) => r.heating.temperatures.problem,
  };
}

/** Outdoor temperatures by day, for times without half-hourly ones: the gas year, and gaps. */
export function temperaturesSheet(): SheetModel {
  const columns = [degreeDaysColumn(), problemColumn()];
  return {
    name: SHEETS.temperatures,
    tab: 'input',
    widths: { A: 14, B: 12, C: 12, D: 12, E: 14, F: 10 },
    freeze: { columns: 1, rows: SEED_ROW },
    protected: true,
    landscape: false,
    printTitleRows: `${FIRST_ROW - 3}:${FIRST_ROW - 2}`,
    cells: [
      ...sheetTop(
        'Temperatures',
        `Outdoor temperature by day: of the gas year, and where ${SHEETS.readings} has none or gaps.`,
      ),
      label(
        'A3',
        'A row a day: its mean, or its maximum and minimum. Paste, or let the fill do it: --temperature.',
        'hint',
      ),
      ...HEADERS.flatMap(([letters, text, unit]) => [
        label(`${letters}${FIRST_ROW - 3}`, text, 'header'),
        label(`${letters}${FIRST_ROW - 2}`, unit, 'headerUnit'),
      ]),
      ...columnHeaders(columns),
    ],
    formulaColumns: columns,
    inputColumns: HEADERS.map(([letters]) => ({
      letters,
      firstRow: FIRST_ROW,
      rows: TEMPERATURE_ROWS,
      style: letters === T.date ? ('inputDate' as const) : ('inputTemperature' as const),
    })),
    conditional: [
      {
        range: `${T.date}${FIRST_ROW}:${T.date}${LAST_TEMPERATURE_ROW}`,
        formula: `ISTEXT($${T.date}${FIRST_ROW})`,
        style: 'bad',
      },
      {
        range: `${T.problem}${FIRST_ROW}:${T.problem}${LAST_TEMPERATURE_ROW}`,
        formula: `$${T.problem}${FIRST_ROW}>0`,
        style: 'bad',
      },
      {
        range: `${T.problem}${FIRST_ROW}:${T.problem}${LAST_TEMPERATURE_ROW}`,
        formula: `$${T.problem}${FIRST_ROW}=0`,
        style: 'quiet',
      },
    ],
  };
}
