import { InputError } from '../../errors.js';
import { CHANNELS } from '../channels.js';
import type { LineCounts } from '../file-report.js';
import type { FileOptions } from '../import-options.js';
import type { Table } from '../read-table.js';
import type { IntervalReading } from './espi-entries.js';
import { type EspiStream, espiStreams, THERM_KWH } from './espi-streams.js';

/** What is looked for in a feed. */
export type EspiWanted = 'electricity' | 'gas';

/** Numbers of qualities that are no reads but made up (REQ.21, QualityOfReading; from memory). */
const MADE_UP: Readonly<Record<string, string>> = {
  '8': 'estimated',
  '9': 'estimated',
  '10': 'questionable',
  '12': 'projected',
  '13': 'mixed',
  '15': 'normalised for weather',
  '16': 'other',
};

/** A stream with its name and the channel that it is read into. */
interface Taken {
  stream: EspiStream;
  name: string;
  channel: string;
}

/**
 * Reads an ESPI feed into tables, one for each length of interval. What flows forward came from the grid, what flows in reverse went to
 * it. Gas is read as gas, electricity as electricity; the rest is told.
 *
 * @param xml the document
 * @param file name for messages
 * @param wanted electricity or gas
 * @param options what the user says: a meter, or one of its directions, may be given a channel or left out
 * @returns tables whose stamps are UTC
 * @throws InputError as espiStreams; where several meters could be the home's; where the feed holds none of what is wanted, or costs alone
 * @example espiTables(xml, 'may.xml', 'electricity', {})[0]?.records[1] // ['2026-01-31T00:00:00Z', '2026-01-31T01:00:00Z', 'importKwh', '0.25', '']
 */
export function espiTables(xml: string, file: string, wanted: EspiWanted, options: FileOptions): Table[] {
  const streams = espiStreams(xml, file);
  const named = namesOf(streams);
  const { taken, left } = takeStreams(streams, named, wanted, file, options);
  const assumptions = assumptionsOf(taken, wanted);
  const other = othersOf(left, wanted);
  const unit = wanted === 'gas' ? gasUnit(taken, file) : 'kWh';
  const byLength = new Map<string, Row[]>();
  for (const row of rowsOf(taken, file)) {
    const rows = byLength.get(row.duration);
    if (rows === undefined) byLength.set(row.duration, [row]);
    else rows.push(row);
  }
  const meters = [...new Set(taken.map(({ stream }) => `"${stream.meter}"`))].join(', ');
  const names = [...new Set([...named.values(), ...streams.map(({ meter }) => meter)])];
  return [...byLength.values()].map((rows, i): Table => {
    const header = ['start', 'end', 'channel', unit, 'quality'];
    const records = [header, ...rows.map(({ cells }) => cells)];
    if (wanted === 'gas') for (const record of records) record.splice(2, 1);
    if (wanted === 'gas') records[0] = ['from', 'to', `gas (${unit})`, 'quality'];
    const lineOf = (record: number): number => rows[record - 1]?.line ?? 1;
    const countOf = (some: readonly Row[]): number => some.reduce((sum, { parts }) => sum + parts, 0);
    const all = countOf(rows);
    const withoutValue = countOf(rows.filter(({ cells }) => cells.at(-2) === ''));
    const counts: LineCounts = {
      all,
      readings: all - withoutValue,
      withoutValue,
      header: 0,
      above: [],
      blank: 0,
    };
    if (i === 0) {
      counts.other = other;
      counts.all += other.reduce((sum, { count }) => sum + count, 0);
    }
    return {
      file,
      records,
      delimiter: ',',
      encoding: '',
      endsWithLineEnd: true,
      lineNumber: lineOf,
      lineOf,
      source: {
        text: `ESPI (NAESB REQ.21), ${meters === '' ? 'no meter named' : meters}`,
        lineName: 'reading',
        assumptions: i === 0 ? assumptions : [],
        counts,
        columns: taken.map(({ name, channel, stream }) => ({
          column: name,
          meaning: channel,
          unit: unitText(stream),
        })),
        isFixed: true,
        names,
      },
    };
  });
}

