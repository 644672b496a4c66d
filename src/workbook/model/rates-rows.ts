import { MAX_RATE_PERIODS } from '../../tariffs/tariff.js';
import { absoluteColumn } from '../cell-address.js';
import { BANDS, RATE_ROWS, SHEETS } from '../layout.js';
import { tariffLetters } from './tariff-rows.js';

/** Rows of the rates sheet. */
export const RATES = {
  name: 4,
  vatFactor: 5,
  priceFactor: 6,
  firstRate: 8,
  firstValidFrom: 8 + RATE_ROWS + 1,
  firstStanding: 8 + RATE_ROWS + 1 + (MAX_RATE_PERIODS + 1),
  firstExport: 8 + RATE_ROWS + 1 + (MAX_RATE_PERIODS + 1) * 2,
  firstOffPeak: 8 + RATE_ROWS + 1 + (MAX_RATE_PERIODS + 1) * 3,
  firstCheck: 8 + RATE_ROWS + 1 + (MAX_RATE_PERIODS + 1) * 4 + 1,
} as const;

/** Row of a band's rate in a rate period, both from 0. */
export function rateRow(period: number, band: number): number {
  return RATES.firstRate + period * BANDS + band;
}

/** Reference to a tariff's rates, rate period × band. */
export function rateBlock(tariff: number): string {
  return absoluteColumn(
    SHEETS.rates,
    tariffLetters(tariff),
    RATES.firstRate,
    RATES.firstRate + RATE_ROWS - 1,
  );
}

/** Reference to one of the blocks with a row a rate period. */
export function periodBlock(tariff: number, firstRow: number): string {
  return absoluteColumn(SHEETS.rates, tariffLetters(tariff), firstRow, firstRow + MAX_RATE_PERIODS - 1);
}
