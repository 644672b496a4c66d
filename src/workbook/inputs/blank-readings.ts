import { CHANNELS } from '../../readings/channels.js';
import { READING_ROWS } from '../layout.js';
import type { ReadingRows } from './workbook-inputs.js';

/** A readings sheet with nothing in it. */
export function blankReadings(): ReadingRows {
  const blank = (): Float64Array => new Float64Array(READING_ROWS).fill(Number.NaN);
  return {
    count: 0,
    startSerial: blank(),
    startIsText: new Uint8Array(READING_ROWS),
    offsetHours: blank(),
    values: Object.fromEntries(CHANNELS.map((channel) => [channel, blank()])) as ReadingRows['values'],
    textValues: new Uint8Array(READING_ROWS),
    estimated: new Uint8Array(READING_ROWS),
  };
}
