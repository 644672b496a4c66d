import { InputError } from '../errors.js';
import { DAY_MS, HALF_HOUR_MS, localMsToSerial } from '../time/serial.js';
import { startOfLocalDay } from '../time/start-of-local-day.js';
import {
  askAboutUnits,
  halfHoursOf,
  localTextOf,
  placeIn,
  refuseConflicts,
  reportTwice,
} from './check-series.js';
import type { FilesReport } from './file-report.js';
import { findProblems, OUTLIER_C } from './find-problems.js';
import { thousands } from './format-number.js';
import type { ImportOptions, InputFile } from './import-options.js';
import { reportOfFile } from './report-of-file.js';
import { mergeSeries, type Series } from './series.js';
import { type ReadFiles, readSeries } from './settle-files.js';
import { type TemperatureChannel, temperatureVocabulary } from './temperature-vocabulary.js';

/** Below and above it no temperature of the air is taken, °C. */
export const POSSIBLE_C = [-100, 100] as const;

/** Outdoor temperature of a local day, °C; what the files do not give is absent. */
export interface DailyTemperature {
  /** The day, whole days since 1899-12-30. */
  serialDay: number;
  meanC?: number;
  maxC?: number;
  minC?: number;
}

/** Outdoor temperature by day, by half-hour where the files are that fine, and the report. */
export interface ImportedTemperature {
  /** Half-hours of half-hourly, shorter and hourly files. */
  halfHourly?: { startUtcMs: Float64Array; outdoorC: Float64Array };
  /** Days, ascending: from daily files, and from half-hours where a local day has all of its own. */
  daily: DailyTemperature[];
  report: FilesReport;
}

/**
 * Imports outdoor temperatures: half-hourly, hourly, or a day's mean, maximum and minimum; °C or °F.
 *
 * @param files names and bytes, in any order
 * @param options time zone, and what the user says about the files
 * @returns days, half-hours where there are, and the report
 * @throws InputError as the electricity import does
 * @example importTemperatureFiles([{ name: 'weather.csv', bytes }], { timeZone: 'Europe/London' }).daily[0].maxC // 12.8
 */
export function importTemperatureFiles(
  files: readonly InputFile[],
  options: ImportOptions,
): ImportedTemperature {
  const read = readSeries(files, options, temperatureVocabulary);
  const daily = read.series.filter((series) => series.stepMs === DAY_MS);
  const finer = read.series.filter((series) => series.stepMs !== DAY_MS);
  const fine = { ...read, series: finer, duplicates: [], conflicts: [] };
  const halfHours = halfHoursOf(fine, temperatureVocabulary.averaged, options);
  refuseConflicts(read, read.conflicts, options);
  reportTwice(read, read.duplicates, read.conflicts);
  const days = new Map<number, DailyTemperature>();
  for (const series of halfHours) {
    askAboutUnits(read, series);
    refuseImpossible(read, series);
    findProblems({ ...series, channel: 'outdoorC' }, read.findings, localTextOf(read));
  }
  addWholeDays(read, halfHours, days);
  for (const series of daily) {
    const { series: merged } = mergeSeries([series]);
    askAboutUnits(read, merged);
    refuseImpossible(read, merged);
    lookOverDays(read, merged);
    merged.utcMs.forEach((utcMs, i) => {
      const serialDay = Math.floor(localMsToSerial(read.clock.localMsAt(utcMs)) + 1e-9);
      // What a daily file states goes before what half-hours come to.
      days.set(serialDay, { ...(days.get(serialDay) ?? { serialDay }), [series.channel]: merged.values[i]! });
    });
  }
  const mean = halfHours.find((series) => series.channel === 'meanC');
  const list = [...days.values()].sort((a, b) => a.serialDay - b.serialDay);
  if (list.length === 0 && mean === undefined) {
    throw new InputError('the files hold no temperatures', 'Give files with temperatures.', {
      file: files[0]!.name,
    });
  }
  checkMaxAboveMin(read, list);
  return {
    ...(mean === undefined ? {} : { halfHourly: { startUtcMs: mean.utcMs, outdoorC: mean.values } }),
    daily: list,
    report: {
      timeZone: options.timeZone,
      files: read.settled.map((file) => reportOfFile(file, read.clock, read.findings, temperatureVocabulary)),
      notRead: read.notRead,
      summary: summaryOf(list, mean),
    },
  };
}

