import { PATHS } from '../../../src/cli/paths.js';
import {
  type HalfHourlyReadings,
  type ImportedReadings,
  type InputFile,
  importFiles,
} from '../../../src/readings/index.js';
import { sampleFiles } from '../../../src/sample/sample-files.js';

const ZONE = 'Europe/London';
const DAY_MS = 86_400_000;

/** Starting inputs of a workbook that the sample year is filled into: six tariffs and a battery. */
export const SAMPLE_INPUTS = PATHS.sampleInputs;

/** The sample year as files. */
export function sampleInput(): InputFile[] {
  return sampleFiles().map(({ name, text }) => ({ name, bytes: Buffer.from(text) }));
}

/** The sample year's readings. */
export function sampleReadings(): ImportedReadings {
  return importFiles(sampleInput(), { timeZone: ZONE });
}

/** The sample year's readings, once more for each further year. */
export function sampleReadingsOfYears(years: number): ImportedReadings {
  const one = sampleReadings();
  return { ...one, readings: repeatedReadings(one.readings, years) };
}

/**
 * Readings over and over.
 *
 * @param one whole days, from their first half-hour to their last
 * @param times how often
 * @returns the same values that many times, one after the other without a gap
 */
export function repeatedReadings(one: HalfHourlyReadings, times: number): HalfHourlyReadings {
  const { timeZone, startUtcMs, channels, estimated } = one;
  const halfHours = startUtcMs.length;
  const lengthMs = Math.round((startUtcMs[halfHours - 1]! - startUtcMs[0]!) / DAY_MS) * DAY_MS;
  const repeated = (values: Float64Array): Float64Array =>
    Float64Array.from({ length: times * halfHours }, (_, i) => values[i % halfHours]!);
  return {
    timeZone,
    startUtcMs: repeated(startUtcMs).map((ms, i) => ms + Math.floor(i / halfHours) * lengthMs),
    channels: Object.fromEntries(
      Object.entries(channels).map(([channel, values]) => [channel, repeated(values)]),
    ),
    ...(estimated && { estimated: Uint8Array.from(repeated(Float64Array.from(estimated))) }),
  };
}

/** A year of import and export as one file, one row a half-hour. */
export function meterYear(): InputFile {
  const quarters = sampleFiles().filter(({ name }) => name.startsWith('meter-'));
  const [header] = quarters[0]!.text.split('\n');
  const rows = quarters.map(({ text }) => text.slice(text.indexOf('\n') + 1));
  return { name: 'meter.csv', bytes: Buffer.from(`${header}\n${rows.join('')}`) };
}

/** Imports one file of the sample home. */
export function importOne(file: InputFile): ImportedReadings {
  return importFiles([file], { timeZone: ZONE });
}
