import type { Node } from '../../formula/nodes.js';
import type { SheetBuilder } from '../book/sheet-builder.js';
import { f, type Line } from '../book/terms.js';
import type { Calendar } from './days.js';
import { dayOfFirstReading, halfHoursLacking, MARGIN } from './first-reading.js';
import type { ReadingsSheet } from './readings.js';

/** First row that it takes on the sheet of figures, below those of the timers. */
const FIRST_ROW = 62;
/** The days without any reading are halved until one is left. */
const HALVES = 2;

/** What is missing of a battery's readings. */
export interface BatteryReadings {
  /** Half-hours with import that lack what it took or gave, from the day after its first reading on. */
  lacking: Line;
}

/**
 * Declares how many half-hours lack readings of the battery: before its first it may not have been there yet.
 *
 * @param readings where they stand, in any order
 * @param calendar the days
 * @param sheet the sheet of figures
 */
export function batteryReadings(
  readings: ReadingsSheet,
  { firstDay }: Calendar,
  sheet: SheetBuilder,
): BatteryReadings {
  const { batteryInKwh, batteryOutKwh } = readings.channels;
  let row = FIRST_ROW;
  const line = (label: string, unit: string, is: Node, name?: string): Line =>
    sheet.line(row++, 2, {
      label,
      unit,
      style: 'integer',
      is,
      ...(name === undefined ? {} : { name }),
    });
  const from = line('Battery’s first reading, searched from the first day', 'day', f`SUM(${firstDay})`);
  const both = [batteryInKwh, batteryOutKwh];
  const day = dayOfFirstReading(both, readings.start, from, HALVES, (step, is) =>
    line(`The same, ${step} days on`, 'day', is),
  );
  return {
    lacking: line(
      'Half-hours since the day after it that lack a reading of the battery',
      'count',
      halfHoursLacking(both, readings, f`${day}+${1 - MARGIN}`),
      'half_hours_without_battery',
    ),
  };
}
