import { roundMoney } from '../../charges/round-money.js';
import { MONTH_ROWS, READING_ROWS } from '../layout.js';
import type { CellValue } from '../model/sheet-model.js';
import { firstOfMonth } from './calendar-parts.js';
import type { DayLines, TariffDayLines } from './day-lines.js';
import type { HalfHourLines } from './half-hour-lines.js';
import { spreadsheetRound } from './spreadsheet-round.js';
import type { TariffHalfHours } from './tariff-half-hours.js';

/** The lines of the months sheet that all tariffs share; one entry a row. */
export interface MonthLines {
  effectiveFrom: number;
  effectiveTo: number;
  start: Float64Array;
  selected: Uint8Array;
  days: Float64Array;
  expected: Float64Array;
  metered: Float64Array;
  importKwh: Float64Array;
  exportKwh: Float64Array;
  demandKwh: Float64Array;
}

/** A tariff's bill lines by month, in pounds rounded to the penny, and its off-peak use. */
export interface TariffMonthLines {
  energyPounds: Float64Array;
  standingPounds: Float64Array;
  exportCreditPounds: Float64Array;
  totalPounds: Float64Array;
  offPeakKwh: Float64Array;
  offPeakCostPence: Float64Array;
}

/** A to-month that stands for no end. */
export const NO_END_SERIAL = 99_999;

/** Sums a line by month. */
export function sumByMonth(monthNumber: Int32Array, values: ArrayLike<number>): Float64Array {
  const sums = new Float64Array(MONTH_ROWS);
  for (let row = 0; row < monthNumber.length; row++) {
    const month = monthNumber[row]!;
    if (month > 0) sums[month - 1]! += values[row]!;
  }
  return sums;
}

/** Pence to pounds, rounded to the penny as a bill does on its line. */
export function billPounds(pence: number): number {
  return roundMoney(pence / 100);
}

export function monthLines(
  halfHours: HalfHourLines,
  days: DayLines,
  fromMonth: CellValue,
  toMonth: CellValue,
): MonthLines {
  const effectiveFrom = typeof fromMonth === 'number' ? firstOfMonth(fromMonth) : 0;
  const effectiveTo = typeof toMonth === 'number' ? firstOfMonth(toMonth) : NO_END_SERIAL;
  const start = new Float64Array(MONTH_ROWS);
  const selected = new Uint8Array(MONTH_ROWS);
  for (let month = 0; month < MONTH_ROWS && halfHours.firstDay > 0; month++) {
    const serial = firstOfMonth(halfHours.firstDay, month);
    if (serial > halfHours.lastDay) break;
    start[month] = serial;
    selected[month] = serial >= effectiveFrom && serial <= effectiveTo ? 1 : 0;
  }
  const byMonth = (values: ArrayLike<number>): Float64Array => sumByMonth(days.monthNumber, values);
  return {
    effectiveFrom,
    effectiveTo,
    start,
    selected,
    days: byMonth(new Float64Array(days.date.length).fill(1)),
    expected: byMonth(days.expected),
    metered: byMonth(days.metered),
    importKwh: byMonth(days.importKwh),
    exportKwh: byMonth(days.exportKwh),
    demandKwh: byMonth(days.demandKwh),
  };
}

export function tariffMonthLines(
  halfHours: HalfHourLines,
  days: DayLines,
  tariffHalfHours: TariffHalfHours,
  tariffDays: TariffDayLines,
): TariffMonthLines {
  const offPeakCost = new Float64Array(READING_ROWS);
  for (let row = 0; row < READING_ROWS; row++) {
    offPeakCost[row] = tariffHalfHours.offPeakKwh[row]! * tariffHalfHours.unitRatePence[row]!;
  }
  const byHalfHour = (values: ArrayLike<number>): Float64Array => sumByMonth(halfHours.monthNumber, values);
  const byDay = (values: ArrayLike<number>): Float64Array => sumByMonth(days.monthNumber, values);
  const energyPounds = byHalfHour(tariffHalfHours.energyCostPence).map(billPounds);
  const standingPounds = byDay(tariffDays.standingPence).map(billPounds);
  const exportCreditPounds = byDay(tariffDays.exportCreditPence).map(billPounds);
  return {
    energyPounds,
    standingPounds,
    exportCreditPounds,
    totalPounds: energyPounds.map((energy, m) =>
      spreadsheetRound(energy + standingPounds[m]! - exportCreditPounds[m]!, 2),
    ),
    offPeakKwh: byHalfHour(tariffHalfHours.offPeakKwh),
    offPeakCostPence: byHalfHour(offPeakCost),
  };
}
