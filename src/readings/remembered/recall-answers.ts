import { InputError } from '../../errors.js';
import { draftTable } from '../draft.js';
import { type FileOptions, type ImportOptions, type InputFile, optionsOf } from '../import-options.js';
import { openTables } from '../open-tables.js';
import { settleDecimalMark } from '../parse-number.js';
import { lineText } from '../place-text.js';
import { findColumn } from '../stamp-columns.js';
import { unpackFiles } from '../unpack-files.js';
import type { Vocabulary } from '../vocabulary.js';
import { vocabularyOf } from './by-kind.js';
import { nameOfExport } from './name-of-export.js';
import {
  answersIn,
  type FileKind,
  isNothing,
  isSaidAlike,
  type RememberedAnswers,
} from './remembered-answers.js';
import { type FileShape, shapeOfTables } from './shape-of-tables.js';

/** What is known of one file before it is read. */
export interface RecalledFile {
  /** Its name as given, or `months.zip/may.csv`. */
  file: string;
  /** What the user says of it now. */
  stated: FileOptions;
  /** What is remembered of files like it and holds for it; undefined where there is nothing. */
  from: RememberedAnswers | undefined;
  /** All that holds for it: what is stated, over what is remembered. */
  inForce: FileOptions;
  /** What is remembered of a file of the same columns, but not used as this one has another name. */
  notUsed: RememberedAnswers | undefined;
  /** Whether the user wants nothing of it remembered but what is said now. */
  forgets: boolean;
}

/** Orders of dates in words. */
const ORDERS = { dmy: 'day first', mdy: 'month first', ymd: 'year first' } as const;

/**
 * Finds what files like these were told before. A file is known by its shape: the names of its columns. What a column holds, and all that was
 * said of columns without names, is used for a file of the same name only (dates and counters aside): two meters give files of one
 * shape. The rest holds for every file of the shape, unless such files were told different things. What is stated now stands above it.
 *
 * @param files names and bytes
 * @param options what the user says now
 * @param kind what the files are of
 * @param all what files were told before
 * @returns what holds for each file; nothing is remembered of one that the user says to forget
 * @throws InputError where what is remembered does not fit: a file of that name has other columns now, or its dates or numbers say
 *   otherwise
 * @example recallAnswers([{ name: 'june.csv', bytes }], { timeZone }, 'readings', remembered)[0]?.inForce // { unit: 'Wh' }
 */
export function recallAnswers(
  files: readonly InputFile[],
  options: ImportOptions,
  kind: FileKind,
  all: readonly RememberedAnswers[],
): RecalledFile[] {
  const vocabulary = vocabularyOf(kind);
  const remembered = all.filter((one) => one.kind === kind);
  return unpackFiles(files).files.map((input): RecalledFile => {
    const said = answersIn(optionsOf(options, input));
    const { forget, ...stated } = said;
    const nothing = {
      file: input.name,
      stated,
      from: undefined,
      inForce: stated,
      notUsed: undefined,
      forgets: forget === true,
    };
    if (forget === true || remembered.length === 0) return nothing;
    const alike = remembered.flatMap((one) => {
      const shape = shapeWith(input, overlaid(one.answers, stated, []), vocabulary);
      return shape?.columns.toLowerCase() === one.columns.toLowerCase() ? [{ one, shape }] : [];
    });
    const name = nameOfExport(input.name);
    const exact = alike.find(({ one }) => one.name === name);
    const first = alike[0];
    if (exact === undefined && first !== undefined) {
      const isGeneral =
        first.shape.isNamed &&
        first.one.answers.defaultChannel === undefined &&
        first.one.answers.channels === undefined &&
        alike.every(({ one }) => isSaidAlike(one.answers, first.one.answers));
      if (!isGeneral) {
        const notUsed = alike.find(({ one }) => !isNothing(one.answers))?.one;
        return { ...nothing, notUsed };
      }
    }
    const found = exact ?? first;
    if (found === undefined) {
      if (isNothing(stated)) refuseOtherColumns(input, name, remembered);
      return nothing;
    }
    if (isNothing(found.one.answers)) return nothing;
    const inForce = overlaid(found.one.answers, stated, found.shape.headers);
    refuseContradicted(input, stated, found.one, inForce, options.timeZone, vocabulary);
    return { ...nothing, from: found.one, inForce };
  });
}

/**
 * The import's options with what was recalled.
 *
 * @param options what the user says
 * @param recalled what holds for each file
 * @returns options that say it file by file
 * @example withRecalled(options, recallAnswers(files, options, 'gas', remembered))
 */
