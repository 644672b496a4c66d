import { InputError, type Place } from '../errors.js';
import { HALF_HOUR_MS } from '../time/serial.js';
import { assembleReadings } from './assemble-readings.js';
import type { Channel } from './channels.js';
import { electricityVocabulary } from './electricity-vocabulary.js';
import type { FileReport } from './file-report.js';
import { findProblems } from './find-problems.js';
import type { ImportOptions, InputFile } from './import-options.js';
import { moreText, placeText, type SourcedReadings, short } from './merge-readings.js';
import { intervalsOfRegister } from './registers.js';
import { reportOfFile } from './report-of-file.js';
import { mergeSeries, type Series, type Twice } from './series.js';
import { localText } from './series-of-file.js';
import { type ReadFiles, readSeries } from './settle-files.js';
import { toHalfHours } from './to-half-hours.js';

/** A channel over all files. */
export interface ChannelReport {
  channel: Channel;
  halfHours: number;
  /** Half-hours missing between the first and the last. */
  missing: number;
  /** First and last half-hour, local wall-clock text. */
  from: string;
  to: string;
  /** kWh; undefined for temperature and price. */
  totalKwh?: number;
}

/** What was understood and found, file by file, and what came out. */
export interface ImportReport {
  timeZone: string;
  files: FileReport[];
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
  const textOf = (utcMs: number): string => localText(read.clock.localMsAt(utcMs));
  const phaseMs = (read.clock.offsetMinutesAt(read.series[0]?.utcMs[0] ?? 0) * 60_000) % HALF_HOUR_MS;
  const duplicates = [...read.duplicates];
  const conflicts = [...read.conflicts];
  const byChannel = new Map<Channel, Series<Channel>[]>();
  for (const raw of read.series) {
    const series = raw.kind === 'register' ? intervalsOfRegister(raw, read.findings, textOf) : raw;
    checkGrid(read, series, -phaseMs, textOf);
    const { series: half, incomplete } = toHalfHours(
      series,
      electricityVocabulary.averaged(series.channel),
      -phaseMs,
    );
    for (const part of incomplete) {
      const text = `${textOf(part.utcMs)} has ${part.have} of ${part.need} parts`;
      read.findings.add(part.file, 'incomplete half-hour', series.channel, { record: part.record, text });
    }
    const list = byChannel.get(series.channel);
    if (list === undefined) byChannel.set(series.channel, [half]);
    else list.push(half);
  }
  const merged = [...byChannel.values()].map((list) => {
    const one = mergeSeries(list);
    duplicates.push(...one.duplicates);
    conflicts.push(...one.conflicts);
    return one.series;
  });
  refuseConflicts(read, conflicts, options, textOf);
  reportTwice(read, duplicates, conflicts, textOf);
  for (const series of merged) {
    askAboutUnits(read, series);
    findProblems(series, read.findings, textOf);
  }
  if (merged.every((series) => series.utcMs.length === 0)) {
    throw new InputError('the files hold no values', 'Give files with readings.', { file: files[0]!.name });
  }
  const withMarks = read.settled.some(({ draft }) => draft.values.estimated !== undefined);
  const order = (series: Series<Channel>): number => electricityVocabulary.channels.indexOf(series.channel);
  const filled = merged.filter((series) => series.utcMs.length > 0).sort((a, b) => order(a) - order(b));
  const readings = assembleReadings(options.timeZone, filled, withMarks);
  return {
    readings,
    placeOf: (channel, startUtcMs) => placeOfValue(read, filled, channel, startUtcMs),
    report: {
      timeZone: options.timeZone,
      files: read.settled.map((file) =>
        reportOfFile(file, options.timeZone, read.findings, electricityVocabulary),
      ),
      channels: filled.map((series) => channelReport(series, textOf)),
    },
  };
}

function placeOfValue(
  read: ReadFiles<Channel>,
  list: readonly Series<Channel>[],
  channel: Channel,
  startUtcMs: number,
): Place {
  const series = list.find((one) => one.channel === channel);
  const at = series?.utcMs.indexOf(startUtcMs) ?? -1;
  if (series === undefined || at < 0) return {};
  return placeIn(read, { file: series.files[at]!, record: series.records[at]! });
}

