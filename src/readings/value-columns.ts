import { InputError } from '../errors.js';
import { askForChannels, chooseChannels, columnsNamedByOptions, loneChannel } from './choose-channels.js';
import type { Columns } from './find-header.js';
import type { FileOptions } from './import-options.js';
import { headerWords, isNoReading } from './match-channels.js';
import { isBlankCell } from './parse-number.js';
import type { Table } from './read-table.js';
import {
  askAboutBattery,
  askAboutGrid,
  askAboutNet,
  type Directions,
  signedOptions,
} from './signed-columns.js';
import type { StampColumns } from './stamp-columns.js';
import { type ChannelColumn, findChannelColumn, findEstimated, type MarkColumn } from './text-columns.js';
import { findUnitColumn, leaveOut } from './unit-column.js';
import { noUnit, type Unit, unitIn, unitNamed } from './units.js';
import type { Vocabulary } from './vocabulary.js';

/** A column of values, understood; one for each channel where a column names the channel of a line. */
export interface ValueColumn<C extends string> {
  column: number;
  channel: C;
  unit: Unit;
  /** Whether the unit was stated nowhere. */
  unitAssumed: boolean;
  /** Whether the user's word for the unit was what counted. */
  unitTold?: boolean;
  /** Takes what is above nought (1) or below it (−1) of a column of both directions; absent for all of it. */
  sign?: 1 | -1;
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
  /** Whether a channel was taken without being stated. */
  channelAssumed: boolean;
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
 * @param said what the user says
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
  said: FileOptions,
  vocabulary: Vocabulary<C>,
): Values<C> {
  const { header, kinds } = columns;
  const signed = signedOptions(header, said, vocabulary);
  const { options } = signed;
  const assumptions: string[] = [];
  const taken = new Set(
    [stamps.date, stamps.time, stamps.period, stamps.endDate, stamps.endTime, ...(slots ?? [])].filter(
      (i): i is number => i !== undefined,
    ),
  );
  const free = kinds.map((_, i) => i).filter((i) => !taken.has(i));
  const remarks = new Set(slots === undefined ? free.filter((i) => isRemarks(table, columns, i)) : []);
  const named = columnsNamedByOptions(table, header, options, vocabulary);
  const estimated = findEstimated(
    table,
    columns,
    free.filter((i) => !named.has(i)),
  );
  const channelColumn = findChannelColumn(
    table,
    columns,
    free.filter((i) => !named.has(i) && !remarks.has(i)),
    vocabulary,
    estimated,
    slots === undefined &&
      free.some((i) => kinds[i] === 'number' && vocabulary.match(header[i]!)?.strength === 'strong'),
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
    if (options.defaultChannel === undefined) {
      const open = numeric.filter((i) => !named.has(i));
      askAboutBattery(table, columns, open, numeric.length === 1, vocabulary);
      if (numeric.length > 1) askAboutGrid(table, columns, open, vocabulary);
    }
    chosen = chooseChannels(table, columns, numeric, named, options, vocabulary, assumptions);
  }
  const channelAssumed = assumptions.length > 0;
  const directions = directionsOf(chosen);
  if (
    vocabulary.signed !== undefined &&
    channelColumn === undefined &&
    options.defaultChannel === undefined
  ) {
    for (const [column, channel] of chosen) {
      if (channel !== vocabulary.fallback || named.has(column)) continue;
      const isNamed = slots === undefined && vocabulary.match(header[column]!)?.strength === 'strong';
      if (!isNamed) askAboutNet(table, columns, column, slots ?? [column]);
    }
  }
  const unitCells = findUnitColumn(
    table,
    columns,
    free.filter((i) => !chosen.has(i) && i !== channelColumn?.column && !named.has(i)),
    channelColumn,
  );
  const wordOf = new Map(
    channelColumn === undefined ? [] : [...channelColumn.channels].map(([w, c]) => [c, w]),
  );
  type Pair = [column: number, channel: C, sign: 1 | -1 | undefined];
  const pairs: Pair[] =
    channelColumn === undefined
      ? [...chosen].flatMap(([column, channel]): Pair[] => {
          const both = directions.get(column);
          return both === undefined
            ? [[column, channel, undefined]]
            : [
                [column, both[0], 1],
                [column, both[1], -1],
              ];
        })
      : [...chosen.keys()].flatMap((column) =>
          [...wordOf.keys()].map((channel): Pair => [column, channel, undefined]),
        );
  const values = pairs.map(([column, channel, sign]): ValueColumn<C> => {
    const text = slots === undefined ? header[column]! : slotHeaderText(header, slots);
    const fits = (u: Unit | undefined): boolean =>
      u !== undefined && vocabulary.quantities(channel).includes(u.quantity);
    const ofLines = channelColumn === undefined ? undefined : unitCells?.units.get(channel);
    if (ofLines !== undefined && !fits(ofLines.unit)) {
      throw new InputError(
        `${channel} cannot be in ${ofLines.unit.name}`,
        `Correct the unit, ${leaveOut(columns, unitCells!.column)}`,
        { file: table.file, line: table.lineOf(ofLines.record) },
      );
    }
    const inFile = [
      unitIn(text),
      (ofLines ?? unitCells?.units.get(undefined))?.unit,
      unitIn(wordOf.get(channel) ?? ''),
    ].find(fits);
    const told = unitOption(options);
    const stated = inFile ?? (fits(told) ? told : undefined);
    return {
      column,
      channel,
      unit: stated ?? assumedUnit(slots === undefined ? text : '', channel),
      unitAssumed: stated === undefined,
      ...(inFile === undefined && stated !== undefined ? { unitTold: true } : {}),
      ...(sign === undefined ? {} : { sign }),
      register: sign === undefined ? registerOf(headerWords(text), options) : false,
    };
  });
  const used = new Set([...chosen.keys(), channelColumn?.column, estimated?.column, unitCells?.column]);
  return {
    values,
    ...(channelColumn ? { channelColumn } : {}),
    ...(estimated ? { estimated } : {}),
    unused: free.filter((i) => !used.has(i) && (kinds[i] !== 'blank' || remarks.has(i))),
    channelAssumed,
    assumptions,
  };

  /** Columns that hold both directions, each of which must be free. */
  function directionsOf(all: ReadonlyMap<number, C>): Map<number, Directions<C>> {
    const result = new Map(signed.columns);
    if (signed.lone !== undefined) {
      const open = [...all].filter(([column, channel]) => !named.has(column) && channel === signed.lone![0]);
      if (
        open.length === 1 &&
        (all.size === 1 || vocabulary.match(header[open[0]![0]]!)?.strength !== 'strong')
      )
        result.set(open[0]![0], signed.lone);
    }
    for (const [column, [above, below]] of result) {
      const name = header[column] || `column ${column + 1}`;
      const other = [...all].find(([at, channel]) => at !== column && channel === below);
      if (other !== undefined) {
        throw new InputError(
          `"${name}" holds ${below} too, and so does "${header[other[0]] || other[0] + 1}"`,
          `Leave one of them out: --channel "${name}=ignore".`,
          { file: table.file, line: table.lineOf(columns.headerRecord ?? columns.rows[0]!) },
        );
      }
      assumptions.push(
        `"${name}" is ${above} above nought and ${below} below; what flowed both ways within one interval cancels out`,
      );
    }
    return result;
  }

  function assumedUnit(shown: string, channel: C): Unit {
    const assumed = unitNamed(vocabulary.assumedUnit(channel))!;
    const of = channelColumn === undefined ? '' : ` of ${channel}`;
    const what = shown === '' ? `the values${of} are` : `"${shown}"${of} is`;
    assumptions.push(`${what} in ${assumed.name}, as no unit is stated (--unit says otherwise)`);
    return assumed;
  }
}

/** Whether a column beyond the header holds something on some lines only. */
function isRemarks(table: Table, { headerWidth, rows }: Columns, column: number): boolean {
  if (headerWidth === undefined || column < headerWidth) return false;
  const isBlank = (r: number): boolean => isBlankCell(table.records[r]![column]);
  return rows.some(isBlank) && !rows.every(isBlank);
}

const slotHeaderText = (header: readonly string[], slots: readonly number[]): string =>
  header[slots[0]!] ?? '';

function unitOption(options: FileOptions): Unit | undefined {
  if (options.unit === undefined) return undefined;
  const given = unitNamed(options.unit);
  if (given === undefined) throw noUnit(options.unit);
  return given;
}

function registerOf(words: string, options: FileOptions): boolean | 'ask' {
  if (options.register !== undefined) return options.register !== false;
  if (REGISTER.test(words)) return true;
  return READING.test(words) ? 'ask' : false;
}
