import { SENSITIVITY_ROWS } from '../../../heating/comparison/sensitivity-lines.js';
import { absolute, absoluteColumn } from '../../cell-address.js';
import {
  DEGREE_DAY_ROWS,
  GAS_ROWS,
  HEATING_RATE_ROWS,
  TEMPERATURE_ROWS,
} from '../../inputs/heating-cells.js';
import { FIRST_ROW, LAST_DAY_ROW, LAST_MONTH_ROW, SHEETS } from '../../layout.js';
import { SETTING_LETTERS, settingOf } from './heating-settings.js';

/** Input cell of a setting. */
export function settingCell(key: string): string {
  return absolute(SHEETS.heatingInputs, SETTING_LETTERS, settingOf(key).row);
}

/** Tables on the right of the inputs sheet: first rows of data, and letters. */
export const RATES_TABLE = {
  heading: 4,
  first: 7,
  from: 'G',
  gasRate: 'H',
  gasStanding: 'I',
  singleRate: 'J',
} as const;
export const DEGREE_DAY_TABLE = {
  heading: RATES_TABLE.first + HEATING_RATE_ROWS + 1,
  first: RATES_TABLE.first + HEATING_RATE_ROWS + 4,
  month: 'G',
  degreeDays: 'H',
} as const;
export const SENSITIVITY_TABLE = {
  heading: DEGREE_DAY_TABLE.heading,
  first: DEGREE_DAY_TABLE.first,
  kind: 'I',
  value: 'J',
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
/** Letters of what the comparison takes of a row of gas, by key of its inputs and lines. */
export const GAS_LINE_LETTERS: Readonly<Record<string, string>> = {
  gasDays: 'H',
  gasKwh: 'I',
  gasDegreeDays: 'J',
  gasKwhPerDay: 'L',
  gasDegreeDaysPerDay: 'M',
};
export const LAST_GAS_ROW = FIRST_ROW + GAS_ROWS - 1;
export const gasColumn = (letters: string): string =>
  absoluteColumn(SHEETS.gas, letters, FIRST_ROW, LAST_GAS_ROW);

/** Letters of the temperatures sheet. */
export const TEMPERATURE = {
  date: 'A',
  meanC: 'B',
  maxC: 'C',
  minC: 'D',
  degreeDays: 'E',
  problem: 'F',
} as const;
export const LAST_TEMPERATURE_ROW = FIRST_ROW + TEMPERATURE_ROWS - 1;
export const temperatureColumn = (letters: string): string =>
  absoluteColumn(SHEETS.temperatures, letters, FIRST_ROW, LAST_TEMPERATURE_ROW);

/** Letters of the heating days sheet. */
export const HEATING_DAY = {
  date: 'A',
  heatPumpHalfHours: 'B',
  heatPumpKwh: 'C',
  temperatureHalfHours: 'D',
  meanC: 'E',
  degreeDays: 'F',
  inFit: 'G',
  fitDegreeDays: 'H',
  fitKwh: 'I',
  chartDegreeDays: 'J',
  chartKwh: 'K',
} as const;
/** Row of the first day in the fit, from 1; 0 where there is none. */
export const FIRST_IN_FIT_CELL = absolute(SHEETS.heatingDays, 'B', 3);
export const heatingDayColumn = (letters: string): string =>
  absoluteColumn(SHEETS.heatingDays, letters, FIRST_ROW, LAST_DAY_ROW);
export const heatingMonthColumn = (letters: string): string =>
  absoluteColumn(SHEETS.heatingMonths, letters, FIRST_ROW, LAST_MONTH_ROW);

/** First rows of the blocks on the heating sheet; charts stand right of the first and the third. */
export const HEATING_ROWS = {
  keyFigures: 7,
  months: 27,
  year: 48,
  hotWater: 65,
  sensitivity: 77,
  cautions: 99,
} as const;
