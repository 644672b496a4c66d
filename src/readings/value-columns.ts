import { InputError } from '../errors.js';
import type { Columns } from './find-header.js';
import type { FileOptions } from './import-options.js';
import { channelNamed, channelOfTitle, headerWords, isNoReading } from './match-channels.js';
import type { Table } from './read-table.js';
import { findColumn, type StampColumns } from './stamp-columns.js';
import { type Unit, unitIn, unitNamed } from './units.js';
import type { Vocabulary } from './vocabulary.js';

/** A column of values, understood. */
export interface ValueColumn<C extends string> {
  column: number;
  channel: C;
  unit: Unit;
  /** Whether the unit was stated nowhere. */
  unitAssumed: boolean;
  /** Whether it holds readings of a cumulative register; `ask` where only the numbers themselves can tell. */
  register: boolean | 'ask';
}

/** All columns other than stamps, understood. */
export interface Values<C extends string> {
  values: ValueColumn<C>[];
  /** Column whose cells name the channel of their line. */
  channelColumn?: { column: number; channels: Map<string, C> };
  /** Column whose cells mark estimated reads. */
  estimated?: { column: number; marks: Set<string> };
  unused: number[];
  assumptions: string[];
}

const REGISTER = /\b(register|cumulative|meter reading|counter|index|lifetime|running total|total to date)\b/;
const READING = /\b(reading|readings|read)\b/;
const MARK_HEADER = /\b(estimat\w*|quality|read type|reading type|status|flag|type|actual|substituted)\b/;
const ESTIMATED = ['e', 'est', 'estimate', 'estimated', 'estimation', 's', 'substituted', 'calculated'];
const ACTUAL = [
  'a',
  'act',
  'actual',
  'r',
  'real',
  'm',
  'measured',
  'v',
  'valid',
  'validated',
  'ok',
  'good',
  'normal',
];

/**
 * Understands the columns of values: which channel, which unit, register or interval, and the marks of estimated reads.
 *
 * @param table the table
 * @param columns what its columns look like
 * @param stamps the columns that say when
 * @param slots columns of a table with one line a day, undefined for one line an interval
 * @param options what the user says
 * @param vocabulary channels to look for
 * @returns columns with their channels, and what was assumed
 * @throws InputError when no column, or more than one, could be a channel
 * @example findValueColumns(table, columns, { date: 0 }, undefined, {}, electricityVocabulary).values[0]?.channel // 'importKwh'
 */
export function findValueColumns<C extends string>(
  table: Table,
  columns: Columns,
  stamps: StampColumns,
  slots: readonly number[] | undefined,
  options: FileOptions,
  vocabulary: Vocabulary<C>,
): Values<C> {
  const { header, kinds } = columns;
  const assumptions: string[] = [];
  const taken = new Set(
    [stamps.date, stamps.time, stamps.period, stamps.endDate, stamps.endTime, ...(slots ?? [])].filter(
      (i): i is number => i !== undefined,
    ),
  );
  const free = kinds.map((_, i) => i).filter((i) => !taken.has(i));
  const named = columnsNamedByOptions(header, options, vocabulary);
  const estimated = findEstimated(
    table,
    columns,
    free.filter((i) => !named.has(i)),
  );
  const channelColumn = findChannelColumn(
    table,
    columns,
    free.filter((i) => !named.has(i)),
    vocabulary,
    estimated,
  );
  const numeric = free.filter(
    (i) =>
      i !== estimated?.column &&
      i !== channelColumn?.column &&
      named.get(i) !== 'ignore' &&
      (kinds[i] === 'number' || named.has(i)),
  );
  let chosen: Map<number, C>;
  if (slots !== undefined) {
    const channel = channelColumn
      ? vocabulary.fallback
      : loneChannel(table, columns, '', options, vocabulary, assumptions);
    chosen = new Map([[slots[0]!, channel]]);
  } else if (channelColumn !== undefined) {
    const candidates = numeric.filter((i) => !isNoReading(headerWords(header[i]!)));
    if (candidates.length !== 1) throw askForChannels(table, columns, candidates);
    chosen = new Map([[candidates[0]!, vocabulary.fallback]]);
  } else {
    chosen = chooseChannels(table, columns, numeric, named, options, vocabulary, assumptions);
  }
  const unitCells = findUnitColumn(
    table,
    columns,
    free.filter((i) => !chosen.has(i)),
  );
  const values = [...chosen].map(([column, channel]): ValueColumn<C> => {
    const text = slots === undefined ? header[column]! : slotHeaderText(header, slots);
    return {
      column,
      channel,
      ...unitOf(
        text,
        slots === undefined ? text : '',
        channel,
        unitCells?.unit,
        options,
        vocabulary,
        assumptions,
      ),
      register: registerOf(headerWords(text), options),
    };
  });
  const used = new Set([...chosen.keys(), channelColumn?.column, estimated?.column, unitCells?.column]);
  return {
    values,
    ...(channelColumn ? { channelColumn } : {}),
    ...(estimated ? { estimated } : {}),
    unused: free.filter((i) => !used.has(i) && kinds[i] !== 'blank'),
    assumptions,
  };
}

