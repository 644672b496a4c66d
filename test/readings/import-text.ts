import { type ImportedReadings, type ImportOptions, importFiles } from '../../src/readings/index.js';

/** Imports one file given as its lines. */
export function importText(
  lines: string | readonly string[],
  options: Partial<ImportOptions> = {},
  name = 'readings.csv',
): ImportedReadings {
  const text = typeof lines === 'string' ? lines : `${lines.join('\n')}\n`;
  return importFiles([{ name, bytes: Buffer.from(text) }], { timeZone: 'Europe/London', ...options });
}

/** The message of the error that a call throws. */
export function messageOf(call: () => unknown): string {
  try {
    call();
  } catch (error) {
    return `${(error as Error).name}: ${(error as Error).message}`;
  }
  return 'nothing was thrown';
}

/** ISO text of instants, to the minute. */
export const utcTexts = (starts: Float64Array): string[] =>
  Array.from(starts, (utcMs) => new Date(utcMs).toISOString().slice(0, 16));