/** Names of streams as options give them: meter and direction, and more where that is not enough. */
function namesOf(streams: readonly EspiStream[]): Map<EspiStream, string> {
  const names = new Map<EspiStream, string>();
  const taken = new Set<string>();
  for (const stream of streams) {
    const { measured, meter } = stream;
    const what =
      measured.of === 'electricity' ? (measured.flow === 'reverse' ? 'reverse' : 'forward') : measured.of;
    let name = `${meter} ${what}`;
    for (let n = 2; taken.has(name.toLowerCase()); n++) name = `${meter} ${what} ${n}`;
    taken.add(name.toLowerCase());
    names.set(stream, name);
  }
  return names;
}

function takeStreams(
  streams: readonly EspiStream[],
  named: ReadonlyMap<EspiStream, string>,
  wanted: EspiWanted,
  file: string,
  options: FileOptions,
): { taken: Taken[]; left: { stream: EspiStream; why: string }[] } {
  const said = new Map(
    Object.entries(options.channels ?? {}).map(([name, channel]) => [name.trim().toLowerCase(), channel]),
  );
  const left: { stream: EspiStream; why: string }[] = [];
  const able: Taken[] = [];
  for (const stream of streams) {
    const { measured, readings } = stream;
    const name = named.get(stream)!;
    const told = said.get(name.toLowerCase()) ?? said.get(stream.meter.toLowerCase());
    const hasValues = readings.some(({ value }) => value !== undefined && value !== '');
    if (measured.of === 'other') left.push({ stream, why: measured.why });
    else if (measured.of !== wanted) left.push({ stream, why: `of ${measured.of}` });
    else if (told === 'ignore') left.push({ stream, why: `of ${name}, left out as told` });
    else if (!hasValues) left.push({ stream, why: 'with costs alone' });
    else able.push({ stream, name, channel: told ?? channelOf(stream) });
  }
  for (const one of able)
    if (!CHANNELS.some((channel) => channel === one.channel) && one.channel !== 'gas') {
      throw new InputError(
        `"${one.channel}" is not a channel of this file`,
        `Give one of ${CHANNELS.join(', ')}, or ignore.`,
        { file },
      );
    }
  // Sums of whole days beside the intervals that they are made of are the same energy again.
  const fine = able.filter(({ stream }) => wanted === 'gas' || usualLength(stream) < 86_400);
  const isSummary = (one: Taken): boolean =>
    !fine.includes(one) &&
    fine.some((other) => other.channel === one.channel && other.stream.meter === one.stream.meter);
  const taken = able.filter((one) => {
    if (!isSummary(one)) return true;
    left.push({ stream: one.stream, why: 'of sums of days' });
    return false;
  });
  if (taken.length === 0) throw nothingOf(left, wanted, file);
  for (const one of taken) {
    const twin = taken.find((other) => other !== one && other.channel === one.channel);
    const isTold = (name: string): boolean => said.has(name.toLowerCase());
    if (twin === undefined || (isTold(one.name) && isTold(twin.name))) continue;
    throw new InputError(
      `"${one.name}" and "${twin.name}" could both be ${one.channel}`,
      `Say which is: leave one out with --channel "${twin.name}=ignore", or give it another channel; to add them, say --channel "${one.name}=${one.channel}" and --channel "${twin.name}=${one.channel}".`,
      { file, line: twin.stream.line },
    );
  }
  const [first] = taken;
  const isLone = new Set(taken.map(({ channel }) => channel)).size === 1;
  if (wanted === 'electricity' && isLone && options.defaultChannel !== undefined)
    for (const one of taken) one.channel = options.defaultChannel;
  return { taken: first === undefined ? [] : taken, left };
}

function channelOf({ measured }: EspiStream): string {
  if (measured.of !== 'electricity') return 'gas';
  return measured.flow === 'reverse' ? 'exportKwh' : 'importKwh';
}

