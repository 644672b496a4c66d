import { RATES_USED } from './sheets/rates-used.js';
import { BLOCK_ROWS, FIRST_ROW, TARIFFS } from './sheets/shape.js';
import { FIRST_COLUMN, partLetters, WORKING_SHEETS } from './sheets/sheet-names.js';

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
export { BLOCK_ROWS, FIRST_COLUMN, FIRST_ROW, partLetters, RATES_USED };

/** The sheet that each part of the workbook is on; some parts are on one sheet, side by side. */
export const SHEETS = {
  answer: 'Answer',
  tariffs: 'Tariffs',
  readings: WORKING_SHEETS.readings,
  when: 'When',
  battery: 'Battery',
  heating: 'Heating',
  heatingInputs: 'Heating',
  gas: 'Old boiler',
  temperatures: 'Old boiler',
  bills: 'Bills',
  timers: 'Timers',
  checks: 'Checks',
  notes: 'Notes',
  halfHours: WORKING_SHEETS.halfHours,
  days: WORKING_SHEETS.days,
  heatingDays: WORKING_SHEETS.days,
  months: WORKING_SHEETS.months,
  heatingMonths: WORKING_SHEETS.months,
  rates: WORKING_SHEETS.rates,
  batteryFigures: WORKING_SHEETS.batteryFigures,
  clock: WORKING_SHEETS.clock,
  rateGrid: WORKING_SHEETS.rateGrid,
  averageDays: WORKING_SHEETS.averageDays,
  batteryLevels: WORKING_SHEETS.batteryLevels,
  chartData: 'Charts',
  profile: 'Charts',
  batterySpan: 'Charts',
  heatingFigures: 'Charts',
  yearAhead: 'Charts',
} as const;
export type SheetName = (typeof SHEETS)[keyof typeof SHEETS];
