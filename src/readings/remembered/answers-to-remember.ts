import { draftTable } from '../draft.js';
import type { FileOptions, ImportOptions, InputFile } from '../import-options.js';
import { openTables } from '../open-tables.js';
import { findColumn } from '../stamp-columns.js';
import { unpackFiles } from '../unpack-files.js';
import { vocabularyOf } from './by-kind.js';
import { bareName, nameOfExport } from './name-of-export.js';
import type { RecalledFile } from './recall-answers.js';
import { type FileKind, isNothing, type RememberedAnswers } from './remembered-answers.js';
import { shapeOfTables } from './shape-of-tables.js';

/**
 * What the files of a fill were told, for the next month. Options that change nothing of a file are left out: columns that it has not, an
 * order of dates that name their month, a unit where one is stated.
 *
 * @param files names and bytes, which have been read
 * @param recalled what held for each
 * @param options with the zone of the home
 * @param kind what the files are of
 * @returns what to remember, file by file, whether anything was said or not
 * @example answersToRemember(files, recalled, { timeZone }, 'readings')[0]?.answers // { unit: 'Wh' }
 */
export function answersToRemember(
  files: readonly InputFile[],
  recalled: readonly RecalledFile[],
  options: Pick<ImportOptions, 'timeZone'>,
  kind: FileKind,
): RememberedAnswers[] {
  const vocabulary = vocabularyOf(kind);
  return unpackFiles(files).files.map((input, i): RememberedAnswers => {
    const { inForce } = recalled[i]!;
    const tables = openTables(input, inForce, vocabulary);
    const { columns, headers } = shapeOfTables(tables, inForce, vocabulary);
    const isFixed = tables.some(({ table }) => table.source?.isFixed === true);
    const drafts = isNothing(inForce)
      ? []
      : tables.map((opened, k) => draftTable(opened, k, options.timeZone, vocabulary));
    const has = (name: string): boolean =>
      headers.some((header) => findColumn(header, name) !== undefined) || (isFixed && headers.length > 0);
    const channels = Object.entries(inForce.channels ?? {}).filter(([name]) => has(name));
    const { channels: _, unit, dateOrder, defaultChannel, ...rest } = inForce;
    const answers: FileOptions = {
      ...(isFixed ? {} : rest),
      ...(defaultChannel === undefined ? {} : { defaultChannel }),
      ...(channels.length === 0 ? {} : { channels: Object.fromEntries(channels) }),
      ...(unit !== undefined &&
      drafts.some(({ values }) => values.values.some(({ unitTold }) => unitTold === true))
        ? { unit }
        : {}),
      ...(dateOrder !== undefined && drafts.some(({ dates }) => dates.needed) ? { dateOrder } : {}),
    };
    return { kind, columns, name: nameOfExport(input.name), toldFor: bareName(input.name), answers };
  });
}
