import { InputError, type Place } from '../errors.js';
import { HALF_HOUR_MS } from '../time/serial.js';
import { ZoneClock } from '../time/zone-clock.js';
import { assembleReadings } from './assemble-readings.js';
import { CHANNELS, type Channel } from './channels.js';
import type { HalfHourlyReadings } from './half-hourly-readings.js';
import type { OnConflict } from './import-options.js';
import { mergeSeries, type Series, type Twice } from './series.js';

/** Readings and where each of their values stands. */
export interface SourcedReadings {
  readings: HalfHourlyReadings;
  /** Place of a value, for messages: file and line, or workbook and cell. */
  placeOf: (channel: Channel, startUtcMs: number) => Place;
  /** Whether a value's channel was taken without being stated: then it may be of another. */
  isChannelAssumed?: (channel: Channel, startUtcMs: number) => boolean;
}

/** Readings merged, and how often a half-hour was given twice. */
export interface MergedReadings {
  readings: HalfHourlyReadings;
  /** The same value twice: kept once. */
  duplicates: number;
  /** Different values, where `replace` let the later source win. */
  replaced: number;
}

/**
 * Merges readings of different channels and months. The order of the sources matters only where `replace` lets the later one win.
 *
 * @param sources readings of one time zone, with the places of their values
 * @param onConflict what to do where two sources differ by more than 1e-9: refuse (default), or let the later one win
 * @returns merged readings and counts
 * @throws InputError where two sources differ, with both places; or where their time zones do
 * @example mergeReadings([{ readings: january, placeOf }, { readings: february, placeOf }]).duplicates // 0
 */
export function mergeReadings(
  sources: readonly SourcedReadings[],
  onConflict: OnConflict = 'refuse',
): MergedReadings {
  const [first] = sources;
  if (first === undefined) throw new RangeError('no readings to merge');
  const { timeZone } = first.readings;
  const other = sources.find(({ readings }) => readings.timeZone !== timeZone);
  if (other !== undefined) {
    throw new InputError(
      `readings of ${timeZone} and of ${other.readings.timeZone} cannot be merged`,
      'Import all of them with one time zone.',
    );
  }
  let duplicates = 0;
  const conflicts: Twice[] = [];
  const merged: Series<Channel>[] = [];
  for (const channel of CHANNELS) {
    const parts = sources.flatMap(({ readings }, file) => {
      const part = seriesOf(readings, channel, file);
      return part === undefined ? [] : [part];
    });
    if (parts.length === 0) continue;
    const one = mergeSeries(parts);
    duplicates += one.duplicates.length;
    conflicts.push(...one.conflicts);
    merged.push(one.series);
  }
  if (conflicts.length > 0 && onConflict === 'refuse') throw conflictError(conflicts, sources, timeZone);
  const withMarks = sources.some(({ readings }) => readings.estimated !== undefined);
  return { readings: assembleReadings(timeZone, merged, withMarks), duplicates, replaced: conflicts.length };
}

/** A channel of readings as a series without its missing values. */
function seriesOf(readings: HalfHourlyReadings, channel: Channel, file: number): Series<Channel> | undefined {
  const all = readings.channels[channel];
  if (all === undefined) return undefined;
  const at: number[] = [];
  for (let i = 0; i < all.length; i++) if (!Number.isNaN(all[i]!)) at.push(i);
  return {
    channel,
    kind: 'interval',
    stepMs: HALF_HOUR_MS,
    utcMs: Float64Array.from(at, (i) => readings.startUtcMs[i]!),
    values: Float64Array.from(at, (i) => all[i]!),
    records: Int32Array.from(at),
    files: new Int16Array(at.length).fill(file),
    estimated: Uint8Array.from(at, (i) => readings.estimated?.[i] ?? 0),
  };
}

function conflictError(
  conflicts: readonly Twice[],
  sources: readonly SourcedReadings[],
  timeZone: string,
): InputError {
  const [twice] = conflicts;
  const { channel, utcMs, first, second } = twice!;
  const clock = new ZoneClock(timeZone, utcMs, utcMs);
  const when = new Date(clock.localMsAt(utcMs)).toISOString().slice(0, 16).replace('T', ' ');
  const placeOf = (at: Twice['first']): Place => sources[at.file]!.placeOf(channel as Channel, utcMs);
  return new InputError(
    `${channel} of ${when} is ${short(second.value)} here and ${short(first.value)} in ${placeText(placeOf(first))}${moreText(conflicts.length - 1)}`,
    adviceOnConflict(
      channel,
      [first, second]
        .filter((at) => sources[at.file]!.isChannelAssumed?.(channel as Channel, utcMs) === true)
        .map((at) => String(placeOf(at).file)),
    ),
    placeOf(second),
  );
}

/**
 * What to do about two values for one half-hour; where a file's channel was only taken for what it is, to say it comes first: letting
 * that file win would put its values over those of another meter.
 *
 * @param channel the channel
 * @param assumed files whose channel was taken without being stated
 * @returns a sentence or two
 * @example adviceOnConflict('importKwh', []) // 'Remove the wrong one, or let the later file win: --replace.'
 */
export function adviceOnConflict(channel: string, assumed: readonly string[]): string {
  const usual = 'Remove the wrong one, or let the later file win: --replace.';
  const [file] = assumed;
  if (file === undefined) return usual;
  return `That ${file} holds ${channel} is stated nowhere: if it is of another channel, say so with --for "${file}:default-channel=CHANNEL". If it is ${channel}, remove the wrong value, or let the later file win: --replace.`;
}

/**
 * A place in a sentence.
 *
 * @param place file and line
 * @returns `may.csv, line 12`
 * @example placeText({ file: 'may.csv', line: 12 }) // 'may.csv, line 12'
 */
export function placeText({ file, line }: Place): string {
  return [file, typeof line === 'number' ? `line ${line}` : line]
    .filter((part) => part !== undefined)
    .join(', ');
}

/** How many more there are, for the end of a sentence. */
export function moreText(more: number): string {
  return more === 0 ? '' : `, and ${more.toLocaleString('en-GB')} more such`;
}

/** A number without the noise of its last digits. */
export function short(value: number): string {
  return String(Number(value.toFixed(6)));
}
