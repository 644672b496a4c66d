import type { Columns } from './find-header.js';
import { channelNamed, headerWords } from './match-channels.js';
import type { Table } from './read-table.js';
import { unitNamed } from './units.js';
import type { Vocabulary } from './vocabulary.js';

/** Column whose cells mark estimated reads, and the words that do. */
export interface MarkColumn {
  column: number;
  marks: Set<string>;
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
];

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
 * Finds the column that marks estimated reads: its cells are words for estimated and actual alone.
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
    if ([...cells].every((cell) => yes.includes(cell) || no.includes(cell))) {
      return { column, marks: new Set(yes) };
    }
  }
  return undefined;
}

/**
 * Finds the column whose cells name the channel of their line: each of its few words is a channel.
 *
 * @param table the table
 * @param columns what its columns look like
 * @param free columns to look among
 * @param vocabulary channels to look for
 * @param estimated the column of marks, which is none
 * @returns the column and the channel of each word, undefined where there is none
 * @example findChannelColumn(table, columns, [1], electricityVocabulary, undefined)?.channels.get('import') // 'importKwh'
 */
export function findChannelColumn<C extends string>(
  table: Table,
  columns: Columns,
  free: readonly number[],
  vocabulary: Vocabulary<C>,
  estimated: MarkColumn | undefined,
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
    if (channels.size === cells.size && new Set(channels.values()).size === cells.size)
      return { column, channels };
  }
  return undefined;
}
