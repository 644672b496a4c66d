import { absolute, absoluteColumn, columnLetters } from '../cell-address.js';
import type { Field } from '../fields/field.js';
import { HOME_FIELDS, PERIOD_FIELDS } from '../fields/home-fields.js';
import { FIRST_ROW, LAST_CLOCK_ROW, partLetters, SHEETS } from '../layout.js';

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

function clock(column: number): string {
  return partLetters('clock', column);
}

/** First and last day that the clock covers. */
export const CLOCK_COVERS = { from: `${clock(2)}5`, until: `${clock(3)}5` } as const;
/** Cell with the zone of the clock changes. */
export const CLOCK_ZONE = `${clock(2)}3`;
/** Letters of the clock's columns. */
export const CLOCK = {
  from: clock(1),
  before: clock(2),
  after: clock(3),
  gained: clock(4),
  day: clock(5),
} as const;

/** A whole column of the clock changes. */
export const clockColumn = (letters: string): string =>
  absoluteColumn(SHEETS.clock, letters, FIRST_ROW, LAST_CLOCK_ROW);

/** Cells of inputs that many sheets look at. */
export const CELL = {
  fromMonth: fixed(PERIOD_FIELDS.fromMonth),
  toMonth: fixed(PERIOD_FIELDS.toMonth),
  timeZone: fixed(HOME_FIELDS.timeZone),
  vatShare: fixed(HOME_FIELDS.vatShare),
  currency: fixed(HOME_FIELDS.currency),
  minorUnit: fixed(HOME_FIELDS.minorUnit),
  largestHalfHour: fixed(HOME_FIELDS.largestHalfHourKwh),
  batteryRan: fixed(HOME_FIELDS.batteryRan),
} as const;

/** The cell of a field by its place, though it has a name. */
function fixed({ cell: { place } }: Field): string {
  return absolute(place.sheet, columnLetters(place.column), place.row);
}
