import type { DescribedFunction } from '../../../functions/described-function.js';
import { degreeDaysFromDailyMeanDescribed } from '../../../heating/degree-days-from-daily-mean.js';
import { degreeDaysFromMaxMinDescribed } from '../../../heating/degree-days-from-max-min.js';
import { TEMPERATURE_ROWS } from '../../inputs/heating-cells.js';
import { FIRST_ROW, SEED_ROW, SHEETS } from '../../layout.js';
import type { Book } from '../book.js';
import { label } from '../cells.js';
import { columnHeaders, sheetTop } from '../column-headers.js';
import { UNPROTECTED } from '../protection-words.js';
import type { FormulaColumn, SheetModel } from '../sheet-model.js';
import { figureName } from './heating-figures-rows.js';
import {
  LAST_TEMPERATURE_ROW,
  TEMPERATURE as T,
  TEMPERATURE_PROBLEM,
  temperatureName,
} from './heating-rows.js';

const HEADERS = [
  ['date', 'Day', 'date'],
  ['meanC', 'Mean', '°C'],
  ['maxC', 'Maximum', '°C'],
  ['minC', 'Minimum', '°C'],
] as const;

function degreeDaysColumn(): FormulaColumn {
  return {
    letters: T.degreeDays,
    firstRow: FIRST_ROW,
    rows: TEMPERATURE_ROWS,
    label: 'Degree days',
    unit: '°C·day',
    description: 'From maximum and minimum where both are given, else from the mean',
    style: 'oneDecimal',
    name: temperatureName('degreeDays'),
    formula: (r) => {
      const [date, mean, fromMaxMin] = [`$${T.date}${r}`, `$${T.meanC}${r}`, `$${T.fromMaxMin}${r}`];
      const fromMean = formulaOf(degreeDaysFromDailyMeanDescribed)([mean, figureName('degreeDayBaseC')]);
      const hasBoth = `COUNT($${T.maxC}${r}:$${T.minC}${r})=2`;
      return (
        `IF(NOT(ISNUMBER(${date})),"",IF(${date}<>INT(${date}),"",` +
        `IF(${hasBoth},${fromMaxMin},IF(ISNUMBER(${mean}),${fromMean},""))))`
      );
    },
  };
}

function maxMinColumn(): FormulaColumn {
  return {
    letters: T.fromMaxMin,
    firstRow: FIRST_ROW,
    rows: TEMPERATURE_ROWS,
    label: 'From maximum and minimum',
    unit: '°C·day',
    description: 'Where both are given, the right way round',
    style: 'oneDecimal',
    name: temperatureName('fromMaxMin'),
    formula: (r) => {
      const [max, min] = [`$${T.maxC}${r}`, `$${T.minC}${r}`];
      const degreeDays = formulaOf(degreeDaysFromMaxMinDescribed)([max, min, figureName('degreeDayBaseC')]);
      // The wrong way round the library's formula gives an error.
      return `IF(COUNT(${max}:${min})<2,"",IFERROR(${degreeDays},""))`;
    },
  };
}

function formulaOf({ cellName, formula }: DescribedFunction): (cells: readonly string[]) => string {
  if (formula === undefined) throw new RangeError(`${cellName} has no formula`);
  return formula;
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
    name: temperatureName('problem'),
    formula: (r) => {
      const above = `$${T.date}${r - 1}`;
      return (
        `IF(AND(COUNTA($${T.date}${r}:$${T.minC}${r})>0,NOT(ISNUMBER($${T.degreeDays}${r}))),${TEMPERATURE_PROBLEM.unusable},` +
        `IF(AND(ISNUMBER($${T.date}${r}),ISNUMBER(${above})),IF($${T.date}${r}<=${above},${TEMPERATURE_PROBLEM.repeatedOrOutOfOrder},0),0))`
      );
    },
  };
}

/** Outdoor temperatures by day, for times without half-hourly ones: the gas year, and gaps. */
export function temperaturesSheet(_book: Book): SheetModel {
  const columns = [degreeDaysColumn(), problemColumn(), maxMinColumn()];
  return {
    name: SHEETS.temperatures,
    tab: 'input',
    widths: { A: 14, B: 12, C: 12, D: 12, E: 14, F: 10, G: 14 },
    freeze: { columns: 1, rows: SEED_ROW },
    protected: false,
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
      label('A4', UNPROTECTED, 'hint'),
      ...HEADERS.flatMap(([key, text, unit]) => [
        label(`${T[key]}${FIRST_ROW - 3}`, text, 'header'),
        label(`${T[key]}${FIRST_ROW - 2}`, unit, 'headerUnit'),
      ]),
      ...columnHeaders(columns),
    ],
    formulaColumns: columns,
    inputColumns: HEADERS.map(([key]) => ({
      letters: T[key],
      name: temperatureName(key),
      firstRow: FIRST_ROW,
      rows: TEMPERATURE_ROWS,
      style: key === 'date' ? ('inputDate' as const) : ('inputTemperature' as const),
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
