import { InputError } from '../../errors.js';
import { CHANNELS, type Channel } from '../channels.js';
import type { FileOptions } from '../import-options.js';
import type { Table } from '../read-table.js';
import { unitNamed } from '../units.js';
import { type Nem12, type Quality, type Register, readNem12 } from './nem12-records.js';

const HALF_HOUR = 30;
/** Market time is that of the east coast without daylight saving, wherever the home is (same document, 3.3.1; from memory). */
const MARKET_OFFSET = '+10:00';

/**
 * Reads a NEM12 file into a table of one value a line. Registers E are what came from the grid, B what went to it; several of a kind
 * are added, since each counts a part (a controlled load has one of its own). Others, such as Q and K of reactive energy, are left out
 * and told. Intervals of different lengths become half-hours.
 *
 * @param bytes the file
 * @param file name for messages
 * @param options what the user says: a register, or a meter by its NMI, may be given a channel or left out
 * @returns the table; its stamps carry market time, UTC+10
 * @throws InputError as {@link readNem12}; where the file holds several meters, none of these registers, or days of one without the other
 * @example nem12Table(bytes, 'may.csv', {}).source?.text // 'NEM12, meter (NMI) NEM1201009, market time: UTC+10, no daylight saving'
 */
export function nem12Table(bytes: Uint8Array, file: string, options: FileOptions): Table {
  const nem12 = readNem12(bytes, file);
  const said = new Map(
    Object.entries(options.channels ?? {}).map(([name, channel]) => [name.trim().toUpperCase(), channel]),
  );
  const isLeftOut = (one: Register): boolean => said.get(one.nmi.toUpperCase()) === 'ignore';
  const ofHome = nem12.registers.filter((one) => !isLeftOut(one));
  const meters = [...new Set(ofHome.map(({ nmi }) => nmi))];
  if (meters.length > 1) {
    throw new InputError(
      `the file holds ${meters.length} meters (NMI ${meters.join(', ')})`,
      `Leave out what is not this home's: --channel "${meters.at(-1)}=ignore".`,
      { file, line: ofHome.find(({ nmi }) => nmi !== meters[0])!.line },
    );
  }
  const byChannel = new Map<Channel, Register[]>();
  for (const register of ofHome) {
    const channel = channelOf(register, said);
    if (channel === undefined) continue;
    const list = byChannel.get(channel);
    if (list === undefined) byChannel.set(channel, [register]);
    else list.push(register);
  }
  if (byChannel.size === 0) {
    const suffixes = [...new Set(ofHome.map(({ suffix }) => suffix))].join(', ');
    throw new InputError(
      `the file holds no register of what came from the grid (E) or went to it (B), but ${suffixes || 'none'}`,
      `Say what one is: --channel "${ofHome[0]?.suffix ?? 'E1'}=importKwh".`,
      { file },
    );
  }
  const told = onlyChannelTold(byChannel, options);
  const used = [...byChannel.values()].flat();
  const minutes = used.every((one) => one.minutes === used[0]!.minutes) ? used[0]!.minutes : HALF_HOUR;
  const records = [['start', 'channel', 'kWh', 'quality']];
  const lines = [1];
  for (const [channel, registers] of byChannel) {
    for (const value of valuesOf(registers, minutes, file)) {
      records.push([value.start, told ?? channel, value.text, value.quality]);
      lines.push(value.line);
    }
  }
  return {
    file,
    records,
    delimiter: ',',
    encoding: '',
    endsWithLineEnd: true,
    lineNumber: (record) => lines[record] ?? 1,
    lineOf: (record) => lines[record] ?? 1,
    source: {
      text: `NEM12, meter (NMI) ${meters[0]}, market time: UTC+10, no daylight saving`,
      lineName: 'line',
      assumptions: assumptionsOf(byChannel, minutes),
      counts: countsOf(nem12, used),
      columns: [...byChannel].flatMap(([channel, registers]) =>
        [...new Set(registers.map(({ suffix, unit }) => `${suffix} ${unit}`))].map((name) => ({
          column: `register ${name.split(' ')[0]}`,
          meaning: told ?? channel,
          unit: name.split(' ')[1]!,
        })),
      ),
      isFixed: true,
      names: [...new Set(nem12.registers.flatMap(({ nmi, suffix }) => [suffix, nmi]))],
    },
  };
}

function channelOf({ suffix }: Register, said: ReadonlyMap<string, string>): Channel | undefined {
  const told = said.get(suffix);
  if (told === 'ignore') return undefined;
  if (told !== undefined) return CHANNELS.find((channel) => channel === told);
  return suffix.startsWith('E') ? 'importKwh' : suffix.startsWith('B') ? 'exportKwh' : undefined;
}

/** Where the file is of one channel, the user's word for it goes before the suffix. */
function onlyChannelTold(
  byChannel: ReadonlyMap<Channel, Register[]>,
  options: FileOptions,
): string | undefined {
  return byChannel.size === 1 ? options.defaultChannel : undefined;
}

interface PlacedValue {
  start: string;
  text: string;
  quality: Quality;
  line: number;
}

