import { CHANNELS } from '../../readings/channels.js';
import type { ReadingRows } from './workbook-inputs.js';

/**
 * A readings sheet with nothing in it.
 *
 * @param rows half-hours that it holds
 */
export function blankReadings(rows: number): ReadingRows {
  const blank = (): Float64Array => new Float64Array(rows).fill(Number.NaN);
  return {
    count: 0,
    startSerial: blank(),
    startIsText: new Uint8Array(rows),
    offsetHours: blank(),
    values: Object.fromEntries(CHANNELS.map((channel) => [channel, blank()])) as ReadingRows['values'],
    textValues: new Uint8Array(rows),
    estimated: new Uint8Array(rows),
  };
}
