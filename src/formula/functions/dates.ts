import { type FormulaFunction, ofNumbers } from './describe.js';

const MS_A_DAY = 86_400_000;
/** Day 0 of a spreadsheet's calendar; right from 1 March 1900 on. */
const EPOCH_MS = Date.UTC(1899, 11, 30);

const dateOf = (serial: number): Date => new Date(EPOCH_MS + Math.floor(serial) * MS_A_DAY);

export const DATES: Record<string, FormulaFunction> = {
  DATE: ofNumbers((year = 0, month = 1, day = 1) => (Date.UTC(year, month - 1, day) - EPOCH_MS) / MS_A_DAY),
  YEAR: ofNumbers((serial = 0) => dateOf(serial).getUTCFullYear()),
  MONTH: ofNumbers((serial = 0) => dateOf(serial).getUTCMonth() + 1),
  DAY: ofNumbers((serial = 0) => dateOf(serial).getUTCDate()),
};
