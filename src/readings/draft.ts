import { checkFileEnd } from './check-file-end.js';
import { refuseNamesTooFew, refuseNamesTooMany, refuseShiftedNames } from './check-widths.js';
import { type Columns, findHeader } from './find-header.js';
import type { FileOptions, InputFile } from './import-options.js';
import type { OpenedTable } from './open-tables.js';
import { withPlainCells } from './plain-cells.js';
import type { Table } from './read-table.js';
import { refuseSplitNumbers } from './refuse-split-numbers.js';
import { refuseWideLines } from './refuse-wide-lines.js';
import { type DateEvidence, findDateEvidence } from './settle-date-order.js';
import { findSlotColumns, type SlotColumns } from './slot-columns.js';
import { findStampColumns, type StampColumns } from './stamp-columns.js';
import { findValueColumns, type Values } from './value-columns.js';
import type { Vocabulary } from './vocabulary.js';
import { abbreviationsIn } from './zone-abbreviations.js';

/** Meanings of abbreviations have not changed for decades: one year's are those of all. */
const USUAL_YEAR = 2025;

/** A file whose columns are understood, before its stamps are read. */
export interface Draft<C extends string> {
  /** Place among the tables of the import. */
  index: number;
  /** The file that the table stands in. */
  input: InputFile;
  table: Table;
  options: FileOptions;
  columns: Columns;
  stamps: StampColumns;
  slots: SlotColumns | undefined;
  values: Values<C>;
  dates: DateEvidence;
  /** Offsets of the abbreviations of zones that stamps may have, minutes from UTC. */
  abbreviations: ReadonlyMap<string, number>;
  /** Files of the same signature come from the same export: what one settles holds for all. */
  signature: string;
}

/**
 * Understands the columns of a table.
 *
 * @param opened the table, the file that it stands in, and what the user says about that
 * @param index place among the tables
 * @param timeZone zone of the home
 * @param vocabulary channels to look for
 * @returns the draft
 * @throws InputError when the file is no table of readings, or its columns could mean several things
 * @example draftTable(opened, 0, 'Europe/London', electricityVocabulary).values.values.length // 1
 */
export function draftTable<C extends string>(
  { input, table: given, options: own }: OpenedTable,
  index: number,
  timeZone: string,
  vocabulary: Vocabulary<C>,
): Draft<C> {
  const { table, assumptions } = withPlainCells(given, vocabulary);
  const columns = findHeader(table, vocabulary, own.headerLine, own.passOver);
  const stamps = findStampColumns(table, columns, own);
  const slots = findSlotColumns(table, columns, stamps, own.intervalMinutes, own.stamp);
  // A cell of a sheet is one, whatever is in it, and blank ones are not stored.
  const isSheet = table.source?.isSheet === true;
  if (slots === undefined && !isSheet) refuseNamesTooMany(table, columns, own);
  if (slots === undefined && isSheet) refuseShiftedNames(table, columns, own, stamps.date, vocabulary);
  if (slots?.goesOn !== true && !isSheet) refuseWideLines(table, columns);
  if (slots === undefined && !isSheet) refuseNamesTooFew(table, columns);
  const values = findValueColumns(table, columns, stamps, slots?.columns, own, vocabulary);
  if (slots === undefined && !isSheet) refuseSplitNumbers(table, columns, values.values, own);
  const cells = slots?.columns ?? values.values.map(({ column }) => column);
  const whole = checkFileEnd(table, columns, cells);
  values.assumptions.push(...assumptions);
  if (whole !== undefined) values.assumptions.push(whole);
  return {
    index,
    input,
    table,
    options: own,
    columns,
    stamps,
    slots,
    values,
    abbreviations: abbreviationsIn(timeZone, USUAL_YEAR),
    dates: findDateEvidence(table, columns, stamps.date),
    signature: JSON.stringify([table.delimiter, columns.header, stamps]),
  };
}

/**
 * Whether the stamps of a file are dates without a time of day.
 *
 * @param draft the file
 * @returns true for daily and monthly values
 * @example isDateOnly(draft) // true for lines such as 2026-01-31,12.5
 */
export function isDateOnly<C extends string>({ columns, stamps }: Draft<C>): boolean {
  return columns.kinds[stamps.date] === 'date' && stamps.time === undefined && stamps.period === undefined;
}
