import type { Node } from '../../../formula/nodes.js';
import { all, type Column, f } from '../../book/terms.js';
import type { Book } from '../book.js';

/**
 * One number for a column of half-hours that changes where kWh change or move: a part of a mark. The last term tells apart
 * what sums by half-hour and by day alone do not, two days of equal energy that change places for example.
 *
 * @param book inputs and workings
 * @param column of *Grid*
 */
export function weighedByTime({ workings: { halfHours } }: Book, column: Column): Node {
  const [of, slot, day] = [all(column), all(halfHours.halfHour), all(halfHours.day)];
  return f`SUMPRODUCT(${of},${slot})+SUMPRODUCT(${of},${day})/7+SUMPRODUCT(${of},${slot},${day})/1009+100*SUM(${of})`;
}
