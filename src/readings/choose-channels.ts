import { InputError } from '../errors.js';
import type { Columns } from './find-header.js';
import type { FileOptions } from './import-options.js';
import { listText } from './list-text.js';
import {
  channelNamed,
  channelOfTitle,
  headerWords,
  isNoReading,
  type MatchHeader,
} from './match-channels.js';
import { lineText } from './place-text.js';
import type { Table } from './read-table.js';
import { findColumn } from './stamp-columns.js';
import { unitIn } from './units.js';
import type { Vocabulary } from './vocabulary.js';

/**
 * The columns that the user names.
 *
 * @param table the table, for messages
 * @param header headers of the table
 * @param options what the user says
 * @param vocabulary channels that there are
 * @returns column (from 0) to channel
 * @throws InputError for a channel that there is not
 * @example columnsNamedByOptions(table, ['start', 'A'], { channels: { A: 'importKwh' } }, electricityVocabulary).get(1) // 'importKwh'
 */
export function columnsNamedByOptions<C extends string>(
  table: Table,
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
        { file: table.file },
      );
    }
    const at = findColumn(header, name);
    if (at !== undefined) result.set(at, channel as string as C | 'ignore');
  }
  return result;
}

/**
 * Chooses the channel of each column of numbers: as the user names it, then by strong words, then by weak ones, at last the one
 * column that nothing names.
 *
 * @param table the table
 * @param columns what its columns look like
 * @param numeric columns of numbers
 * @param named columns that the user names
 * @param options what the user says
 * @param vocabulary channels to look for
 * @param assumptions where to say what was assumed
 * @returns column (from 0) to channel
 * @throws InputError where two columns could be one channel, or several columns are named by nothing
 * @example chooseChannels(table, columns, [1], new Map(), {}, electricityVocabulary, []).get(1) // 'importKwh'
 */
