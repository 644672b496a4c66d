import type { Node } from '../../formula/nodes.js';
import { all, type Column, call, f, joined, type Line, type Term } from '../book/terms.js';
import { type ReadingsSheet, WHERE_METERED } from './readings.js';

/** The search's first step, and what is left of it is searched in smaller ones: all together more days than a workbook can hold. */
const LARGEST_STEP = 1024;
/** Far from every half-hour, days. */
export const MARGIN = 0.01;

/** Rows of the readings that have numbers in some columns, and meet further criteria, pairs of range and criterion. */
const counted = (numbers: readonly Column[], ...also: readonly Term[]): Node =>
  call('COUNTIFS', [...numbers.flatMap((column) => [all(column), WHERE_METERED]), ...also]);

/**
 * Declares the search for the day of the first reading of some channels, whatever order the readings are in. No function
 * finds the earliest of some readings in all programs: so stretches of days without any are passed over, ever shorter ones.
 *
 * @param channels columns of the readings: any of them will do
 * @param start starts of the half-hours
 * @param from where the search begins, a day
 * @param parts how many parts a stretch is cut into: by more the search has fewer lines, each longer
 * @param line declares a line of the search, given its step in days
 * @returns its last line: the day
 */
export function dayOfFirstReading(
  channels: readonly Column[],
  start: Column,
  from: Line,
  parts: number,
  line: (step: number, is: Node) => Line,
): Line {
  let day = from;
  for (let step = LARGEST_STEP; step >= 1; step /= parts) {
    const before = f`${day}`;
    const passed = Array.from({ length: parts - 1 }, (_, part): Node => {
      const until = f`"<"&(${day}+${(part + 1) * step})`;
      const read = joined(
        '+',
        channels.map((channel) => counted([channel], all(start), until)),
      );
      return f`IF(${read}=0,${step},0)`;
    });
    day = line(step, joined('+', [before, ...passed]));
  }
  return day;
}

/**
 * How many half-hours of the readings have import and lack a reading of some channels, 0 where one of these has none at all.
 *
 * @param channels columns of the readings: all of them are needed
 * @param readings the readings, in any order
 * @param from from when on they are counted, a day
 */
export function halfHoursLacking(
  channels: readonly Column[],
  { start, channels: { importKwh } }: ReadingsSheet,
  from: Node,
): Node {
  const isEmpty = call(
    'OR',
    channels.map((channel) => f`COUNT(${all(channel)})=0`),
  );
  const since = f`">="&(${from})`;
  const imported = counted([importKwh], all(start), since);
  const complete = counted([importKwh, ...channels], all(start), since);
  return f`IF(${isEmpty},0,${imported}-${complete})`;
}
