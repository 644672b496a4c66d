import { columnLetters } from '../cell-address.js';

/**
 * The sheet that each part of the inputs and workings is on; some are on one sheet, side by side. A name without a space
 * or a dash needs no quotes in formulas, which keeps the many that look at half-hours short.
 */
export const WORKING_SHEETS = {
  readings: 'Readings',
  clock: 'Rates',
  rates: 'Rates',
  rateGrid: 'Rate grid',
  batteryFigures: 'Rates',
  averageDays: 'Days',
  batteryLevels: 'Months',
  days: 'Days',
  halfHours: 'Grid',
  months: 'Months',
} as const;

/**
 * First column of parts that stand right of others, by number. There is room before them for more columns: a part that
 * moves makes a new layout.
 */
export const FIRST_COLUMN = {
  /** On Heating. */
  heatingInputs: 21,
  /** On Old boiler. */
  temperatures: 31,
  /** On Rates. */
  batteryFigures: 21,
  clock: 31,
  /** On Days and Months. */
  heatingDays: 341,
  averageDays: 381,
  heatingMonths: 401,
  batteryLevels: 521,
  /** On Charts. */
  profile: 41,
  batterySpan: 101,
  heatingFigures: 121,
  yearAhead: 201,
} as const;

/** Letters of a column of such a part, by its number from the part's first. */
export function partLetters(part: keyof typeof FIRST_COLUMN, column: number): string {
  return columnLetters(FIRST_COLUMN[part] + column - 1);
}
