import { RATES_USED } from './sheets/rates-used.js';
import { BLOCK_ROWS, FIRST_ROW, TARIFFS } from './sheets/shape.js';
import { WORKING_SHEETS } from './sheets/sheet-names.js';

/** Tariffs side by side. */
export const TARIFF_COUNT = TARIFFS;
/** Days that a workbook holds unless it is built for more. */
export const USUAL_DAYS = 400;
/** Days that a workbook can be built for: a month, and three winters. */
export const FEWEST_DAYS = 31;
export const MOST_DAYS = 1100;
/** Clock changes that the workbook holds: some twenty years of two a year. */
export const CLOCK_ROWS = 40;

/** Row above the first, which starts running values. */
export const SEED_ROW = FIRST_ROW - 1;
export const LAST_CLOCK_ROW = FIRST_ROW + CLOCK_ROWS - 1;
export { BLOCK_ROWS, FIRST_ROW, RATES_USED };

/** Sheet names, in the order of their tabs. */
export const SHEETS = {
  start: 'Start',
  answer: 'Answer',
  tariffs: 'Tariffs',
  bills: 'Bills',
  home: 'Home',
  when: 'When',
  battery: 'Battery',
  heating: 'Heating',
  heatingInputs: 'Heating inputs',
  gas: 'Gas',
  temperatures: 'Temperatures',
  readings: WORKING_SHEETS.readings,
  checks: 'Checks',
  months: WORKING_SHEETS.months,
  days: WORKING_SHEETS.days,
  halfHours: WORKING_SHEETS.halfHours,
  batteryFigures: WORKING_SHEETS.batteryFigures,
  averageDays: WORKING_SHEETS.averageDays,
  batteryLevels: WORKING_SHEETS.batteryLevels,
  batterySpan: 'Battery span',
  profile: 'Profile',
  heatingFigures: 'Heating figures',
  heatingMonths: 'Heating months',
  heatingDays: 'Heating days',
  chartData: 'Chart data',
  rates: WORKING_SHEETS.rates,
  rateGrid: WORKING_SHEETS.rateGrid,
  clock: WORKING_SHEETS.clock,
  notes: 'Notes',
} as const;
export type SheetName = (typeof SHEETS)[keyof typeof SHEETS];
