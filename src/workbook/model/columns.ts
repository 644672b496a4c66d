import { absoluteColumn, columnLetters } from '../cell-address.js';
import {
  FIRST_ROW,
  LAST_CLOCK_ROW,
  LAST_DAY_ROW,
  LAST_MONTH_ROW,
  LAST_READING_ROW,
  SHEETS,
  TARIFF_COUNT,
} from '../layout.js';

/** Letters of the readings sheet's columns. */
export const READING = {
  start: 'A',
  offset: 'B',
  importKwh: 'C',
  exportKwh: 'D',
  solarKwh: 'E',
  batteryInKwh: 'F',
  batteryOutKwh: 'G',
  heatPumpKwh: 'H',
  heatOutputKwh: 'I',
  carKwh: 'J',
  outdoorC: 'K',
  pricePence: 'L',
  mark: 'M',
} as const;
/** First and last value columns of the readings sheet. */
export const READING_VALUES = { first: READING.importKwh, last: READING.pricePence } as const;

/** Letters of the half-hours sheet's columns; the functions take a tariff from 0. */
export const HALF_HOUR = {
  start: 'A',
  clockRow: 'B',
  offset: 'C',
  instant: 'D',
  latest: 'E',
  used: 'F',
  problem: 'G',
  day: 'H',
  month: 'I',
  weekSlotLocal: 'J',
  weekSlotUtc: 'K',
  metered: 'L',
  importKwh: 'M',
  exportKwh: 'N',
  demandKwh: 'O',
  clampedKwh: 'P',
  unitRate: (tariff: number) => block(17, 0, tariff),
  offPeakKwh: (tariff: number) => block(17, 1, tariff),
} as const;

/** Letters of the days sheet's columns. */
export const DAY = {
  date: 'A',
  month: 'B',
  expected: 'C',
  metered: 'D',
  importKwh: 'E',
  exportKwh: 'F',
  demandKwh: 'G',
  ratePeriod: (tariff: number) => block(8, 0, tariff),
  standing: (tariff: number) => block(8, 1, tariff),
  exportCredit: (tariff: number) => block(8, 2, tariff),
} as const;

/** Letters of the months sheet's columns. */
export const MONTH = {
  start: 'A',
  selected: 'B',
  days: 'C',
  expected: 'D',
  metered: 'E',
  importKwh: 'F',
  exportKwh: 'G',
  demandKwh: 'H',
  energy: (tariff: number) => block(9, 0, tariff),
  standing: (tariff: number) => block(9, 1, tariff),
  exportCredit: (tariff: number) => block(9, 2, tariff),
  total: (tariff: number) => block(9, 3, tariff),
  offPeakKwh: (tariff: number) => block(9, 4, tariff),
  offPeakCost: (tariff: number) => block(9, 5, tariff),
} as const;
/** Row of the months sheet that sums the chosen period. */
export const PERIOD_ROW = LAST_MONTH_ROW + 2;

/** Letters of the clock sheet's columns. */
export const CLOCK = { from: 'A', before: 'B', after: 'C', gained: 'D', day: 'E' } as const;

function block(firstColumn: number, item: number, tariff: number): string {
  return columnLetters(firstColumn + item * TARIFF_COUNT + tariff);
}

/** Whole data columns, as absolute references. */
export const readingColumn = (letters: string): string =>
  absoluteColumn(SHEETS.readings, letters, FIRST_ROW, LAST_READING_ROW);
export const halfHourColumn = (letters: string): string =>
  absoluteColumn(SHEETS.halfHours, letters, FIRST_ROW, LAST_READING_ROW);
export const dayColumn = (letters: string): string =>
  absoluteColumn(SHEETS.days, letters, FIRST_ROW, LAST_DAY_ROW);
export const monthColumn = (letters: string): string =>
  absoluteColumn(SHEETS.months, letters, FIRST_ROW, LAST_MONTH_ROW);
export const clockColumn = (letters: string): string =>
  absoluteColumn(SHEETS.clock, letters, FIRST_ROW, LAST_CLOCK_ROW);

/** Cells that single facts live in. */
export const CELL = {
  firstDay: `${SHEETS.days}!$B$3`,
  lastDay: `${SHEETS.days}!$B$4`,
  effectiveFrom: `${SHEETS.months}!$B$3`,
  effectiveTo: `${SHEETS.months}!$B$4`,
  fromMonth: `${SHEETS.answer}!$C$4`,
  toMonth: `${SHEETS.answer}!$E$4`,
  timeZone: `${SHEETS.home}!$C$4`,
  vatShare: `${SHEETS.home}!$C$5`,
  currency: `${SHEETS.home}!$C$6`,
  minorUnit: `${SHEETS.home}!$C$7`,
  largestHalfHour: `${SHEETS.home}!$C$8`,
  batteryRan: `${SHEETS.home}!$C$9`,
} as const;
