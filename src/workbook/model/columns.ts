import { absoluteColumn } from '../cell-address.js';
import { FIRST_ROW, LAST_CLOCK_ROW, SHEETS } from '../layout.js';

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

/** Letters of the clock sheet's columns. */
/** First and last day that the clock sheet covers. */
export const CLOCK_COVERS = { from: 'B5', until: 'C5' } as const;
export const CLOCK = { from: 'A', before: 'B', after: 'C', gained: 'D', day: 'E' } as const;

/** A whole column of the clock sheet. */
export const clockColumn = (letters: string): string =>
  absoluteColumn(SHEETS.clock, letters, FIRST_ROW, LAST_CLOCK_ROW);

/** Cells of inputs that many sheets look at. */
export const CELL = {
  fromMonth: `${SHEETS.answer}!$C$4`,
  toMonth: `${SHEETS.answer}!$E$4`,
  timeZone: `${SHEETS.home}!$C$4`,
  vatShare: `${SHEETS.home}!$C$5`,
  currency: `${SHEETS.home}!$C$6`,
  minorUnit: `${SHEETS.home}!$C$7`,
  largestHalfHour: `${SHEETS.home}!$C$8`,
  batteryRan: `${SHEETS.home}!$C$9`,
} as const;
