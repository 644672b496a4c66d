import { type CellKind, cellKind } from './cell-kind.js';
import { headerWords, type MatchHeader } from './match-channels.js';
import { MIN_SLOTS } from './step-of-count.js';
import { unitIn } from './units.js';

export const STAMP =
  /\b(date|dates|time|times|datetime|timestamp|stamp|when|day|month|week|hour|start|starts|from|begin|begins|beginning|end|ends|ending|to|until|period|slot|interval|utc|gmt|local)\b/;

/**
 * Whether the row above the data names their columns, or is a line about the meter or its owner: a name of a stamp stands above
 * dates, or that of a channel or unit above numbers, and no cell is a number itself, save the labels of a day's intervals.
 *
 * @param header cells of the row, trimmed
 * @param kinds kind of the column under each
 * @param match how headers are matched to channels
 * @returns false for lines such as Meter,12345
 * @example namesColumns(['start', 'kWh'], ['dateTime', 'number'], matchElectricityChannel) // true
 */
export function namesColumns<C extends string>(
  header: readonly string[],
  kinds: readonly CellKind[],
  match: MatchHeader<C>,
): boolean {
  const numbers = header.filter((cell) => cellKind(cell) === 'number').length;
  if (numbers > 0 && numbers < MIN_SLOTS) return false;
  return header.some((cell, column) => {
    if (cell === '') return false;
    const kind = kinds[column];
    if (kind === 'number') return unitIn(cell) !== undefined || match(cell) !== undefined;
    return (kind === 'date' || kind === 'dateTime') && STAMP.test(headerWords(cell));
  });
}
