import { MAX_RATE_PERIODS, MAX_WINDOWS } from '../../tariffs/tariff.js';
import { columnLetters } from '../cell-address.js';
import { ofFields } from '../fields/field.js';
import { ratesHeadingRow, TARIFF_FIELDS, TODAYS_TARIFF } from '../fields/tariff-fields.js';
import { FIRST_TARIFF_COLUMN } from '../fields/tariff-places.js';
import { TARIFF_COUNT } from '../layout.js';

const [FIRST] = TARIFF_FIELDS;
if (FIRST === undefined) throw new RangeError('the workbook holds no tariff');
const ROWS = ofFields(FIRST, ({ cell }) => cell.place.row, 0);

/** Column letters of a tariff (from 0) on the tariffs sheet. */
export function tariffLetters(tariff: number): string {
  return columnLetters(FIRST_TARIFF_COLUMN + tariff);
}
export const FIRST_TARIFF_LETTERS = tariffLetters(0);
export const LAST_TARIFF_LETTERS = tariffLetters(TARIFF_COUNT - 1);

/** A formula of each tariff, that of the tariff at a place from 1; the others are not worked out. */
export function chooseTariff(place: string, formulaOf: (tariff: number) => string): string {
  return `CHOOSE(${place},${Array.from({ length: TARIFF_COUNT }, (_, tariff) => formulaOf(tariff)).join(',')})`;
}

/** Rows of the tariffs sheet. */
export const TARIFF_ROW = {
  sentence: 2,
  todays: TODAYS_TARIFF.cell.place.row,
  name: ROWS.name,
  total: 6,
  difference: 7,
  rank: 8,
  energy: 9,
  standing: 10,
  exportCredit: 11,
  allIn: 12,
  offPeakShare: 13,
  breakEvenShare: 14,
  headroom: 15,
  differenceAfterExit: 16,
  coverage: 17,
  /** Without the battery, where one is entered. */
  withoutBattery: 18,
  batterySaving: 19,
  chargesHeading: 21,
  clock: ROWS.clock,
  includesVat: ROWS.includesVat,
  halfHourlyPriced: ROWS.halfHourlyPriced,
  exitFee: ROWS.exitFee,
  priceIncludesVat: ROWS.priceIncludesVat,
  windowsHeading: 27,
  firstWindow: ROWS.windows[0]?.from ?? 0,
} as const;

/** Cell with the name of today's tariff. */
export const TODAYS_TARIFF_CELL = TODAYS_TARIFF.at;

/** Rows of a window (from 0): from, to, days. */
export function windowRows(window: number): { from: number; to: number; days: number } {
  const rows = ROWS.windows[window];
  if (rows === undefined) throw new RangeError(`a tariff has no window ${window + 1}`);
  return rows;
}

/** Rows of a set of rates (from 0); the first set has no date. */
export function ratePeriodRows(period: number): {
  heading: number;
  validFrom: number;
  standing: number;
  base: number;
  windowRates: number[];
  exportRate: number;
} {
  const heading = ratesHeadingRow(period);
  const rows = ROWS.periods[period];
  if (rows === undefined) throw new RangeError(`a tariff has no set of rates ${period + 1}`);
  return { heading, ...rows, validFrom: heading + 1 };
}

/** Last row of the tariffs sheet. */
export const LAST_TARIFF_ROW = ratePeriodRows(MAX_RATE_PERIODS - 1).exportRate;

/**
 * The input cells of a tariff (from 0), and none but them: formulas stand between, which the sheet's protection
 * keeps from being deleted along with the rest.
 *
 * @returns ranges from the top down
 */
export function tariffInputRanges(tariff: number): string[] {
  const letters = tariffLetters(tariff);
  const rows = (first: number, last: number): string =>
    first === last ? `${letters}${first}` : `${letters}${first}:${letters}${last}`;
  return [
    rows(TARIFF_ROW.name, TARIFF_ROW.name),
    rows(TARIFF_ROW.clock, TARIFF_ROW.priceIncludesVat),
    rows(TARIFF_ROW.firstWindow, windowRows(MAX_WINDOWS - 1).days),
    ...Array.from({ length: MAX_RATE_PERIODS }, (_, p) => {
      const { validFrom, standing, exportRate } = ratePeriodRows(p);
      return rows(p === 0 ? standing : validFrom, exportRate);
    }),
  ];
}

/** Defined name of the inputs of a tariff (from 0): chosen in the name box, it selects them all. */
export const clearName = (tariff: number): string => `clear_tariff_${tariff + 1}`;

/** Rows of the lines that the results at the top are made with, below the inputs. */
export const HELPER_ROW = {
  heading: LAST_TARIFF_ROW + 2,
  todaysPlace: LAST_TARIFF_ROW + 3,
  peakRate: LAST_TARIFF_ROW + 4,
  offPeakRate: LAST_TARIFF_ROW + 5,
  targetRate: LAST_TARIFF_ROW + 6,
  unpriced: LAST_TARIFF_ROW + 7,
  faults: LAST_TARIFF_ROW + 8,
  priced: LAST_TARIFF_ROW + 9,
  todaysIsPriced: LAST_TARIFF_ROW + 10,
  boughtKwh: LAST_TARIFF_ROW + 11,
  totalWithout: LAST_TARIFF_ROW + 12,
  totalWith: LAST_TARIFF_ROW + 13,
} as const;
/** Defined name of the cell that says whether a tariff (from 0) has all rates and prices that a total needs. */
export const pricedName = (tariff: number): string => `tariff_${tariff + 1}_is_priced`;
/** Defined name of the cell that says so of today's tariff. */
export const TODAYS_IS_PRICED_NAME = 'todays_is_priced';
/** Defined name of the cell that says whether a tariff (from 0) has a total: it is priced, and the period has readings. */
export const hasTotalName = (tariff: number): string => `has_total_${tariff + 1}`;
/** Defined name of the column of today's tariff, from 1; 0 where it is none of them. */
export const TODAYS_PLACE_NAME = 'todays_place';
