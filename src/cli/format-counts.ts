import { channelsInWords } from '../readings/channel-words.js';
import { CHANNELS } from '../readings/channels.js';
import type { FillResult } from '../workbook/fill/fill-workbook.js';
import { count, counted } from './count-words.js';

/**
 * What a fill put into the workbook, by count: half-hours that are new, channels that half-hours got which were there, values that were there
 * already or were replaced, gas and temperatures.
 *
 * @param result the fill's outcome
 * @returns lines without a stop at the end
 * @example formatCounts(result) // ['export: 1,488 half-hours added to readings that were there']
 */
export function formatCounts({
  addedHalfHours,
  addedToHeld,
  duplicates,
  replaced,
  gas,
  temperatures,
}: FillResult): string[] {
  const lines: string[] = [];
  if (addedHalfHours > 0) lines.push(`${counted(addedHalfHours, 'half-hour')} added`);
  for (const channel of CHANNELS) {
    const added = addedToHeld[channel];
    if (added === undefined) continue;
    lines.push(
      `${channelsInWords(channel)}: ${counted(added, 'half-hour')} added to readings that were there`,
    );
  }
  if (duplicates > 0) {
    lines.push(
      `${counted(duplicates, 'value')} ${duplicates === 1 ? 'was' : 'were'} there already, the same`,
    );
  }
  if (replaced > 0) lines.push(`${counted(replaced, 'value')} replaced by a different one`);
  for (const [what, merged] of [
    ['stretches of gas', gas],
    ['days of temperature', temperatures],
  ] as const) {
    if (merged === undefined) continue;
    lines.push(
      `${what}: ${count(merged.added)} added, ${count(merged.duplicates)} there already, ${count(merged.replaced)} replaced`,
    );
  }
  return lines.length === 0 ? ['The stored values were worked out anew'] : lines;
}
