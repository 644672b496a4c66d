import type { Node } from '../../formula/nodes.js';
import type { SheetBuilder } from '../book/sheet-builder.js';
import { all, f, type Line } from '../book/terms.js';
import type { Calendar } from './days.js';
import { type ReadingsSheet, WHERE_METERED } from './readings.js';

/** First row that it takes on the sheet of figures, below those of the timers. */
const FIRST_ROW = 62;
/** Halved from line to line, more days than a workbook can hold. */
const SEARCHED_DAYS = 2048;
/** Far from every half-hour, days. */
const MARGIN = 0.01;

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
  { start, channels }: ReadingsSheet,
  { firstDay }: Calendar,
  sheet: SheetBuilder,
): BatteryReadings {
  const { importKwh, batteryInKwh, batteryOutKwh } = channels;
  let row = FIRST_ROW;
  const line = (label: string, unit: string, is: Node, name?: string): Line =>
    sheet.line(row++, 2, {
      label,
      unit,
      style: 'integer',
      is,
      ...(name === undefined ? {} : { name }),
    });
  let day = line('Battery’s first reading, searched from the first day', 'day', f`SUM(${firstDay})`);
  // No function finds the earliest of some readings in all programs: so the days without any are halved until one is left.
  for (let step = SEARCHED_DAYS / 2; step >= 1; step /= 2) {
    const until = f`"<"&(${day}+${step})`;
    const read = f`COUNTIFS(${all(batteryInKwh)},${WHERE_METERED},${all(start)},${until})+COUNTIFS(${all(batteryOutKwh)},${WHERE_METERED},${all(start)},${until})`;
    day = line(`The same, ${step} days on`, 'day', f`${day}+IF(${read}=0,${step},0)`);
  }
  const since = f`">="&(${day}+${1 - MARGIN})`;
  const imported = f`COUNTIFS(${all(importKwh)},${WHERE_METERED},${all(start)},${since})`;
  const complete = f`COUNTIFS(${all(importKwh)},${WHERE_METERED},${all(batteryInKwh)},${WHERE_METERED},${all(batteryOutKwh)},${WHERE_METERED},${all(start)},${since})`;
  return {
    lacking: line(
      'Half-hours since the day after it that lack a reading of the battery',
      'count',
      f`IF(OR(COUNT(${all(batteryInKwh)})=0,COUNT(${all(batteryOutKwh)})=0),0,${imported}-${complete})`,
      'half_hours_without_battery',
    ),
  };
}