const slotHeaderText = (header: readonly string[], slots: readonly number[]): string =>
  header[slots[0]!] ?? '';

function columnsNamedByOptions<C extends string>(
  header: readonly string[],
  options: FileOptions,
  vocabulary: Vocabulary<C>,
): Map<number, C | 'ignore'> {
  const result = new Map<number, C | 'ignore'>();
  for (const [name, channel] of Object.entries(options.channels ?? {})) {
    if (channel !== 'ignore' && !vocabulary.channels.includes(channel as string as C)) {
      throw new InputError(
        `"${channel}" is not a channel`,
        `Give one of ${vocabulary.channels.join(', ')}, or ignore.`,
      );
    }
    const at = findColumn(header, name);
    if (at !== undefined) result.set(at, channel as string as C | 'ignore');
  }
  return result;
}

function chooseChannels<C extends string>(
  table: Table,
  columns: Columns,
  numeric: readonly number[],
  named: ReadonlyMap<number, C | 'ignore'>,
  options: FileOptions,
  vocabulary: Vocabulary<C>,
  assumptions: string[],
): Map<number, C> {
  const { header } = columns;
  const chosen = new Map<number, C>();
  const claimed = new Map<C, number>();
  const claim = (column: number, channel: C): void => {
    const other = claimed.get(channel);
    if (other !== undefined) throw askWhich(table, columns, other, column, channel);
    claimed.set(channel, column);
    chosen.set(column, channel);
  };
  for (const [column, channel] of named) if (channel !== 'ignore') claim(column, channel);
  const rest = numeric.filter((i) => !named.has(i));
  const matches = new Map(
    rest.map((i) => {
      const own = channelNamed(header[i]!, vocabulary.channels);
      return [i, own ? { channel: own, strength: 'strong' as const } : vocabulary.match(header[i]!)];
    }),
  );
  const byOption = new Set(claimed.keys());
  for (const strength of ['strong', 'weak'] as const) {
    const before = new Set(claimed.keys());
    for (const i of rest) {
      const match = matches.get(i);
      if (match?.strength !== strength || byOption.has(match.channel) || before.has(match.channel)) continue;
      claim(i, match.channel);
    }
  }
  if (chosen.size > 0) return chosen;
  const unknown = rest.filter((i) => !isNoReading(headerWords(header[i]!)));
  // Of several, the one that states a unit of energy (or volume, temperature) is the reading.
  const withUnit = unknown.filter((i) => {
    const unit = unitIn(header[i]!);
    return unit !== undefined && vocabulary.quantities(vocabulary.fallback).includes(unit.quantity);
  });
  const unnamed = withUnit.length === 1 ? withUnit : unknown;
  if (unnamed.length !== 1) throw askForChannels(table, columns, unnamed);
  const column = unnamed[0]!;
  chosen.set(column, loneChannel(table, columns, header[column]!, options, vocabulary, assumptions));
  return chosen;
}

/** Channel of a file whose one value column does not say: the user's word, the file's name, else the usual one, said as assumed. */
function loneChannel<C extends string>(
  table: Table,
  columns: Columns,
  header: string,
  options: FileOptions,
  vocabulary: Vocabulary<C>,
  assumptions: string[],
): C {
  const given = options.defaultChannel as string | undefined;
  if (given !== undefined) {
    if (!vocabulary.channels.includes(given as C)) {
      throw new InputError(`"${given}" is not a channel`, `Give one of ${vocabulary.channels.join(', ')}.`);
    }
    return given as C;
  }
  const quantity = unitIn(header)?.quantity;
  const inThatUnit = vocabulary.channels.filter(
    (c) => quantity !== undefined && vocabulary.quantities(c).includes(quantity),
  );
  if (inThatUnit.length === 1) return inThatUnit[0]!;
  const what = header === '' ? 'the values are' : `"${header}" is`;
  const guess = (channel: C, why: string): C => {
    assumptions.push(`${what} ${channel}, ${why} (--default-channel says otherwise)`);
    return channel;
  };
  const firstRow = columns.headerRecord ?? columns.rows[0]!;
  for (let r = 0; r < firstRow; r++) {
    const channel = channelOfTitle(table.records[r]!.join(' '), vocabulary.match);
    if (channel !== undefined) return guess(channel, `from line ${table.lineOf(r)}`);
  }
  const base = table.file
    .split(/[\\/]/)
    .at(-1)!
    .replace(/\.[^.]*$/, '');
  const byName = channelOfTitle(base, vocabulary.match);
  if (byName !== undefined) return guess(byName, 'from the name of the file');
  return guess(vocabulary.fallback, 'as nothing names it');
}

function askWhich(table: Table, columns: Columns, a: number, b: number, channel: string): InputError {
  const name = (i: number): string => `"${columns.header[i] || i + 1}"`;
  return new InputError(
    `columns ${name(a)} and ${name(b)} both look like ${channel}`,
    `Say which one is: --channel "${columns.header[a] || a + 1}=${channel}".`,
    { file: table.file, line: table.lineOf(columns.headerRecord ?? columns.rows[0]!) },
  );
}

