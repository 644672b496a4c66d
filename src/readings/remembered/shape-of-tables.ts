import { createHash } from 'node:crypto';
import { plainText } from '../../plain-text.js';
import { type Columns, findHeader } from '../find-header.js';
import type { FileOptions } from '../import-options.js';
import type { OpenedTable } from '../open-tables.js';
import { withPlainCells } from '../plain-cells.js';
import type { Vocabulary } from '../vocabulary.js';

/** The shape of a file: what it has in common with next month's download. */
export interface FileShape {
  /** Names of its columns, as a text for people. */
  columns: string;
  /** Whether columns have names: without any, files of quite different things look alike. */
  isNamed: boolean;
  /** Header of each table. */
  headers: (readonly string[])[];
}

/** A cell holds more, a person reads no more. */
const LONGEST = 300;

/**
 * The shape of a file.
 *
 * @param tables its tables
 * @param options where its header is, and what to pass over, as the user says it
 * @param vocabulary channels that a header may name
 * @returns the shape
 * @throws InputError where a table holds no readings
 * @example shapeOfTables(tables, {}, electricityVocabulary).columns // 'Start | Import kWh'
 */
export function shapeOfTables<C extends string>(
  tables: readonly OpenedTable[],
  options: FileOptions,
  vocabulary: Vocabulary<C>,
): FileShape {
  const shapes = tables.map(({ table }): FileShape => {
    if (table.source?.isFixed === true) {
      const what = table.source.text.split(',')[0]!;
      const names = [...(table.source.names ?? [])].sort();
      return { columns: shortText([what, ...names]), isNamed: true, headers: [names] };
    }
    const columns = findHeader(
      withPlainCells(table, vocabulary).table,
      vocabulary,
      options.headerLine,
      options.passOver,
    );
    return { ...shapeOfColumns(columns), headers: [columns.header] };
  });
  return {
    columns: [...new Set(shapes.map(({ columns }) => columns))].join(' + '),
    isNamed: shapes.every(({ isNamed }) => isNamed),
    headers: shapes.flatMap(({ headers }) => headers),
  };
}

function shapeOfColumns({ header, kinds }: Columns): Omit<FileShape, 'headers'> {
  const named = header.slice(0, header.findLastIndex((name) => name.trim() !== '') + 1);
  return named.length === 0
    ? { columns: `no names: ${kinds.join(', ')}`, isNamed: false }
    : { columns: shortText(named), isNamed: true };
}

/** The names, or the first of them and what stands for the rest. */
function shortText(names: readonly string[]): string {
  const text = names
    .map((name) => plainText(name).trim())
    .join(' | ')
    .trim();
  if (text.length <= LONGEST) return text;
  const rest = createHash('sha256').update(text).digest('hex').slice(0, 8);
  return `${text.slice(0, LONGEST - 40)}… (${names.length} columns, ${rest})`;
}
