import { POSSIBLE_C } from '../../readings/index.js';
import { f } from '../book/terms.js';
import { FIRST_COLUMN, FIRST_ROW, SHEETS } from '../layout.js';
import { dateField, numberField } from './field.js';
import { fieldColumns, fieldRows, limitOfRows, type RowRule } from './field-column.js';

/** Days of outdoor temperature that the workbook holds: some three years. */
export const TEMPERATURE_ROWS = 1_100;

const degrees = (label: string, name: string) =>
  numberField({
    from: POSSIBLE_C[0],
    to: POSSIBLE_C[1],
    mayBeBlank: true,
    label,
    unit: '°C',
    style: 'inputTemperature',
    hint: 'Of the day, outdoors.',
    what: 'the temperature',
    toDo: `Type °C, from ${POSSIBLE_C[0]} to ${POSSIBLE_C[1]}, or clear the cell.`,
    name,
  });

/** What is typed of each day. */
export const TEMPERATURE_COLUMNS = fieldColumns(
  { sheet: SHEETS.temperatures, row: FIRST_ROW, column: FIRST_COLUMN.temperatures },
  TEMPERATURE_ROWS,
  {
    date: dateField({
      whole: true,
      mayBeBlank: true,
      label: 'Day',
      unit: 'date',
      style: 'inputDate',
      hint: 'The day that the temperatures are of.',
      what: 'the day',
      toDo: 'Type the date of the day.',
      name: 'temperature_day',
    }),
    meanC: degrees('Mean', 'temperature_mean'),
    maxC: degrees('Maximum', 'temperature_max'),
    minC: degrees('Minimum', 'temperature_min'),
  },
);
/** The fields of every day. */
export const TEMPERATURE_FIELDS = fieldRows(TEMPERATURE_COLUMNS);

const { date, meanC, maxC, minC } = TEMPERATURE_COLUMNS;

/** What a day's row has to keep to, by what its flags are about. */
export const TEMPERATURE_RULES = {
  temperatures: [
    limitOfRows(meanC),
    limitOfRows(maxC),
    limitOfRows(minC),
    {
      of: maxC,
      is: f`IF(COUNT(${maxC.column},${minC.column})<2,0,IF(${maxC.column}<${minC.column},1,0))`,
      refusal: { found: 'the maximum is below the minimum', whatToDo: 'Swap the two.' },
    },
  ],
  day: [
    limitOfRows(date),
    {
      of: date,
      is: f`IF(AND(ISBLANK(${date.column}),COUNTA(${meanC.column},${maxC.column},${minC.column})>0),1,0)`,
      refusal: { found: 'the temperature has no day', whatToDo: date.spec.toDo ?? '' },
    },
  ],
} as const satisfies Record<string, readonly RowRule[]>;
/** Every rule, in the order in which a row is looked at. */
export const ALL_TEMPERATURE_RULES: readonly RowRule[] = Object.values(TEMPERATURE_RULES).flat();
