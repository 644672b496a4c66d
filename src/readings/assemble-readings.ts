import type { Channel } from './channels.js';
import type { HalfHourlyReadings } from './half-hourly-readings.js';
import type { Series } from './series.js';

/**
 * Sets series of half-hours side by side on the half-hours that any of them has.
 *
 * @param timeZone IANA name
 * @param list one ascending series of half-hours a channel
 * @param withMarks whether any file marks estimated reads
 * @returns readings; NaN where a channel has no value
 * @example assembleReadings('Europe/London', [series], false).startUtcMs.length // 48
 */
export function assembleReadings(
  timeZone: string,
  list: readonly Series<Channel>[],
  withMarks: boolean,
): HalfHourlyReadings {
  const startUtcMs = unionOfStarts(list.map((series) => series.utcMs));
  const n = startUtcMs.length;
  const channels: HalfHourlyReadings['channels'] = {};
  const estimated = new Uint8Array(n);
  for (const series of list) {
    const whole = series.utcMs.length === n;
    const values = whole ? series.values.slice() : new Float64Array(n).fill(Number.NaN);
    let at = 0;
    for (let i = 0; i < series.utcMs.length; i++) {
      if (whole) at = i;
      else while (startUtcMs[at] !== series.utcMs[i]) at++;
      values[at] = series.values[i]!;
      if (series.estimated[i] === 1) estimated[at] = 1;
    }
    channels[series.channel] = values;
  }
  return { timeZone, startUtcMs, channels, ...(withMarks ? { estimated } : {}) };
}

function unionOfStarts(lists: readonly Float64Array[]): Float64Array {
  const longest = lists.reduce((a, b) => (b.length > a.length ? b : a), new Float64Array());
  const same = lists.every(
    (list) => list.length === longest.length && list.every((at, i) => at === longest[i]),
  );
  if (same) return longest.slice();
  const all = new Float64Array(lists.reduce((sum, list) => sum + list.length, 0));
  let n = 0;
  for (const list of lists) {
    all.set(list, n);
    n += list.length;
  }
  all.sort();
  let kept = 0;
  for (let i = 0; i < all.length; i++) if (i === 0 || all[i] !== all[kept - 1]) all[kept++] = all[i]!;
  return all.slice(0, kept);
}
