import { MAX_RATE_PERIODS, MAX_WINDOWS } from '../tariffs/tariff.js';

/** Tariffs side by side. */
export const TARIFF_COUNT = 6;
/** Half-hours that the workbook holds: 400 days. */
export const READING_ROWS = 19_200;
/** Days that the workbook holds. */
export const DAY_ROWS = 400;
/** Calendar months that 400 days can touch. */
export const MONTH_ROWS = 15;
/** Clock changes that the workbook holds: some twenty years of two a year. */
export const CLOCK_ROWS = 40;
/** Half-hours in a week. */
export const WEEK_SLOTS = 336;
/** Bands of a tariff: the base rate and its windows. */
export const BANDS = MAX_WINDOWS + 1;
/** Rows of a rates block: each band in each rate period. */
export const RATE_ROWS = MAX_RATE_PERIODS * BANDS;

/** First row of data on the sheets that have one row a reading, day or month. */
export const FIRST_ROW = 8;
/** Row above the first, which starts running values. */
export const SEED_ROW = FIRST_ROW - 1;
export const LAST_READING_ROW = FIRST_ROW + READING_ROWS - 1;
export const LAST_DAY_ROW = FIRST_ROW + DAY_ROWS - 1;
export const LAST_MONTH_ROW = FIRST_ROW + MONTH_ROWS - 1;
export const LAST_CLOCK_ROW = FIRST_ROW + CLOCK_ROWS - 1;

/** Sheet names, in the order of their tabs. */
export const SHEETS = {
  start: 'Start',
  answer: 'Answer',
  tariffs: 'Tariffs',
  home: 'Home',
  battery: 'Battery',
  heating: 'Heating',
  heatingInputs: 'Heating inputs',
  gas: 'Gas',
  temperatures: 'Temperatures',
  readings: 'Readings',
  checks: 'Checks',
  months: 'Months',
  days: 'Days',
  halfHours: 'Half-hours',
  batteryMonths: 'Battery months',
  batteryDays: 'Battery days',
  batteryHalfHours: 'Battery half-hours',
  profile: 'Profile',
  heatingFigures: 'Heating figures',
  heatingMonths: 'Heating months',
  heatingDays: 'Heating days',
  chartData: 'Chart data',
  windows: 'Windows',
  rates: 'Rates',
  clock: 'Clock',
  notes: 'Notes',
} as const;
export type SheetName = (typeof SHEETS)[keyof typeof SHEETS];
