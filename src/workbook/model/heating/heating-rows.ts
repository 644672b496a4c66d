import type { Reference } from '../../../formula/nodes.js';
import { SENSITIVITY_ROWS } from '../../../heating/comparison/sensitivity-lines.js';
import { areaReference } from '../../book/terms.js';
import { absoluteColumn, columnLetters, columnNumber } from '../../cell-address.js';
import type { Field } from '../../fields/field.js';
import type { FieldColumn, FieldColumns } from '../../fields/field-column.js';
import { GAS_COLUMNS } from '../../fields/gas-fields.js';
import {
  DEGREE_DAY_ROWS,
  HEATING_RATE_ROWS,
  HEATING_TABLES,
  TABLE_HEADING_ROW,
} from '../../fields/heating-fields.js';
import { settingName } from '../../fields/heating-settings.js';
import { TEMPERATURE_COLUMNS, TEMPERATURE_ROWS } from '../../fields/temperature-fields.js';
import { wordsOf } from '../../fields/words-of.js';
import { FIRST_ROW, partLetters, SHEETS } from '../../layout.js';
import type { Shape } from '../../sheets/shape.js';

/** Input cell of a setting, by its defined name. */
export function settingCell(key: string): string {
  return settingName(key);
}

/** Tables on the right of the inputs sheet: first rows of data, and letters. */
const lettersIn = (fields: Readonly<Record<string, Field>> | undefined, key: string): string =>
  columnLetters(fields?.[key]?.cell.place.column ?? 0);
const [RATES] = HEATING_TABLES.rates;
const [DEGREE_DAYS] = HEATING_TABLES.monthDegreeDays;
const [WHAT_IF] = HEATING_TABLES.sensitivity;
export const RATES_TABLE = {
  heading: TABLE_HEADING_ROW.rates,
  first: TABLE_HEADING_ROW.rates + 3,
  from: lettersIn(RATES, 'from'),
  gasRate: lettersIn(RATES, 'gasRate'),
  gasStanding: lettersIn(RATES, 'gasStanding'),
  singleRate: lettersIn(RATES, 'singleRate'),
} as const;
export const DEGREE_DAY_TABLE = {
  heading: TABLE_HEADING_ROW.others,
  first: TABLE_HEADING_ROW.others + 3,
  month: lettersIn(DEGREE_DAYS, 'month'),
  degreeDays: lettersIn(DEGREE_DAYS, 'degreeDays'),
} as const;
export const SENSITIVITY_TABLE = {
  heading: DEGREE_DAY_TABLE.heading,
  first: DEGREE_DAY_TABLE.first,
  kind: columnLetters((WHAT_IF?.cell.place.column ?? 1) - 1),
  value: columnLetters(WHAT_IF?.cell.place.column ?? 1),
} as const;

const tableColumn = (first: number, rows: number) => (letters: string) =>
  absoluteColumn(SHEETS.heatingInputs, letters, first, first + rows - 1);
export const rateColumn = tableColumn(RATES_TABLE.first, HEATING_RATE_ROWS);
export const monthDegreeDayColumn = tableColumn(DEGREE_DAY_TABLE.first, DEGREE_DAY_ROWS);
export const SENSITIVITY_COUNT = SENSITIVITY_ROWS.length;

const lettersOf = <Key extends string>(columns: FieldColumns<Key>): Readonly<Record<Key, string>> =>
  Object.fromEntries(
    Object.entries<FieldColumn>(columns).map(([key, { letters }]) => [key, letters]),
  ) as Record<Key, string>;
/** Letters of the gas sheet: what is typed, then what is worked out. */
export const GAS = {
  ...lettersOf(GAS_COLUMNS),
  source: 'K',
} as const;
/** Letters of what is worked out beside a row of gas, right of what the comparison takes of it. */
export const GAS_HELP = {
  calorificValue: 'N',
  volumeKwh: 'O',
  tableDays: 'P',
  tableDegreeDays: 'Q',
  readDays: 'R',
  readDegreeDays: 'S',
  unusable: 'T',
  overlaps: 'U',
  tableLower: 'V',
  readLower: 'W',
  lowerBaseDegreeDays: 'X',
  lowerBasePerDay: 'Y',
  wrongDates: 'Z',
  missing: 'AA',
  wrongAmounts: 'AB',
  wrongOthers: 'AC',
} as const;
/** Letters of what the comparison takes of a row of gas, by key of its inputs and lines. */
export const GAS_LINE_LETTERS: Readonly<Record<string, string>> = {
  gasDays: 'H',
  gasKwh: 'I',
  gasDegreeDays: 'J',
  gasKwhPerDay: 'L',
  gasDegreeDaysPerDay: 'M',
};
/** Defined name of a column that the comparison takes of the rows of gas. */
export const gasName = (key: string): string => wordsOf(key);

/** Letters of the temperatures by day, right of the gas. */
export const TEMPERATURE = {
  ...lettersOf(TEMPERATURE_COLUMNS),
  degreeDays: partLetters('temperatures', 5),
  problem: partLetters('temperatures', 6),
  fromMaxMin: partLetters('temperatures', 7),
  wrongTemperatures: partLetters('temperatures', 8),
  wrongDay: partLetters('temperatures', 9),
} as const;
/** What is wrong with a row of the temperatures sheet. */
export const TEMPERATURE_PROBLEM = {
  none: 0,
  unusable: 1,
  repeatedOrOutOfOrder: 2,
  noTemperature: 3,
} as const;
export const LAST_TEMPERATURE_ROW = FIRST_ROW + TEMPERATURE_ROWS - 1;
type WorkedTemperature = Exclude<keyof typeof TEMPERATURE, keyof typeof TEMPERATURE_COLUMNS>;
const TEMPERATURE_NAMES: Readonly<Record<WorkedTemperature, string>> = {
  degreeDays: 'temperature_degree_days',
  problem: 'temperature_problem',
  fromMaxMin: 'temperature_degree_days_max_min',
  wrongTemperatures: 'temperatures_wrong',
  wrongDay: 'temperature_days_wrong',
};
/** Defined name of a column of the temperatures sheet. */
export const temperatureName = (key: keyof typeof TEMPERATURE): string =>
  key in TEMPERATURE_COLUMNS
    ? (TEMPERATURE_COLUMNS[key as keyof typeof TEMPERATURE_COLUMNS].spec.name ?? '')
    : TEMPERATURE_NAMES[key as WorkedTemperature];
/** A column of the temperatures sheet as a term. */
export function temperatureRange(key: keyof typeof TEMPERATURE): Reference {
  const column = columnNumber(TEMPERATURE[key]);
  const rows = { firstRow: FIRST_ROW, lastRow: LAST_TEMPERATURE_ROW };
  const area = { sheet: SHEETS.temperatures, ...rows, firstColumn: column, lastColumn: column };
  return areaReference(area, temperatureName(key));
}

/** Defined name of a column of the heating months sheet. */
export const heatingMonthName = (key: string): string => `monthly_${wordsOf(key).replace(/^month_/, '')}`;

/** First rows of the blocks on the heating sheet; charts stand right of the first and the third. */
export interface HeatingRows {
  keyFigures: number;
  months: number;
  year: number;
  hotWater: number;
  sensitivity: number;
  cautions: number;
}

/** They move down by as many rows as there are months. */
export function heatingRows({ monthRows }: Shape): HeatingRows {
  const months = 27;
  const year = months + monthRows + 6;
  return {
    keyFigures: 7,
    months,
    year,
    hotWater: year + 17,
    sensitivity: year + 29,
    cautions: year + 51,
  };
}
