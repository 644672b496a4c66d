import { type Battery, servableKwh } from '../../../battery/battery.js';
import { halfHoursToFill } from '../../../battery/battery-days.js';
import type { ReadingRows } from '../../inputs/workbook-inputs.js';
import { DAY_ROWS, READING_ROWS } from '../../layout.js';
import type { HalfHourLines } from '../half-hour-lines.js';
import type { MonthLines } from '../month-lines.js';

/** Lines of the battery sheets that all tariffs share. */
export interface BatteryHomeLines {
  /** Days whose half-hours do not stand together, oldest first: while there are any, the battery stands still. */
  daysApart: number;
  /** One entry a day: row of its first half-hour (from 1), whether its rows stand apart, half-hours worked with. */
  firstRow: Int32Array;
  apart: Uint8Array;
  halfHours: Int32Array;
  halfHoursToFill: Int32Array;
  /** One entry a half-hour. */
  day: Int32Array;
  /** Half-hour of the day from 1, in the chosen period; 0 outside. */
  slotInPeriod: Uint8Array;
  /** Import that the battery may serve, kWh. */
  servableKwh: Float64Array;
  /** All that the home used, no less than it imported, kWh. */
  houseKwh: Float64Array;
}

/** kWh of a channel in a row, 0 where there is none or less. */
export function positiveReading(values: Float64Array, row: number): number {
  return Math.max(0, values[row]! || 0);
}

export function batteryHomeLines(
  halfHours: HalfHourLines,
  months: MonthLines,
  readings: ReadingRows,
  battery: Battery,
): BatteryHomeLines {
  const firstRow = new Int32Array(DAY_ROWS);
  const rows = new Int32Array(DAY_ROWS);
  for (let row = 0; row < READING_ROWS; row++) {
    const day = halfHours.dayNumber[row]! - 1;
    if (day < 0) continue;
    if (firstRow[day] === 0) firstRow[day] = row + 1;
    rows[day]!++;
  }
  const apart = new Uint8Array(DAY_ROWS);
  let latest = 0;
  let daysApart = 0;
  for (let day = 0; day < DAY_ROWS; day++) {
    const first = firstRow[day]!;
    if (first === 0) continue;
    if (first < latest || halfHours.dayNumber[first + rows[day]! - 2] !== day + 1) apart[day] = 1;
    latest = Math.max(latest, first);
    daysApart += apart[day]!;
  }
  const toFill = halfHoursToFill(battery);
  const worked = daysApart > 0 ? new Int32Array(DAY_ROWS) : rows;
  const lines: BatteryHomeLines = {
    daysApart,
    firstRow,
    apart,
    halfHours: worked,
    halfHoursToFill: worked.map((count) => Math.min(count, Math.max(1, toFill))),
    day: daysApart > 0 ? new Int32Array(READING_ROWS) : halfHours.dayNumber,
    slotInPeriod: new Uint8Array(READING_ROWS),
    servableKwh: new Float64Array(READING_ROWS),
    houseKwh: new Float64Array(READING_ROWS),
  };
  for (let row = 0; row < READING_ROWS; row++) {
    if (lines.day[row] === 0) continue;
    const imported = Math.max(0, halfHours.importKwh[row]!);
    const exported = Math.max(0, halfHours.exportKwh[row]!);
    const car = positiveReading(readings.values.carKwh, row);
    lines.servableKwh[row] = servableKwh(imported, exported, car, battery.mayFeedCar);
    lines.houseKwh[row] = Math.max(halfHours.demandKwh[row]!, imported);
    if (months.selected[halfHours.monthNumber[row]! - 1] === 1) {
      lines.slotInPeriod[row] = Math.round((halfHours.startSerial[row]! % 1) * 48) + 1;
    }
  }
  return lines;
}
