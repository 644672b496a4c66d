import type { Node } from '../../formula/nodes.js';
import { all, type Column, f, namedOf, stretch } from '../book/terms.js';
import type { Calendar } from './days.js';
import { BLOCK_ROWS } from './shape.js';

/** Half-hours from midnight to noon. */
const NOON = 24;

/** Cells of a column of half-hours that belong to the day of the row, each by a name in words. */
export interface DayBlocks {
  /** The half-hours of the day. */
  whole(column: Column): Node;
  /** The same, each a half-hour earlier. */
  earlier(column: Column): Node;
  /** From noon to midnight of a day without a clock change. */
  afterNoon(column: Column): Node;
  /** From the midnight after it to noon. */
  nextMorning(column: Column): Node;
}

/**
 * Names the half-hours of a day: what is said of a day reads by them as a sentence, and is the same on every row.
 *
 * @param calendar counts the days from 1
 */
export function dayBlocks({ number }: Pick<Calendar, 'number'>): DayBlocks {
  const block = (column: Column, suffix: string, cells: Node, from: number, height: number): Node => {
    const at = (place: number): Node =>
      place === BLOCK_ROWS
        ? f`INDEX(${cells},${number}*${BLOCK_ROWS})`
        : f`INDEX(${cells},(${number}-1)*${BLOCK_ROWS}+${place})`;
    return namedOf(column, suffix, f`${at(from)}:${at(from + height - 1)}`);
  };
  return {
    whole: (column) => block(column, 'of_day', f`${all(column)}`, 1, BLOCK_ROWS),
    // With the row above the first, which the columns that run on begin with.
    earlier: (column) =>
      block(column, 'half_hour_earlier', f`${stretch(column, -1, column.rows - 1)}`, 1, BLOCK_ROWS),
    afterNoon: (column) => block(column, 'after_noon', f`${all(column)}`, NOON + 1, NOON),
    nextMorning: (column) => block(column, 'next_morning', f`${all(column)}`, BLOCK_ROWS + 1, NOON),
  };
}