function usualLength({ readings }: EspiStream): number {
  const counts = new Map<string, number>();
  for (const { duration } of readings) counts.set(duration, (counts.get(duration) ?? 0) + 1);
  const [most] = [...counts].sort((a, b) => b[1] - a[1]);
  return Number(most?.[0]);
}

function nothingOf(
  left: readonly { stream: EspiStream; why: string }[],
  wanted: EspiWanted,
  file: string,
): InputError {
  const other = wanted === 'gas' ? 'electricity' : 'gas';
  const line = left[0]?.stream.line;
  const place = { file, ...(line === undefined ? {} : { line }) };
  if (left.length === 0) {
    return new InputError(
      'the file holds no interval readings',
      'Download usage by the hour or finer.',
      place,
    );
  }
  if (left.some(({ stream }) => stream.measured.of === other)) {
    const way = other === 'gas' ? 'Give it as gas: --gas.' : 'Give it among the readings.';
    return new InputError(`the file holds ${other} and no ${wanted}`, way, place);
  }
  const whys = [...new Set(left.map(({ why }) => why))].join(', ');
  if (whys === 'with costs alone' || whys === 'costs') {
    return new InputError(
      'the file holds costs alone, and no energy',
      'Download the usage: a file with values in kWh, Wh or volume.',
      place,
    );
  }
  return new InputError(
    `the file holds no ${wanted} by intervals, but readings ${whys}`,
    'Download usage by the hour or finer.',
    place,
  );
}

interface Row {
  cells: string[];
  line: number;
  duration: string;
  /** Readings that it is the sum of. */
  parts: number;
}

/** Rows of all channels; streams that were told to be one channel are added, and have no value where one of them has none. */
function rowsOf(taken: readonly Taken[], file: string): Row[] {
  const byChannel = new Map<string, Taken[]>();
  for (const one of taken) byChannel.set(one.channel, [...(byChannel.get(one.channel) ?? []), one]);
  return [...byChannel].flatMap(([channel, parts]) => {
    const lists = parts.map(({ stream }) =>
      stream.readings.map((reading) => rowOf(stream, channel, reading, file)),
    );
    return lists.length === 1 ? lists[0]! : added(lists, file);
  });
}

function added(lists: readonly Row[][], file: string): Row[] {
  const byTime = new Map<string, (Row | undefined)[]>();
  lists.forEach((rows, i) => {
    for (const row of rows) {
      const key = `${row.cells[0]} ${row.duration}`;
      const together = byTime.get(key) ?? new Array<Row | undefined>(lists.length).fill(undefined);
      if (together[i] !== undefined) {
        throw new InputError(
          `the interval from ${row.cells[0]} comes twice`,
          'Leave one of the readings out.',
          {
            file,
            line: row.line,
          },
        );
      }
      together[i] = row;
      byTime.set(key, together);
    }
  });
  return [...byTime.values()].map((together): Row => {
    const there = together.filter((row) => row !== undefined);
    const [first] = there;
    const isWhole = there.length === lists.length && there.every(({ cells }) => cells[3] !== '');
    const sum = isWhole ? rounded(there.reduce((total, { cells }) => total + Number(cells[3]), 0)) : '';
    const mark = there.some(({ cells }) => cells[4] === 'estimated') ? 'estimated' : first!.cells[4]!;
    return { ...first!, cells: [...first!.cells.slice(0, 3), sum, mark], parts: there.length };
  });
}

function rowOf(stream: EspiStream, channel: string, reading: IntervalReading, file: string): Row {
  const { start, duration, value = '', line, qualities } = reading;
  const whole = /^\d{1,12}$/;
  if (!whole.test(start) || !whole.test(duration) || Number(duration) === 0) {
    throw new InputError(
      `the reading begins at "${start.slice(0, 20)}" and lasts "${duration.slice(0, 20)}", which are not both whole seconds`,
      'Download the file again.',
      { file, line },
    );
  }
  if (value !== '' && !/^[+-]?\d+(\.\d+)?$/.test(value)) {
    throw new InputError(`"${value.slice(0, 20)}" is not a number`, 'Download the file again.', {
      file,
      line,
    });
  }
  const text = (seconds: number): string => new Date(seconds * 1000).toISOString().replace('.000Z', 'Z');
  const from = Number(start);
  const quality = [...qualities, ...(qualities.length === 0 ? [stream.defaultQuality ?? ''] : [])];
  const isMadeUp = quality.some((number) => MADE_UP[number] !== undefined);
  const mark = quality.join('') === '' ? '' : isMadeUp ? 'estimated' : 'actual';
  const cells = [
    text(from),
    text(from + Number(duration)),
    channel,
    value === '' ? '' : amount(stream, value, Number(duration)),
    mark,
  ];
  return { cells, line, duration, parts: 1 };
}