export function chooseChannels<C extends string>(
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
  let rest = numeric.filter((i) => !named.has(i));
  const matches = new Map(
    rest.map((i) => {
      const own = channelNamed(header[i]!, vocabulary.channels);
      return [i, own ? { channel: own, strength: 'strong' as const } : vocabulary.match(header[i]!)];
    }),
  );
  const told = columnOfDefault(header, rest, matches, options, vocabulary);
  if (told !== undefined && !named.has(told)) {
    const channel = checkedChannel(table, options.defaultChannel!, vocabulary);
    const match = matches.get(told);
    if (match?.strength === 'strong' && match.channel !== channel)
      assumptions.push(`"${header[told]}" is ${channel}, as told, though its name says ${match.channel}`);
    claim(told, channel);
    matches.delete(told);
    rest = rest.filter((i) => i !== told);
  }
  const byOption = new Set(claimed.keys());
  for (const strength of ['strong', 'weak'] as const) {
    const before = new Set(claimed.keys());
    for (const i of rest) {
      const match = matches.get(i);
      if (match?.strength !== strength || byOption.has(match.channel) || before.has(match.channel)) continue;
      claim(i, match.channel);
    }
  }
  for (const [column, channel] of chosen) {
    if (matches.get(column)?.strength === 'weak' && !named.has(column))
      sayWeak(table, columns, column, channel, chosen, vocabulary, assumptions);
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

/**
 * Channel of the one column that does not say: the user's word, a unit that only one channel has, a title above the table, the name
 * of the file, else the usual channel. All but the first two are said as assumed.
 *
 * @param table the table
 * @param columns where its header stands
 * @param header header of the column
 * @param options what the user says
 * @param vocabulary channels to look for
 * @param assumptions where to say what was assumed
 * @returns the channel
 * @throws InputError naming the file, where the user's word is no channel
 * @example loneChannel(table, columns, 'kWh', {}, electricityVocabulary, []) // 'importKwh'
 */
export function loneChannel<C extends string>(
  table: Table,
  columns: Columns,
  header: string,
  options: FileOptions,
  vocabulary: Vocabulary<C>,
  assumptions: string[],
): C {
  if (options.defaultChannel !== undefined) return checkedChannel(table, options.defaultChannel, vocabulary);
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
  const title = titles(table, columns, vocabulary)[0];
  if (title !== undefined) return guess(title.channel, `from ${title.where}`);
  return guess(vocabulary.fallback, 'as nothing names it');
}

/** What titles above the table, then the name of the file, say of a channel. */
function titles<C extends string>(
  table: Table,
  columns: Columns,
  vocabulary: Vocabulary<C>,
): { channel: C; where: string }[] {
  const texts = columns.above.map((r) => ({
    text: table.records[r]!.join(' '),
    where: lineText(table.lineOf(r)),
  }));
  const name = table.file.split(/[\\/]/).at(-1)!;
  texts.push({ text: name.replace(/\.[^.]*$/, ''), where: 'the name of the file' });
  return texts.flatMap(({ text, where }) => {
    const channel = channelOfTitle(text, vocabulary.match);
    return channel === undefined ? [] : [{ channel, where }];
  });
}

/**
 * The one column that the user's word for the file is about: of those that could hold the channel, the only one, or the only one that
 * is not surely another.
 */
function columnOfDefault<C extends string>(
  header: readonly string[],
  rest: readonly number[],
  matches: ReadonlyMap<number, ReturnType<MatchHeader<C>>>,
  options: FileOptions,
  vocabulary: Vocabulary<C>,
): number | undefined {
  const channel = options.defaultChannel as C | undefined;
  if (channel === undefined || !vocabulary.channels.includes(channel)) return undefined;
  const quantities = vocabulary.quantities(channel);
  const able = rest.filter((i) => {
    if (isNoReading(headerWords(header[i]!))) return false;
    const stated = unitIn(header[i]!)?.quantity;
    if (stated !== undefined) return quantities.includes(stated);
    const match = matches.get(i);
    return (
      match === undefined || vocabulary.quantities(match.channel).some((one) => quantities.includes(one))
    );
  });
  const open = able.filter((i) => matches.get(i)?.strength !== 'strong');
  if (able.length === 1) return able[0];
  return open.length === 1 ? open[0] : undefined;
}

function checkedChannel<C extends string>(table: Table, given: string, vocabulary: Vocabulary<C>): C {
  if (vocabulary.channels.includes(given as C)) return given as C;
  throw new InputError(`"${given}" is not a channel`, `Give one of ${vocabulary.channels.join(', ')}.`, {
    file: table.file,
  });
}

/**
 * Says what a word was taken for that could mean several channels; asks where a title or the name of the file says another. A download
 * is often called an export, whatever is in it.
 */
function sayWeak<C extends string>(
  table: Table,
  columns: Columns,
  column: number,
  channel: C,
  chosen: ReadonlyMap<number, C>,
  vocabulary: Vocabulary<C>,
  assumptions: string[],
): void {
  const name = columns.header[column]!;
  for (const [beside, other] of chosen) {
    const doubt = vocabulary.doubtBeside?.(channel, other);
    if (doubt === undefined) continue;
    assumptions.push(
      `"${name}" is ${channel}, ${doubt.taken}, though beside "${columns.header[beside]}" it could be ${doubt.orElse} (--channel "${name}=ignore" leaves it out)`,
    );
    return;
  }
  const quantities = vocabulary.quantities(channel);
  const alike = vocabulary.channels.filter((one) =>
    vocabulary.quantities(one).some((quantity) => quantities.includes(quantity)),
  );
  if (alike.length === 1) return;
  if (chosen.size > 1) {
    assumptions.push(`"${name}" is ${channel}, as its name suggests (--channel "${name}=…" says otherwise)`);
    return;
  }
  const other = titles(table, columns, vocabulary).find(
    (title) =>
      title.channel !== channel && alike.includes(title.channel) && title.channel !== vocabulary.download,
  );
  if (other === undefined) {
    assumptions.push(`"${name}" is ${channel}, as its name suggests (--default-channel says otherwise)`);
    return;
  }
  throw new InputError(
    `"${name}" could be ${channel}, as its name suggests, or ${other.channel}, as ${other.where} says`,
    `Say which: --default-channel ${channel} or --default-channel ${other.channel}.`,
    { file: table.file, line: table.lineOf(columns.headerRecord ?? columns.rows[0]!) },
  );
}

function askWhich(table: Table, columns: Columns, a: number, b: number, channel: string): InputError {
  const name = (i: number): string => `"${columns.header[i] || i + 1}"`;
  return new InputError(
    `columns ${name(a)} and ${name(b)} both look like ${channel}`,
    `Say which one is: --channel "${columns.header[a] || a + 1}=${channel}".`,
    { file: table.file, line: table.lineOf(columns.headerRecord ?? columns.rows[0]!) },
  );
}

/**
 * The question about columns that nothing names.
 *
 * @param table the table
 * @param columns what its columns look like
 * @param unnamed the columns
 * @returns the error to throw
 * @example askForChannels(table, columns, [1, 2]).whatToDo // 'Name them: --channel "A"=CHANNEL.'
 */
export function askForChannels(table: Table, columns: Columns, unnamed: readonly number[]): InputError {
  const place = { file: table.file, line: table.lineOf(columns.headerRecord ?? columns.rows[0]!) };
  if (unnamed.length === 0) {
    const texts = columns.header.filter((h) => h !== '').map((h) => `"${h}"`);
    return new InputError(
      `no column holds numbers that this reader has a use for${texts.length > 0 ? ` (columns ${listText(texts, 8)})` : ''}`,
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
