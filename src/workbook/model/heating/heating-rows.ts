import type { Reference } from '../../../formula/nodes.js';
import { SENSITIVITY_ROWS } from '../../../heating/comparison/sensitivity-lines.js';
import type { GasDialUnit } from '../../../heating/gas-volume-to-energy.js';
import { areaReference } from '../../book/terms.js';
import { absoluteColumn, columnLetters, columnNumber } from '../../cell-address.js';
import type { Field } from '../../fields/field.js';
import {
  DEGREE_DAY_ROWS,
  HEATING_RATE_ROWS,
  HEATING_TABLES,
  TABLE_HEADING_ROW,
} from '../../fields/heating-fields.js';
import { settingName } from '../../fields/heating-settings.js';
import { wordsOf } from '../../fields/words-of.js';
import { TEMPERATURE_ROWS } from '../../inputs/heating-cells.js';
import { FIRST_ROW, SHEETS } from '../../layout.js';
import type { Shape } from '../../sheets/shape.js';
import type { CellValue } from '../sheet-model.js';

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

/** Letters of the gas sheet: what is typed, then what is worked out. */
export const GAS = {
  firstDay: 'A',
  lastDay: 'B',
  kwh: 'C',
  volume: 'D',
  volumeUnit: 'E',
  calorificValue: 'F',
  degreeDays: 'G',
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

const GAS_UNITS: readonly string[] = ['m3', 'ft3', '100ft3'] satisfies GasDialUnit[];

/** Unit of a row's volume; undefined where it is none that is known. */
export function gasUnit(cell: CellValue): GasDialUnit | undefined {
  const unit = cell === null ? 'm3' : typeof cell === 'string' ? cell.toLowerCase() : '';
  return GAS_UNITS.includes(unit) ? (unit as GasDialUnit) : undefined;
}

/** Letters of the temperatures sheet. */
export const TEMPERATURE = {
  date: 'A',
  meanC: 'B',
  maxC: 'C',
  minC: 'D',
  degreeDays: 'E',
  problem: 'F',
  fromMaxMin: 'G',
} as const;
/** What is wrong with a row of the temperatures sheet. */
export const TEMPERATURE_PROBLEM = { none: 0, unusable: 1, repeatedOrOutOfOrder: 2 } as const;
export const LAST_TEMPERATURE_ROW = FIRST_ROW + TEMPERATURE_ROWS - 1;
const TEMPERATURE_NAMES: Readonly<Record<keyof typeof TEMPERATURE, string>> = {
  date: 'temperature_day',
  meanC: 'temperature_mean',
  maxC: 'temperature_max',
  minC: 'temperature_min',
  degreeDays: 'temperature_degree_days',
  problem: 'temperature_problem',
  fromMaxMin: 'temperature_degree_days_max_min',
};
/** Defined name of a column of the temperatures sheet. */
export const temperatureName = (key: keyof typeof TEMPERATURE): string => TEMPERATURE_NAMES[key];
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
