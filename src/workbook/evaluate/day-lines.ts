import type { ClockRows } from '../inputs/workbook-inputs.js';
import { DAY_ROWS, READING_ROWS } from '../layout.js';
import { monthsApart } from './calendar-parts.js';
import type { HalfHourLines } from './half-hour-lines.js';
import { type RateLines, ratePeriodOn } from './rate-lines.js';

/** The lines of the days sheet that all tariffs share; one entry a row. */
export interface DayLines {
  date: Float64Array;
  monthNumber: Int32Array;
  expected: Float64Array;
  metered: Float64Array;
  importKwh: Float64Array;
  exportKwh: Float64Array;
  demandKwh: Float64Array;
}

/** The lines of the days sheet for one tariff; one entry a row. */
export interface TariffDayLines {
  /** Set of rates in force, from 1; 0 on unused rows. */
  ratePeriod: Int32Array;
  standingPence: Float64Array;
  exportCreditPence: Float64Array;
}

/** Sums a half-hourly line by day. */
export function sumByDay(dayNumber: Int32Array, values: ArrayLike<number>): Float64Array {
  const sums = new Float64Array(DAY_ROWS);
  for (let row = 0; row < READING_ROWS; row++) {
    const day = dayNumber[row]!;
    if (day > 0) sums[day - 1]! += values[row]!;
  }
  return sums;
}

export function dayLines(halfHours: HalfHourLines, clock: ClockRows): DayLines {
  const date = new Float64Array(DAY_ROWS);
  const monthNumber = new Int32Array(DAY_ROWS);
  const expected = new Float64Array(DAY_ROWS);
  const { firstDay, lastDay, dayNumber } = halfHours;
  for (let row = 0; row < DAY_ROWS && firstDay > 0 && firstDay + row <= lastDay; row++) {
    date[row] = firstDay + row;
    monthNumber[row] = monthsApart(firstDay, date[row]!) + 1;
    expected[row] = 48;
    clock.daySerial.forEach((day, i) => {
      if (day === date[row]) expected[row]! += clock.minutesGained[i]! / 30;
    });
  }
  return {
    date,
    monthNumber,
    expected,
    metered: sumByDay(dayNumber, halfHours.metered),
    importKwh: sumByDay(dayNumber, halfHours.importKwh),
    exportKwh: sumByDay(dayNumber, halfHours.exportKwh),
    demandKwh: sumByDay(dayNumber, halfHours.demandKwh),
  };
}

export function tariffDayLines(days: DayLines, rates: RateLines): TariffDayLines {
  const ratePeriod = new Int32Array(DAY_ROWS);
  const standingPence = new Float64Array(DAY_ROWS);
  const exportCreditPence = new Float64Array(DAY_ROWS);
  for (let row = 0; row < DAY_ROWS; row++) {
    if (days.date[row] === 0) continue;
    const period = ratePeriodOn(rates.validFrom, days.date[row]!);
    ratePeriod[row] = period + 1;
    standingPence[row] = rates.standingWithVat[period]!;
    exportCreditPence[row] = days.exportKwh[row]! * rates.exportRate[period]!;
  }
  return { ratePeriod, standingPence, exportCreditPence };
}
