import { MAX_WINDOWS } from '../../tariffs/tariff.js';
import { DAY_NAMES } from '../../tariffs/weekdays.js';
import { FIRST_ROW } from '../book/sheet-builder.js';

/** Cells that the true grid gives each day: the longest day's, 50 where autumn adds an hour. */
export const BLOCK_ROWS = 50;
/** Half-hours of a week, and of the longest day after it, so that a day's stretch never wraps. */
export const WEEK_SLOTS = 336;
export const WEEK_ROWS = WEEK_SLOTS + BLOCK_ROWS;
/** Runs of half-hours at one rate that a day can have: two for each window, and a cut at noon. */
export const DAY_RUNS = 2 * MAX_WINDOWS + 1;
/** The same of a week: those of its days, and one more where the week begins. No tariff has more. */
export const WEEK_RUNS = DAY_RUNS * DAY_NAMES.length + 1;
/** Tariffs side by side. */
export const TARIFFS = 8;

/** How much a workbook holds; everything that depends on it is worked out from the days. */
export interface Shape {
  readonly days: number;
  /** Rows of the readings sheet. */
  readonly readingRows: number;
  /** Rows of the true grid. */
  readonly halfHourRows: number;
  /** Calendar months that so many days can touch. */
  readonly monthRows: number;
  /** Clock changes that so many days can have. */
  readonly changes: number;
  readonly tariffs: number;
}

/**
 * The shape of a workbook.
 *
 * @param days calendar days that it holds
 * @param tariffs tariffs side by side
 * @example shapeOf(400).monthRows // 15
 */
export function shapeOf(days: number, tariffs: number = TARIFFS): Shape {
  return {
    days,
    // Two half-hours more: so many days can hold one autumn more than springs.
    readingRows: days * 48 + 2,
    halfHourRows: days * BLOCK_ROWS,
    monthRows: Math.ceil(days / 30.436) + 1,
    changes: Math.ceil((days / 365) * 2) + 1,
    tariffs,
  };
}

/** Numbers of the tariffs, from 0. */
export function tariffNumbers(shape: Shape): number[] {
  return Array.from({ length: shape.tariffs }, (_, tariff) => tariff);
}

export { FIRST_ROW };