/** Intervals that half-hours can be made of, each on the grid of the zone's clock. */
function checkGrid(
  read: ReadFiles<Channel>,
  series: Series<Channel>,
  phaseMs: number,
  textOf: (utcMs: number) => string,
): void {
  const minutes = series.stepMs / 60_000;
  const { utcMs, files, records } = series;
  if (utcMs.length === 0) return;
  const place = (i: number): Place => placeIn(read, { file: files[i]!, record: records[i]! });
  const fits = minutes === 60 || (minutes > 0 && 30 % minutes === 0);
  if (!fits) {
    const what =
      minutes >= 1440 ? `one value every ${minutes / 1440} days` : `one value every ${minutes} minutes`;
    throw new InputError(
      `the file holds ${what}, no half-hourly readings`,
      'Give readings of 5, 10, 15, 30 or 60 minutes; where lines are missing, say the interval: --interval 30.',
      place(0),
    );
  }
  const grid = Math.min(series.stepMs, HALF_HOUR_MS);
  for (let i = 0; i < utcMs.length; i++) {
    if ((utcMs[i]! - phaseMs) % grid === 0) continue;
    throw new InputError(
      `an interval of ${minutes} minutes begins at ${textOf(utcMs[i]!)}, off the ${grid / 60_000}-minute grid`,
      'Correct the line; if the stamps are in another zone, say it (--stamp-zone).',
      place(i),
    );
  }
}

function placeIn(
  read: ReadFiles<Channel>,
  at: { file: number; record: number },
): { file: string; line: number } {
  const { table } = read.settled[at.file]!.draft;
  return { file: table.file, line: table.lineOf(at.record) };
}

function refuseConflicts(
  read: ReadFiles<Channel>,
  conflicts: readonly Twice[],
  options: ImportOptions,
  textOf: (utcMs: number) => string,
): void {
  if (conflicts.length === 0 || options.onConflict === 'replace') return;
  const { channel, utcMs, first, second } = conflicts[0]!;
  throw new InputError(
    `${channel} of ${textOf(utcMs)} is ${short(second.value)} here and ${short(first.value)} in ${placeText(placeIn(read, first))}${moreText(conflicts.length - 1)}`,
    'Remove the wrong one, or let the later file win: --replace.',
    placeIn(read, second),
  );
}

function reportTwice(
  read: ReadFiles<Channel>,
  duplicates: readonly Twice[],
  conflicts: readonly Twice[],
  textOf: (utcMs: number) => string,
): void {
  const add = (kind: 'duplicate' | 'conflict', twice: Twice): void => {
    read.findings.add(twice.second.file, kind, twice.channel, {
      record: twice.second.record,
      text: () =>
        `${textOf(twice.utcMs)}, also ${placeText(placeIn(read, twice.first))}: ${short(twice.first.value)}`,
    });
  };
  for (const twice of duplicates) add('duplicate', twice);
  for (const twice of conflicts) add('conflict', twice);
}

/** Values that cannot be in the unit that was assumed for them. */
function askAboutUnits(read: ReadFiles<Channel>, series: Series<Channel>): void {
  const assumedIn = read.settled.find(({ draft }) =>
    draft.values.values.some((column) => column.unitAssumed && column.channel === series.channel),
  );
  if (assumedIn === undefined || series.utcMs.length < 4) return;
  const sizes = series.values
    .map(Math.abs)
    .filter((value) => value > 0)
    .sort();
  const median = sizes[Math.floor(sizes.length / 2)] ?? 0;
  const { table, columns } = assumedIn.draft;
  const ask = (unit: string, other: string): never => {
    throw new InputError(
      `no unit is stated for ${series.channel}, and half of its values are ${Number(median.toPrecision(3))} or ${unit === 'p/kWh' ? 'less' : 'more'}, which cannot be ${unit}`,
      `Say the unit: --unit ${other} (or --unit ${unit} if it is so).`,
      { file: table.file, line: table.lineOf(columns.headerRecord ?? columns.rows[0]!) },
    );
  };
  if (series.channel === 'outdoorC') {
    if (median > 45) ask('degC', 'degF');
  } else if (series.channel === 'pricePence') {
    if (median > 0 && median < 1) ask('p/kWh', 'GBP/kWh');
  } else if (median > 12) ask('kWh', 'Wh');
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
