import { InputError, type Place } from '../errors.js';
import { DAY_MS, HALF_HOUR_MS } from '../time/serial.js';
import type { ImportOptions } from './import-options.js';
import { localText } from './local-text.js';
import { headerWords } from './match-channels.js';
import { adviceOnConflict, moreText, placeText, short } from './merge-readings.js';
import type { TablePlace } from './place-text.js';
import { intervalsOfRegister } from './registers.js';
import { mergeSeries, type Series, type Twice } from './series.js';
import type { ReadFiles } from './settle-files.js';
import { toHalfHours } from './to-half-hours.js';

/**
 * Where a value of an import stands.
 *
 * @param read files of the import
 * @param at numbers of file and record
 * @returns file and line
 * @example placeIn(read, { file: 0, record: 3 }) // { file: 'may.csv', line: 4 }
 */
export function placeIn<C extends string>(
  read: ReadFiles<C>,
  at: { file: number; record: number },
): { file: string; line: TablePlace } {
  const { table } = read.settled[at.file]!.draft;
  return { file: table.file, line: table.lineOf(at.record) };
}

/**
 * Wall-clock text of instants of an import.
 *
 * @param read files of the import
 * @returns epoch ms to `2026-01-31 00:30`
 * @example localTextOf(read)(0) // '1970-01-01 01:00' in London
 */
export function localTextOf<C extends string>(read: ReadFiles<C>): (utcMs: number) => string {
  return (utcMs) => localText(read.clock.localMsAt(utcMs));
}

/**
 * Brings all series of an import to half-hours, one series a channel: registers to their differences, other intervals to half-hours.
 * What was left incomplete and what was given twice goes to the findings.
 *
 * @param read files of the import
 * @param averaged whether a channel is averaged rather than summed
 * @param options options of the import, for what to do with conflicts
 * @returns series of half-hours
 * @throws InputError for an interval that half-hours cannot be made of, off their grid, or two different values of one half-hour
 * @example halfHoursOf(read, () => false, { timeZone: 'Europe/London' })[0].stepMs // 1_800_000
 */