/** A value in kWh, or of gas in its unit. */
function amount({ measured, powerOfTen }: EspiStream, value: string, seconds: number): string {
  if (measured.of === 'gas') return rounded(Number(`${value}e${powerOfTen}`) * measured.factor);
  const inKilo = Number(`${value}e${powerOfTen - 3}`);
  const isPower = measured.of === 'electricity' && measured.unit === 'W';
  return rounded(isPower ? (inKilo * seconds) / 3600 : inKilo);
}

const rounded = (value: number): string => String(Number(value.toPrecision(15)));

function gasUnit(taken: readonly Taken[], file: string): string {
  const units = [
    ...new Set(taken.flatMap(({ stream: { measured } }) => (measured.of === 'gas' ? [measured.unit] : []))),
  ];
  if (units.length === 1) return units[0]!;
  throw new InputError(
    `the gas is in ${units.join(' and in ')}`,
    `Leave one out: --channel "${taken.at(-1)!.name}=ignore".`,
    { file },
  );
}

function unitText({ measured, powerOfTen }: EspiStream): string {
  const unit = measured.of === 'other' ? '' : measured.unit;
  return powerOfTen === 0 ? unit : `10^${powerOfTen} ${unit}`;
}

function assumptionsOf(taken: readonly Taken[], wanted: EspiWanted): string[] {
  const list: string[] = [];
  for (const { stream, name, channel } of taken) {
    const { measured } = stream;
    if (measured.of === 'electricity' && measured.flow === 'unstated')
      list.push(
        `"${name}" is ${channel}, as no flow direction is stated (--channel "${name}=…" says otherwise)`,
      );
    if (measured.of === 'electricity' && measured.unit === 'W')
      list.push(`"${name}" is the mean power of each interval`);
  }
  const channels = new Set(taken.map(({ channel }) => channel));
  for (const channel of channels) {
    const parts = taken.filter((one) => one.channel === channel).map(({ name }) => `"${name}"`);
    if (parts.length > 1) list.push(`${parts.join(' and ')} are added, where all of them have a value`);
  }
  const odd = new Set<string>();
  for (const { stream } of taken)
    for (const { qualities } of stream.readings)
      for (const number of qualities)
        if (MADE_UP[number] !== undefined && MADE_UP[number] !== 'estimated')
          odd.add(`${number}, ${MADE_UP[number]}`);
  if (odd.size > 0) list.push(`readings of quality ${[...odd].join('; ')} are marked as estimated`);
  if (
    wanted === 'gas' &&
    taken.some(({ stream: { measured } }) => measured.of === 'gas' && measured.factor === THERM_KWH)
  )
    list.push(`a therm is taken as ${THERM_KWH} kWh`);
  return list;
}

/** Readings that are not read, by what they are. */
function othersOf(
  left: readonly { stream: EspiStream; why: string }[],
  wanted: EspiWanted,
): { count: number; what: string }[] {
  const counts = new Map<string, number>();
  for (const { stream, why } of left) {
    if (stream.readings.length === 0) continue;
    const way =
      why === 'of gas' && wanted === 'electricity'
        ? ' (give the file with --gas too)'
        : why === 'of electricity'
          ? ' (give the file among the readings too)'
          : '';
    const what = `${why}, not read${way}`;
    counts.set(what, (counts.get(what) ?? 0) + stream.readings.length);
  }
  return [...counts].map(([what, count]) => ({ count, what }));
}
