import type { DescribedFunction } from '../../../functions/described-function.js';
import { degreeDaysFromDailyMeanDescribed } from '../../../heating/degree-days-from-daily-mean.js';
import { degreeDaysFromMaxMinDescribed } from '../../../heating/degree-days-from-max-min.js';
import type { RowRule } from '../../fields/field-column.js';
import { brokenIn } from '../../fields/rule.js';
import { TEMPERATURE_COLUMNS, TEMPERATURE_ROWS, TEMPERATURE_RULES } from '../../fields/temperature-fields.js';
import { FIRST_ROW, SEED_ROW, SHEETS } from '../../layout.js';
import type { Book } from '../book.js';
import { formula, label, quoted } from '../cells.js';
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

/** By which equations days with a maximum and a minimum go, with the source that their function names. */
const MAX_MIN_WORDS = `Days with maximum and minimum go by the four cases of the ${degreeDaysFromMaxMinDescribed.source}, also under “daily mean”.`;

function degreeDaysColumn(): FormulaColumn {
  return {
    letters: T.degreeDays,
    firstRow: FIRST_ROW,
    rows: TEMPERATURE_ROWS,
    label: 'Degree days',
    unit: '°C·day',
    description:
      'From maximum and minimum where both are given, whatever half-hours count by; else from the mean',
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
    description: '1 the row can’t be used, 2 repeated or out of order, 3 no temperature yet',
    style: 'integer',
    name: temperatureName('problem'),
    formula: (r) => {
      const above = `$${T.date}${r - 1}`;
      return (
        `IF(SUM($${T.wrongTemperatures}${r}:$${T.wrongDay}${r})>0,${TEMPERATURE_PROBLEM.unusable},` +
        `IF(AND(ISNUMBER($${T.date}${r}),ISNUMBER(${above}),$${T.date}${r}<=${above}),${TEMPERATURE_PROBLEM.repeatedOrOutOfOrder},` +
        `IF(AND(ISNUMBER($${T.date}${r}),NOT(ISNUMBER($${T.degreeDays}${r}))),${TEMPERATURE_PROBLEM.noTemperature},0)))`
      );
    },
  };
}

/** Cells of the row that can't be used, by themselves and beside one another. */
function wrongColumns(): FormulaColumn[] {
  const column = (
    key: 'wrongTemperatures' | 'wrongDay',
    text: string,
    description: string,
    rules: readonly RowRule[],
  ): FormulaColumn => ({
    letters: T[key],
    firstRow: FIRST_ROW,
    rows: TEMPERATURE_ROWS,
    label: text,
    unit: 'count',
    description,
    style: 'integer',
    name: temperatureName(key),
    formula: brokenIn(rules),
  });
  const { temperatures, day } = TEMPERATURE_RULES;
  return [
    column(
      'wrongTemperatures',
      'Wrong: temperatures',
      'Not a temperature, or a maximum below the minimum',
      temperatures,
    ),
    column('wrongDay', 'Wrong: the day', 'No day, or no whole date', day),
  ];
}

/** Outdoor temperatures by day, for times without half-hourly ones: the gas year, and gaps. */
export function temperaturesSheet(_book: Book): SheetModel {
  const columns = [degreeDaysColumn(), problemColumn(), maxMinColumn(), ...wrongColumns()];
  return {
    name: SHEETS.temperatures,
    tab: 'input',
    widths: {
      ...Object.fromEntries(Object.values(T).map((letters) => [letters, 12])),
      [T.date]: 14,
      [T.degreeDays]: 14,
      [T.fromMaxMin]: 14,
    },
    freeze: { columns: 1, rows: SEED_ROW },
    protected: false,
    landscape: false,
    // No print area: the gas beside it fits a page, a day a row would take dozens.
    cells: [
      ...sheetTop(
        'Temperatures by day',
        `Outdoor temperature: of the gas year, and where ${SHEETS.readings} has none or gaps.`,
        T.date,
      ),
      label(
        `${T.date}3`,
        'A row a day: its mean, or its maximum and minimum. Paste, or let the fill do it: --temperature.',
        'hint',
      ),
      label(`${T.date}4`, UNPROTECTED, 'hint'),
      // Beside the title, above the degree days themselves.
      formula(
        `${T.degreeDays}1`,
        `IF(COUNT(${temperatureName('fromMaxMin')})=0,"",${quoted(MAX_MIN_WORDS)})`,
        'hint',
        { name: 'max_min_days_words' },
      ),
      ...Object.values(TEMPERATURE_COLUMNS).flatMap(({ letters, spec }) => [
        label(`${letters}${FIRST_ROW - 3}`, spec.label, 'header'),
        label(`${letters}${FIRST_ROW - 2}`, spec.unit, 'headerUnit'),
      ]),
      ...columnHeaders(columns),
    ],
    formulaColumns: columns,
    inputColumns: Object.values(TEMPERATURE_COLUMNS).map(({ letters, spec: { name, style } }) => ({
      letters,
      ...(name === undefined ? {} : { name }),
      firstRow: FIRST_ROW,
      rows: TEMPERATURE_ROWS,
      style,
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
