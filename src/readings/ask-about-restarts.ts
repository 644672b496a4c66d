import { InputError } from '../errors.js';
import { DAY_MS } from '../time/serial.js';
import type { Draft } from './draft.js';
import type { ValueColumn } from './value-columns.js';

const HOUR_MS = 3_600_000;
/** Rises for each fall: a counter of the day rises through hours, energy by half-hours falls as often as it rises. */
const RISES_A_FALL = 5;
/** Part of what stood before that may be left after a restart. */
const LEFT = 0.1;

/**
 * Asks about values that rise through each day and start again at the same time of day, as a counter of "today" does: taken for the
 * energy of intervals, they would be many times too much.
 *
 * @param draft the file
 * @param column its column of energy or volume
 * @param utcMs instants of the values
 * @param values the values
 * @throws InputError saying how to tell a counter from energy
 * @example askAboutRestarts(draft, column, utcMs, values)
 */
export function askAboutRestarts<C extends string>(
  { table, columns, slots }: Draft<C>,
  column: ValueColumn<C>,
  utcMs: Float64Array,
  values: Float64Array,
): void {
  // No program puts a counter into one line a day.
  if (slots !== undefined) return;
  if (column.unit.quantity !== 'energy' && column.unit.quantity !== 'volume') return;
  let order = Uint32Array.from(values.keys());
  if (utcMs.some((at, i) => i > 0 && at < utcMs[i - 1]!)) order = order.sort((a, b) => utcMs[a]! - utcMs[b]!);
  let rises = 0;
  let falls = 0;
  let firstFall = Number.NaN;
  for (let k = 1; k < order.length; k++) {
    const before = values[order[k - 1]!]!;
    const value = values[order[k]!]!;
    if (value > before) rises++;
    if (value >= before) continue;
    falls++;
    const at = utcMs[order[k]!]!;
    if (falls === 1) firstFall = at;
    const apart = (at - firstFall) % DAY_MS;
    // An hour either way where the clock changed between.
    if (value > LEFT * before || Math.min(apart, DAY_MS - apart) > HOUR_MS) return;
  }
  if (falls === 0 || rises < RISES_A_FALL * falls) return;
  const name = columns.header[column.column] || `column ${column.column + 1}`;
  throw new InputError(
    `"${name}" rises through each day and starts again, like a counter of the day`,
    'Say what it is: --register daily or --register no.',
    { file: table.file, line: table.lineOf(columns.headerRecord ?? columns.rows[0]!) },
  );
}
