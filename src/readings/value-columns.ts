import { InputError } from '../errors.js';
import { askForChannels, chooseChannels, columnsNamedByOptions, loneChannel } from './choose-channels.js';
import type { Columns } from './find-header.js';
import type { FileOptions } from './import-options.js';
import { headerWords, isNoReading } from './match-channels.js';
import type { Table } from './read-table.js';
import type { StampColumns } from './stamp-columns.js';
import {
  type ChannelColumn,
  findChannelColumn,
  findEstimated,
  findUnitColumn,
  type MarkColumn,
} from './text-columns.js';
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
  channelColumn?: ChannelColumn<C>;
  /** Column whose cells mark estimated reads. */
  estimated?: MarkColumn;
  unused: number[];
  assumptions: string[];
}

const REGISTER = /\b(register|cumulative|meter reading|counter|index|lifetime|running total|total to date)\b/;
const READING = /\b(reading|readings|read)\b/;

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