export function halfHoursOf<C extends string>(
  read: ReadFiles<C>,
  averaged: (channel: C) => boolean,
  options: ImportOptions,
): Series<C>[] {
  const textOf = localTextOf(read);
  const duplicates = [...read.duplicates];
  const conflicts = [...read.conflicts];
  const byChannel = new Map<C, Series<C>[]>();
  for (const raw of read.series) {
    if (raw.utcMs.length === 0) continue;
    const series = raw.kind === 'register' ? intervalsOfRegister(raw, read.findings, textOf) : raw;
    if (raw.kind === 'register') tellOpenEnd(read, raw);
    // Half-hours follow the local clock: nought but in zones that stand on a quarter-hour.
    const phaseMs = -(read.clock.offsetMinutesAt(raw.utcMs[0]!) * 60_000) % HALF_HOUR_MS;
    checkGrid(read, series, phaseMs, textOf);
    const { series: half, incomplete } = toHalfHours(series, averaged(series.channel), phaseMs);
    for (const part of incomplete) {
      const text = (): string => `${textOf(part.utcMs)} has ${part.have} of ${part.need} parts`;
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
  refuseConflicts(read, conflicts, options);
  reportTwice(read, duplicates, conflicts);
  return merged.filter((series) => series.utcMs.length > 0);
}

/** A day's last interval needs the read at midnight, which stands in the next file: filled alone, each month loses one. */
function tellOpenEnd<C extends string>(read: ReadFiles<C>, reads: Series<C>): void {
  const last = reads.utcMs.length - 1;
  const next = reads.utcMs[last]! + reads.stepMs;
  if (reads.stepMs >= DAY_MS || read.clock.localMsAt(next) % DAY_MS !== 0) return;
  const text = `the last read is of ${localTextOf(read)(reads.utcMs[last]!)}`;
  read.findings.add(reads.files[last]!, 'register end', reads.channel, {
    record: reads.records[last]!,
    text,
  });
}

/** Intervals that half-hours can be made of, each on the grid of the zone's clock. */
function checkGrid<C extends string>(
  read: ReadFiles<C>,
  series: Series<C>,
  phaseMs: number,
  textOf: (utcMs: number) => string,
): void {
  const minutes = series.stepMs / 60_000;
  const { utcMs, files, records } = series;
  if (utcMs.length === 0) return;
  const place = (i: number): Place => placeIn(read, { file: files[i]!, record: records[i]! });
  const fits = minutes === 60 || (minutes > 0 && 30 % minutes === 0);
  if (!fits) {
    const days = minutes / 1440;
    const every = days === 1 ? 'day' : days >= 28 && days <= 31 ? 'month' : `${minutes} minutes`;
    throw new InputError(
      `the file holds one value every ${every}, no half-hourly readings`,
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

/**
 * Stops at values given twice and different, unless the later file shall win.
 *
 * @param read files of the import
 * @param conflicts what was given twice and different
 * @param options options of the import
 * @throws InputError naming both places
 * @example refuseConflicts(read, read.conflicts, { timeZone: 'Europe/London' })
 */
export function refuseConflicts<C extends string>(
  read: ReadFiles<C>,
  conflicts: readonly Twice[],
  options: ImportOptions,
): void {
  if (conflicts.length === 0 || options.onConflict === 'replace') return;
  const { channel, utcMs, first, second } = conflicts[0]!;
  const when = localTextOf(read)(utcMs);
  throw new InputError(
    `${channel} of ${when} is ${short(second.value)} here and ${short(first.value)} in ${placeText(placeIn(read, first))}${moreText(conflicts.length - 1)}`,
    adviceOnConflict(
      channel,
      [first, second]
        .map(({ file }) => read.settled[file]!.draft)
        .filter((draft) => draft.values.channelAssumed)
        .map(({ table }) => table.file),
    ),
    placeIn(read, second),
  );
}

/**
 * Notes what was given twice.
 *
 * @param read files of the import
 * @param duplicates the same value twice
 * @param conflicts different values
 * @example reportTwice(read, read.duplicates, read.conflicts)
 */
export function reportTwice<C extends string>(
  read: ReadFiles<C>,
  duplicates: readonly Twice[],
  conflicts: readonly Twice[],
): void {
  const textOf = localTextOf(read);
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

/** Typical size at which a value can no longer be in the unit assumed for it, and the unit that it then probably is in. */
const IMPOSSIBLE = {
  energy: { beyond: (median: number) => median > 12, other: 'Wh', side: 'more' },
  temperature: { beyond: (median: number) => median > 45, other: 'degF', side: 'more' },
  price: { beyond: (median: number) => median > 0 && median < 1, other: 'GBP/kWh', side: 'less' },
} as const;

/**
 * Asks for the unit where none was stated and the values cannot be in the one assumed: Wh taken as kWh, °F as °C, pounds as pence.
 *
 * @param read files of the import
 * @param series values of a channel
 * @throws InputError saying which unit to state
 * @example askAboutUnits(read, importSeries)
 */
export function askAboutUnits<C extends string>(read: ReadFiles<C>, series: Series<C>): void {
  if (series.utcMs.length < 4) return;
  for (const { draft } of read.settled) {
    const column = draft.values.values.find((one) => one.unitAssumed && one.channel === series.channel);
    const quantity = column?.unit.quantity;
    if (
      column === undefined ||
      !(quantity === 'energy' || quantity === 'temperature' || quantity === 'price')
    )
      continue;
    const sizes = series.values
      .map(Math.abs)
      .filter((value) => value > 0)
      .sort();
    const median = sizes[Math.floor(sizes.length / 2)] ?? 0;
    const { beyond, other: usual, side } = IMPOSSIBLE[quantity];
    if (!beyond(median)) continue;
    const { table, columns } = draft;
    const isPower =
      quantity === 'energy' && /\b(power|watts?)\b/.test(headerWords(columns.header[column.column] ?? ''));
    const other = isPower ? 'W' : usual;
    throw new InputError(
      `no unit is stated for ${series.channel}, and half of its values are ${Number(median.toPrecision(3))} or ${side}, which cannot be ${column.unit.name}`,
      `Say the unit: --unit ${other} (or --unit ${column.unit.name} if it is so).`,
      { file: table.file, line: table.lineOf(columns.headerRecord ?? columns.rows[0]!) },
    );
  }
}