/** Sums of registers, interval by interval; blank where one of them has no value. */
function valuesOf(registers: readonly Register[], minutes: number, file: string): PlacedValue[] {
  // A register may come in several blocks, as where two files were joined.
  const suffixes = [...new Set(registers.map(({ suffix }) => suffix))];
  const days = suffixes.map((suffix) => {
    const merged = new Map<string, Day>();
    for (const register of registers)
      if (register.suffix === suffix) addDays(merged, register, minutes, file);
    return merged;
  });
  const [first, ...others] = days;
  for (const [i, other] of others.entries()) {
    for (const key of first!.keys())
      if (!other.has(key)) throw lacks(suffixes[i + 1]!, suffixes[0]!, first!.get(key)!);
    for (const key of other.keys())
      if (!first!.has(key)) throw lacks(suffixes[0]!, suffixes[i + 1]!, other.get(key)!);
  }
  const list: PlacedValue[] = [];
  for (const [key, day] of first!) {
    const parts = [day, ...others.map((other) => other.get(key)!)];
    for (let i = 0; i < day.values.length; i++) {
      let sum: number | undefined = 0;
      let quality: Quality = 'actual';
      for (const part of parts) {
        const value: number | undefined = part.values[i];
        sum = sum === undefined || value === undefined ? undefined : sum + value;
        if (part.quality[i] !== 'actual') quality = part.quality[i]!;
      }
      const at = i * minutes;
      const two = (n: number): string => String(n).padStart(2, '0');
      list.push({
        start: `${day.date} ${two(Math.floor(at / 60))}:${two(at % 60)}${MARKET_OFFSET}`,
        text: sum === undefined ? '' : String(Number(sum.toPrecision(15))),
        quality,
        line: day.line,
      });
    }
  }
  return list;

  function lacks(without: string, withIt: string, day: Day): InputError {
    return new InputError(
      `${withIt} has values of ${day.date}, and ${without}, which counts a part of the same, has none`,
      `Give a file with both, or leave one out: --channel "${without}=ignore".`,
      { file, line: day.line },
    );
  }
}

interface Day {
  date: string;
  line: number;
  values: (number | undefined)[];
  quality: Quality[];
}

/** Adds the days of a register in kWh and intervals of a length, by date; a date that comes again is one of its own. */
function addDays(days: Map<string, Day>, register: Register, minutes: number, file: string): void {
  const unit = unitNamed(register.unit);
  if (unit?.quantity !== 'energy' && unit?.quantity !== 'power') {
    throw new InputError(
      `the unit of register ${register.suffix} is "${register.unit}", which is no energy`,
      `Leave it out: --channel "${register.suffix}=ignore".`,
      { file, line: register.line },
    );
  }
  const factor = unit.factor * (unit.quantity === 'power' ? register.minutes / 60 : 1);
  const parts = minutes / register.minutes;
  for (const { date, line, values, quality } of register.days) {
    let key = date;
    while (days.has(key)) key += '+';
    const joined: Day = { date, line, values: [], quality: [] };
    for (let i = 0; i < values.length; i += parts) {
      const some = values.slice(i, i + parts);
      const isWhole = some.every((value) => value !== undefined);
      joined.values.push(isWhole ? some.reduce((sum, value) => sum! + value! * factor, 0) : undefined);
      joined.quality.push(quality.slice(i, i + parts).find((one) => one !== 'actual') ?? 'actual');
    }
    days.set(key, joined);
  }
}

function assumptionsOf(byChannel: ReadonlyMap<Channel, Register[]>, minutes: number): string[] {
  const list: string[] = [];
  for (const [channel, registers] of byChannel) {
    const suffixes = [...new Set(registers.map(({ suffix }) => suffix))];
    if (suffixes.length > 1)
      list.push(
        `${suffixes.join(' and ')} are added to ${channel}, as each counts a part of it (--channel "${suffixes.at(-1)}=ignore" leaves one out)`,
      );
    const finer = registers.find((register) => register.minutes !== minutes);
    if (finer !== undefined)
      list.push(
        `${channel}: intervals of ${finer.minutes} minutes are added up to half-hours, as other registers have longer ones`,
      );
  }
  return list;
}

function countsOf({ registers, lines }: Nem12, used: readonly Register[]) {
  const isNull = (values: readonly (number | undefined)[]): boolean =>
    values.every((value) => value === undefined);
  const days = used.flatMap((register) => register.days);
  const nulls = days.filter(({ values }) => isNull(values)).length;
  const other = [{ count: lines.frame, what: 'of records 100, 200, 900' }];
  if (lines.quality > 0)
    other.push({ count: lines.quality, what: 'of records 400, the quality of intervals' });
  if (lines.reads > 0) other.push({ count: lines.reads, what: 'of records 500, manual reads, not read' });
  const left = new Map<string, number>();
  for (const register of registers) {
    if (used.includes(register)) continue;
    const name = `${register.suffix} (${register.unit})`;
    left.set(name, (left.get(name) ?? 0) + register.days.length);
  }
  for (const [name, count] of left) other.push({ count, what: `of register ${name}, not read` });
  return {
    all: lines.all,
    readings: days.length - nulls,
    withoutValue: nulls,
    header: 0,
    above: [],
    blank: lines.blank,
    other,
  };
}