function askForChannels(table: Table, columns: Columns, unnamed: readonly number[]): InputError {
  const place = { file: table.file, line: table.lineOf(columns.headerRecord ?? columns.rows[0]!) };
  if (unnamed.length === 0) {
    const texts = columns.header.filter((h) => h !== '').map((h) => `"${h}"`);
    return new InputError(
      `no column holds numbers that this reader has a use for${texts.length > 0 ? ` (columns ${texts.slice(0, 8).join(', ')})` : ''}`,
      'Export the readings with their values, or name the column: --channel COLUMN=CHANNEL.',
      place,
    );
  }
  const names = unnamed.map((i) => `"${columns.header[i] || i + 1}"`);
  return new InputError(
    `columns ${names.join(', ')} hold numbers, and nothing says what they are`,
    `Name them: --channel ${names[0]}=CHANNEL.`,
    place,
  );
}

/** Distinct cells of a column; undefined once there are more than a dozen, as in a column of free text. */
function distinctCells(table: Table, columns: Columns, column: number): Set<string> | undefined {
  const distinct = new Set<string>();
  for (const r of columns.rows) {
    distinct.add(table.records[r]![column]?.trim().toLowerCase() ?? '');
    if (distinct.size > 12) return undefined;
  }
  distinct.delete('');
  return distinct;
}

function findEstimated(table: Table, columns: Columns, free: readonly number[]): Values<string>['estimated'] {
  for (const column of free) {
    const words = headerWords(columns.header[column]!);
    const byHeader = MARK_HEADER.test(words);
    const kind = columns.kinds[column];
    if (kind !== 'text' && !(byHeader && kind === 'number')) continue;
    const cells = distinctCells(table, columns, column);
    if (cells === undefined || cells.size === 0) continue;
    const yes = /estimat/.test(words) ? ['y', 'yes', 'true', '1', ...ESTIMATED] : ESTIMATED;
    const no = /estimat/.test(words) ? ['n', 'no', 'false', '0', ...ACTUAL] : ACTUAL;
    if ([...cells].every((cell) => yes.includes(cell) || no.includes(cell))) {
      return { column, marks: new Set(yes) };
    }
  }
  return undefined;
}

function findChannelColumn<C extends string>(
  table: Table,
  columns: Columns,
  free: readonly number[],
  vocabulary: Vocabulary<C>,
  estimated: Values<string>['estimated'],
): Values<C>['channelColumn'] {
  for (const column of free) {
    if (columns.kinds[column] !== 'text' || column === estimated?.column) continue;
    const cells = distinctCells(table, columns, column);
    if (cells === undefined || cells.size === 0) continue;
    const channels = new Map<string, C>();
    for (const cell of cells) {
      const channel = channelNamed(cell, vocabulary.channels) ?? vocabulary.match(cell)?.channel;
      if (channel !== undefined && unitNamed(cell) === undefined) channels.set(cell, channel);
    }
    if (channels.size === cells.size && new Set(channels.values()).size === cells.size)
      return { column, channels };
  }
  return undefined;
}

function findUnitColumn(
  table: Table,
  columns: Columns,
  free: readonly number[],
): { column: number; unit: Unit } | undefined {
  for (const column of free) {
    if (columns.kinds[column] !== 'text') continue;
    const cells = distinctCells(table, columns, column);
    if (cells?.size !== 1) continue;
    const [cell] = cells;
    const unit = cell!.length <= 10 ? unitIn(cell!) : undefined;
    if (unit !== undefined) return { column, unit };
  }
  return undefined;
}

function unitOf<C extends string>(
  header: string,
  shown: string,
  channel: C,
  unitOfColumn: Unit | undefined,
  options: FileOptions,
  vocabulary: Vocabulary<C>,
  assumptions: string[],
): { unit: Unit; unitAssumed: boolean } {
  const known = (unit: Unit): { unit: Unit; unitAssumed: boolean } => ({ unit, unitAssumed: false });
  const fits = (u: Unit | undefined): u is Unit =>
    u !== undefined && vocabulary.quantities(channel).includes(u.quantity);
  const stated = unitIn(header);
  if (fits(stated)) return known(stated);
  if (fits(unitOfColumn)) return known(unitOfColumn);
  if (options.unit !== undefined) {
    const given = unitNamed(options.unit);
    if (given === undefined) {
      throw new InputError(
        `"${options.unit}" is not a unit`,
        'Give kWh, Wh, MWh, kW, W, degC, degF, p/kWh, GBP/kWh, GBP/MWh, m3, ft3 or 100ft3.',
      );
    }
    if (fits(given)) return known(given);
  }
  const assumed = unitNamed(vocabulary.assumedUnit(channel))!;
  const what = shown === '' ? 'the values are' : `"${shown}" is`;
  assumptions.push(`${what} in ${assumed.name}, as no unit is stated (--unit says otherwise)`);
  return { unit: assumed, unitAssumed: true };
}

function registerOf(words: string, options: FileOptions): boolean | 'ask' {
  if (options.register !== undefined) return options.register;
  if (REGISTER.test(words)) return true;
  return READING.test(words) ? 'ask' : false;
}
