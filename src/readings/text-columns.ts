import { InputError } from '../errors.js';
import type { Columns } from './find-header.js';
import { channelNamed, headerWords } from './match-channels.js';
import { isBlankCell } from './parse-number.js';
import type { Table } from './read-table.js';
import { unitNamed } from './units.js';
import type { Vocabulary } from './vocabulary.js';

/** Column whose cells mark estimated reads, and the words that do. */
export interface MarkColumn {
  column: number;
  marks: Set<string>;
  /** Words that are neither those for estimated nor for actual: their lines are told. */
  odd: Set<string>;
}

/** Column whose cells name the channel of their line, and the channel of each word. */
export interface ChannelColumn<C extends string> {
  column: number;
  channels: Map<string, C>;
}

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
  'smart',
  'remote',
  'manual',
  'customer',
  'customer read',
  'meter read',
];
/** Words that mark a read whatever stands on other lines. */
const SURELY_MARKS = ['estimate', 'estimated', 'estimation', 'substituted'];

/**
 * The distinct cells of a column, trimmed, in lower case, blanks left out.
 *
 * @param table the table
 * @param columns its data rows
 * @param column the column, from 0
 * @returns the cells; undefined once there are more than a dozen, as in a column of free text
 * @example distinctCells(table, columns, 2) // new Set(['a', 'e'])
 */
export function distinctCells(table: Table, columns: Columns, column: number): Set<string> | undefined {
  const distinct = new Set<string>();
  for (const r of columns.rows) {
    distinct.add(table.records[r]![column]?.trim().toLowerCase() ?? '');
    if (distinct.size > 12) return undefined;
  }
  distinct.delete('');
  return distinct;
}

/**
 * Whether at least half of the lines that have something in a column pass a test.
 *
 * @param table the table
 * @param columns its data rows
 * @param column the column, from 0
 * @param test told a cell, trimmed, in lower case
 * @returns false where none does
 * @example isMostly(table, columns, 2, (cell) => cell === 'a')
 */
export function isMostly(
  table: Table,
  columns: Columns,
  column: number,
  test: (cell: string) => boolean,
): boolean {
  let filled = 0;
  let passed = 0;
  for (const r of columns.rows) {
    const cell = table.records[r]![column]?.trim().toLowerCase() ?? '';
    if (cell === '') continue;
    filled++;
    if (test(cell)) passed++;
  }
  return passed > 0 && passed * 2 >= filled;
}

/**
 * Finds the column that marks estimated reads: its cells are words for estimated and actual, nearly all of them, or one that is surely a
 * mark, where its header says that it holds marks, else all.
 *
 * @param table the table
 * @param columns what its columns look like
 * @param free columns to look among
 * @returns the column and the words that mean estimated, undefined where there is none
 * @example findEstimated(table, columns, [2])?.column // 2
 */
export function findEstimated(
  table: Table,
  columns: Columns,
  free: readonly number[],
): MarkColumn | undefined {
  for (const column of free) {
    const words = headerWords(columns.header[column]!);
    const byHeader = MARK_HEADER.test(words);
    const kind = columns.kinds[column];
    if (kind !== 'text' && !(byHeader && kind === 'number')) continue;
    const cells = distinctCells(table, columns, column);
    if (cells === undefined || cells.size === 0) continue;
    const yes = /estimat/.test(words) ? ['y', 'yes', 'true', '1', ...ESTIMATED] : ESTIMATED;
    const no = /estimat/.test(words) ? ['n', 'no', 'false', '0', ...ACTUAL] : ACTUAL;
    const odd = new Set([...cells].filter((cell) => !yes.includes(cell) && !no.includes(cell)));
    const isSure = byHeader && SURELY_MARKS.some((word) => cells.has(word));
    if (
      odd.size === 0 ||
      isSure ||
      (byHeader && isMostly(table, columns, column, (cell) => !odd.has(cell)))
    ) {
      for (const cell of odd) if (isBlankCell(cell)) odd.delete(cell);
      return { column, marks: new Set(yes), odd };
    }
  }
  return undefined;
}

/**
 * Finds the column whose cells name the channel of their line: each of its few words is a channel. Where most lines name one and a few
 * do not, as where a download broke off, the others are asked about: without the column, all channels would become one.
 *
 * @param table the table
 * @param columns what its columns look like
 * @param free columns to look among
 * @param vocabulary channels to look for
 * @param estimated the column of marks, which is none
 * @param namedByHeader whether a column of numbers is named by its header: then words in another are remarks
 * @returns the column and the channel of each word, undefined where there is none
 * @throws InputError naming the line of a word among channels that is none
 * @example findChannelColumn(table, columns, [1], electricityVocabulary, undefined)?.channels.get('import') // 'importKwh'
 */
export function findChannelColumn<C extends string>(
  table: Table,
  columns: Columns,
  free: readonly number[],
  vocabulary: Vocabulary<C>,
  estimated: MarkColumn | undefined,
  namedByHeader: boolean,
): ChannelColumn<C> | undefined {
  for (const column of free) {
    if (columns.kinds[column] !== 'text' || column === estimated?.column) continue;
    const cells = distinctCells(table, columns, column);
    if (cells === undefined || cells.size === 0) continue;
    const channels = new Map<string, C>();
    for (const cell of cells) {
      const channel = channelNamed(cell, vocabulary.channels) ?? vocabulary.match(cell)?.channel;
      if (channel !== undefined && unitNamed(cell) === undefined) channels.set(cell, channel);
    }
    if (channels.size === 0 || new Set(channels.values()).size < channels.size) continue;
    if (channels.size === cells.size) return { column, channels };
    if (namedByHeader || !isMostly(table, columns, column, (cell) => channels.has(cell))) continue;
    throw noChannel(table, columns, column, channels);
  }
  return undefined;
}

function noChannel<C extends string>(
  table: Table,
  columns: Columns,
  column: number,
  channels: ReadonlyMap<string, C>,
): InputError {
  const cellOf = (r: number): string => table.records[r]![column]?.trim() ?? '';
  const record = columns.rows.find((r) => cellOf(r) !== '' && !channels.has(cellOf(r).toLowerCase()))!;
  const words = [...channels.keys()].map((word) => `"${word}"`).join(', ');
  return new InputError(
    `"${cellOf(record).slice(0, 60)}" names no channel, as ${words} in other lines do`,
    `Correct the line, or delete it; if the column names no channels, leave it out: --channel "${columns.header[column] || column + 1}=ignore".`,
    { file: table.file, line: table.lineOf(record, column) },
  );
}
