import { MAX_WINDOWS } from '../../tariffs/tariff.js';
import { absoluteColumn, columnLetters } from '../cell-address.js';
import { SHEETS, TARIFF_COUNT, WEEK_SLOTS } from '../layout.js';
import { tariffLetters } from './tariff-rows.js';

/** Rows of the windows sheet: each window's limits first, then the week. */
export const WINDOWS = {
  name: 4,
  firstLimit: 6,
  limitRows: 9,
  weekHeading: 6 + MAX_WINDOWS * 9 + 2,
  firstSlot: 6 + MAX_WINDOWS * 9 + 4,
} as const;
export const LAST_SLOT_ROW = WINDOWS.firstSlot + WEEK_SLOTS - 1;

/** First row of a window's limits: start slot, end slot, then Monday to Sunday. */
export function windowLimitRow(window: number): number {
  return WINDOWS.firstLimit + window * WINDOWS.limitRows;
}

/** Column with a tariff's bands; the windows that cover each slot stand further right. */
export function windowBandColumn(tariff: number): string {
  return absoluteColumn(SHEETS.windows, tariffLetters(tariff), WINDOWS.firstSlot, LAST_SLOT_ROW);
}

/** Letters of the column that counts the windows which cover a slot. */
export function coverCountLetters(tariff: number): string {
  return columnLetters(3 + TARIFF_COUNT + tariff);
}

/** Letters of the column that says whether a window covers a slot. */
export function coverLetters(tariff: number, window: number): string {
  return columnLetters(3 + TARIFF_COUNT * 2 + tariff * MAX_WINDOWS + window);
}
