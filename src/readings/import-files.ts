import { InputError } from '../errors.js';
import { HALF_HOUR_MS } from '../time/serial.js';
import { assembleReadings } from './assemble-readings.js';
import type { Channel } from './channels.js';
import { checkEnds } from './check-ends.js';
import { askAboutUnits, halfHoursOf, localTextOf, placeIn } from './check-series.js';
import { electricityVocabulary } from './electricity-vocabulary.js';
import type { FilesReport } from './file-report.js';
import { findProblems } from './find-problems.js';
import { thousands } from './format-number.js';
import type { ImportOptions, InputFile } from './import-options.js';
import type { SourcedReadings } from './merge-readings.js';
import { reportOfFile } from './report-of-file.js';
import type { Series } from './series.js';
import { readSeries } from './settle-files.js';

/** A channel over all files. */
export interface ChannelReport {
  channel: Channel;
  halfHours: number;
  /** Half-hours missing between the first and the last. */
  missing: number;
  /** Start of the first and of the last half-hour, local wall-clock text. */
  from: string;
  to: string;
  /** kWh; undefined for temperature and price. */
  totalKwh?: number;
}

/** What was understood and found, file by file, and what came out. */
export interface ImportReport extends FilesReport {
  channels: ChannelReport[];
}

/** Readings, the report, and where each value stands. */
export interface ImportedReadings extends SourcedReadings {
  report: ImportReport;
}

/**
 * Imports half-hourly readings from files of separated values, whatever their shape.
 *
 * @param files names and bytes, in any order
 * @param options time zone, and what the user says about the files
 * @returns readings on the half-hours of the zone's clock, the report, and the place of each value
 * @throws InputError naming file, line, what was found and what to do, for what cannot be read or could mean two things
 * @example importFiles([{ name: 'may.csv', bytes }], { timeZone: 'Europe/London' }).readings.startUtcMs.length // 1488
 */
export function importFiles(files: readonly InputFile[], options: ImportOptions): ImportedReadings {
  const read = readSeries(files, options, electricityVocabulary);
  for (const file of read.settled) checkEnds(file, read.clock);
  const textOf = localTextOf(read);
  const list = halfHoursOf(read, electricityVocabulary.averaged, options);
  for (const series of list) {
    askAboutUnits(read, series);
    findProblems(series, read.findings, textOf);
  }
  if (list.length === 0) {
    throw new InputError('the files hold no values', 'Give files with readings.', { file: files[0]!.name });
  }
  const withMarks = read.settled.some(({ draft }) => draft.values.estimated !== undefined);
  const order = (series: Series<Channel>): number => electricityVocabulary.channels.indexOf(series.channel);
  list.sort((a, b) => order(a) - order(b));
  const channels = list.map((series) => channelReport(series, textOf));
  return {
    readings: assembleReadings(options.timeZone, list, withMarks),
    placeOf: (channel, startUtcMs) => {
      const at = findValue(list, channel, startUtcMs);
      return at === undefined ? {} : placeIn(read, at);
    },
    isChannelAssumed: (channel, startUtcMs) => {
      const at = findValue(list, channel, startUtcMs);
      return at !== undefined && read.settled[at.file]!.draft.values.channelAssumed;
    },
    report: {
      timeZone: options.timeZone,
      files: read.settled.map((file) => reportOfFile(file, read.clock, read.findings, electricityVocabulary)),
      notRead: read.notRead,
      summary: channels.map(summaryOf),
      channels,
    },
  };
}

/** Numbers of the file and record that a value came from. */
function findValue(
  list: readonly Series<Channel>[],
  channel: Channel,
  startUtcMs: number,
): { file: number; record: number } | undefined {
  const series = list.find((one) => one.channel === channel);
  if (series === undefined) return undefined;
  let low = 0;
  let high = series.utcMs.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (series.utcMs[middle]! < startUtcMs) low = middle + 1;
    else high = middle;
  }
  if (series.utcMs[low] !== startUtcMs) return undefined;
  return { file: series.files[low]!, record: series.records[low]! };
}

function channelReport(series: Series<Channel>, textOf: (utcMs: number) => string): ChannelReport {
  const { channel, utcMs, values } = series;
  const n = utcMs.length;
  const span = (utcMs[n - 1]! - utcMs[0]!) / HALF_HOUR_MS + 1;
  let totalKwh = 0;
  for (let i = 0; i < n; i++) totalKwh += values[i]!;
  return {
    channel,
    halfHours: n,
    missing: span - n,
    from: textOf(utcMs[0]!),
    to: textOf(utcMs[n - 1]!),
    ...(electricityVocabulary.averaged(channel) ? {} : { totalKwh }),
  };
}

function summaryOf({
  channel,
  halfHours,
  missing,
  from,
  to,
  totalKwh,
}: ChannelReport): FilesReport['summary'][number] {
  const parts = [
    `${from} to ${to}`,
    `${thousands(halfHours)} half-hours`,
    missing === 0 ? 'none missing' : `${thousands(missing)} missing`,
    ...(totalKwh === undefined ? [] : [`${thousands(totalKwh, 1)} kWh`]),
  ];
  return { name: channel, text: parts.join(', ') };
}