export function withRecalled(options: ImportOptions, recalled: readonly RecalledFile[]): ImportOptions {
  const used = recalled.filter(({ from }) => from !== undefined);
  if (used.length === 0) return options;
  const perFile = { ...options.perFile };
  for (const { file, inForce } of used) perFile[file] = inForce;
  return { ...options, perFile };
}

/** What is stated over what is remembered; of two names for one column, the stated one counts. */
function overlaid(
  remembered: FileOptions,
  stated: FileOptions,
  headers: readonly (readonly string[])[],
): FileOptions {
  const isStated = (column: string): boolean =>
    Object.keys(stated.channels ?? {}).some(
      (name) =>
        name === column ||
        headers.some((header) => {
          const at = findColumn(header, column);
          return at !== undefined && findColumn(header, name) === at;
        }),
    );
  const kept = Object.entries(remembered.channels ?? {}).filter(
    ([column, channel]) => !isStated(column) && (channel === 'ignore' || stated.defaultChannel === undefined),
  );
  const channels = { ...Object.fromEntries(kept), ...stated.channels };
  const passOver = [...new Set([...(remembered.passOver ?? []), ...(stated.passOver ?? [])])];
  const { channels: _, passOver: __, ...rest } = remembered;
  return {
    ...rest,
    ...stated,
    ...(Object.keys(channels).length === 0 ? {} : { channels }),
    ...(passOver.length === 0 ? {} : { passOver }),
  };
}

/** The shape of a file read with some answers; undefined where it can't be read so. */
function shapeWith<C extends string>(
  input: InputFile,
  answers: FileOptions,
  vocabulary: Vocabulary<C>,
): FileShape | undefined {
  try {
    return shapeOfTables(openTables(input, answers, vocabulary), answers, vocabulary);
  } catch (error) {
    if (error instanceof InputError) return undefined;
    throw error;
  }
}

/**
 * How to say that nothing that is remembered holds for a file.
 *
 * @param file its name as given
 * @returns the option
 * @example forgetting('june.csv') // '--for june.csv:forget=yes'
 */
export function forgetting(file: string): string {
  const argument = `${file}:forget=yes`;
  return `--for ${/\s/.test(argument) ? `"${argument}"` : argument}`;
}

/** A maker who changes the columns may have changed what the answers were about. */
function refuseOtherColumns(
  { name: file }: InputFile,
  name: string,
  remembered: readonly RememberedAnswers[],
): void {
  if (name === '') return;
  const told = remembered.find((one) => one.name === name && !isNothing(one.answers));
  if (told === undefined) return;
  throw new InputError(
    `"${told.toldFor}", a file of this name, was told how to read it, but had other columns: "${told.columns}"`,
    `Say it anew for the columns that there are now, or that nothing is to be said: ${forgetting(file)}.`,
    { file },
  );
}

/** Where the file itself settles what it was told, and otherwise, the answer is out of date. */
function refuseContradicted<C extends string>(
  input: InputFile,
  stated: FileOptions,
  { answers, toldFor }: RememberedAnswers,
  inForce: FileOptions,
  timeZone: string,
  vocabulary: Vocabulary<C>,
): void {
  const { dateOrder, decimalMark } = answers;
  const isOrderOpen = dateOrder !== undefined && stated.dateOrder === undefined;
  const isMarkOpen = decimalMark !== undefined && stated.decimalMark === undefined;
  if (!isOrderOpen && !isMarkOpen) return;
  const refuse = (says: string, option: string, line?: number | string): never => {
    throw new InputError(
      `${says}, and files of these columns were told otherwise ("${toldFor}": ${option})`,
      `What is remembered no longer fits: say ${option.split(' ')[0]} anew, or leave it to the file: ${forgetting(input.name)}.`,
      { file: input.name, ...(line === undefined ? {} : { line }) },
    );
  };
  openTables(input, inForce, vocabulary).forEach((opened, index) => {
    const { dates, columns, table, slots, values } = draftTable(opened, index, timeZone, vocabulary);
    if (isOrderOpen && dates.needed && dates.order !== undefined && dates.order !== dateOrder) {
      refuse(
        `dates are ${ORDERS[dates.order]}, as ${lineText(dates.line!)} shows`,
        `--date-order ${dateOrder}`,
        dates.line!,
      );
    }
    const cells = slots?.columns ?? values.values.map(({ column }) => column);
    const mark = settleDecimalMark(
      columns.rows.map((r) => table.records[r]!),
      cells,
    );
    if (isMarkOpen && (mark === '.' || mark === ',') && mark !== decimalMark) {
      const name = decimalMark === ',' ? 'comma' : 'point';
      refuse(`numbers have a decimal ${mark === ',' ? 'comma' : 'point'}`, `--decimal ${name}`);
    }
  });
}