/** Mean, maximum and minimum of the local days that have every half-hour. */
function addWholeDays(
  read: ReadFiles<TemperatureChannel>,
  halfHours: readonly Series<TemperatureChannel>[],
  days: Map<number, DailyTemperature>,
): void {
  const mean = halfHours.find((series) => series.channel === 'meanC');
  if (mean === undefined) return;
  const { utcMs, values } = mean;
  for (let i = 0; i < utcMs.length; ) {
    const dayMs = Math.floor(read.clock.localMsAt(utcMs[i]!) / DAY_MS) * DAY_MS;
    const end = startOfLocalDay(read.clock, dayMs + DAY_MS);
    let sum = 0;
    let maxC = Number.NEGATIVE_INFINITY;
    let minC = Number.POSITIVE_INFINITY;
    let k = i;
    for (; k < utcMs.length && utcMs[k]! < end; k++) {
      sum += values[k]!;
      maxC = Math.max(maxC, values[k]!);
      minC = Math.min(minC, values[k]!);
    }
    if (k - i === (end - startOfLocalDay(read.clock, dayMs)) / HALF_HOUR_MS) {
      const serialDay = localMsToSerial(dayMs);
      days.set(serialDay, { serialDay, meanC: sum / (k - i), maxC, minC });
    }
    i = k;
  }
}

/** No air was ever so cold or hot: often the mark of a missing value, such as -999. */
function refuseImpossible(
  read: ReadFiles<TemperatureChannel>,
  { utcMs, values, files, records }: Series<TemperatureChannel>,
): void {
  const [coldestC, hottestC] = POSSIBLE_C;
  const at = values.findIndex((value) => value < coldestC || value > hottestC);
  if (at < 0) return;
  throw new InputError(
    `the temperature of ${localTextOf(read)(utcMs[at]!)} is ${Number(values[at]!.toFixed(2))} °C`,
    `Take the line out, or give what it was: air lies between ${coldestC} and ${hottestC} °C.`,
    placeIn(read, { file: files[at]!, record: records[at]! }),
  );
}

function lookOverDays(read: ReadFiles<TemperatureChannel>, series: Series<TemperatureChannel>): void {
  const { utcMs, values, files, records, estimated, channel } = series;
  const dayText = (at: number): string => localTextOf(read)(at).slice(0, 10);
  for (let i = 0; i < utcMs.length; i++) {
    const place = (text: string) => ({ record: records[i]!, text });
    if (i > 0) {
      const missing = Math.round((utcMs[i]! - utcMs[i - 1]!) / DAY_MS) - 1;
      if (missing > 0) {
        const text = `${dayText(utcMs[i - 1]! + DAY_MS * 1.1)} to ${dayText(utcMs[i]! - DAY_MS / 2)}, ${missing} after this line`;
        read.findings.add(files[i - 1]!, 'missing day', channel, { record: records[i - 1]!, text }, missing);
      }
    }
    const text = `${dayText(utcMs[i]!)}: ${Number(values[i]!.toFixed(2))} °C`;
    if (values[i]! < OUTLIER_C[0] || values[i]! > OUTLIER_C[1])
      read.findings.add(files[i]!, 'outlier', channel, place(text));
    if (estimated[i] === 1) read.findings.add(files[i]!, 'estimated', channel, place(text));
  }
}

function checkMaxAboveMin(read: ReadFiles<TemperatureChannel>, days: readonly DailyTemperature[]): void {
  const wrong = days.find(({ maxC, minC }) => maxC !== undefined && minC !== undefined && maxC < minC);
  if (wrong === undefined) return;
  const day = new Date((wrong.serialDay - 25_569) * DAY_MS).toISOString().slice(0, 10);
  throw new InputError(
    `the maximum of ${day} (${wrong.maxC}) is below its minimum (${wrong.minC})`,
    'Check which column is which: --channel COLUMN=maxC, --channel COLUMN=minC.',
    { file: read.settled[0]!.draft.table.file },
  );
}

function summaryOf(
  days: readonly DailyTemperature[],
  mean: Series<TemperatureChannel> | undefined,
): FilesReport['summary'] {
  const text = (serialDay: number): string =>
    new Date((serialDay - 25_569) * DAY_MS).toISOString().slice(0, 10);
  const summary: FilesReport['summary'] = [];
  if (mean !== undefined)
    summary.push({ name: 'outdoor', text: `${thousands(mean.utcMs.length)} half-hours` });
  if (days.length > 0) {
    const span = `${text(days[0]!.serialDay)} to ${text(days.at(-1)!.serialDay)}`;
    summary.push({ name: 'days', text: `${span}, ${thousands(days.length)} days` });
  }
  return summary;
}
