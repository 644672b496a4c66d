import type { Node } from '../../formula/nodes.js';
import type { SheetBuilder } from '../book/sheet-builder.js';
import { type Column, f } from '../book/terms.js';
import type { Calendar } from './days.js';
import { dayOfFirstReading, halfHoursLacking, MARGIN } from './first-reading.js';
import type { ReadingsSheet } from './readings.js';

/** First row that it takes on the sheet of figures, below those of the battery's readings. */
const FIRST_ROW = 76;
/** Parts that days without any reading are cut into: with more, formulas would be too long. */
const QUARTERS = 4;

/** Channels whose gaps count as 0 kWh, and about which nothing else says so. */
export const COUNTED_AS_NONE = ['exportKwh', 'heatPumpKwh', 'carKwh'] as const;

/** What is missing of one channel's readings. */
export interface ChannelReadings {
  channel: (typeof COUNTED_AS_NONE)[number];
  /** It in the readings. */
  column: Column;
  /** Half-hours with import that lack its reading, from the day after its first on; 0 where it has none at all. */
  lacking: Node;
}

/**
 * Declares how many half-hours lack a reading of a channel that has some: before its first there may have been nothing to
 * meter.
 *
 * @param readings where they stand, in any order
 * @param calendar the days
 * @param sheet the sheet of figures
 */
export function channelReadings(
  readings: ReadingsSheet,
  { firstDay }: Calendar,
  sheet: SheetBuilder,
): ChannelReadings[] {
  let row = FIRST_ROW;
  const line = (label: string, is: Node) =>
    sheet.line(row++, 2, { label, unit: 'day', style: 'integer', is });
  // A midnight may be a hair less than a whole number.
  const from = line('First readings of channels, searched from', f`SUM(${firstDay})-${MARGIN}`);
  return COUNTED_AS_NONE.map((channel) => {
    const column = readings.channels[channel];
    const day = dayOfFirstReading([column], readings.start, from, QUARTERS, (step, is) =>
      line(`First reading of ${column.text.label.toLowerCase()}, searched by ${step} days`, is),
    );
    return { channel, column, lacking: halfHoursLacking([column], readings, f`${day}+1`) };
  });
}
