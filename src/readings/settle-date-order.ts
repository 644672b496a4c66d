import { InputError } from '../errors.js';
import type { Columns } from './find-header.js';
import type { DateOrder } from './import-options.js';
import { StampReader } from './parse-stamp.js';
import type { TablePlace } from './place-text.js';
import type { Table } from './read-table.js';

/** What the dates of a file say about their order. */
export interface DateEvidence {
  /** Whether an order is needed at all: not for ISO dates or named months. */
  needed: boolean;
  /** Order that a date of the file settles, and the line of that date. */
  order?: DateOrder;
  line?: TablePlace;
  /** Whether years have two digits: those are read only in an order that the user states. */
  twoDigitYear: boolean;
  /** A date that could be either; undefined where day and month are always the same number. */
  ambiguous?: { cell: string; line: TablePlace };
}

/**
 * Looks for a date that settles day-first or month-first: one with a number above 12.
 *
 * @param table the table
 * @param columns its data rows
 * @param column column of the date
 * @returns what the dates say
 * @example findDateEvidence(table, columns, 0).order // 'dmy', as line 13 holds 13/01/2026
 */
export function findDateEvidence(table: Table, columns: Columns, column: number): DateEvidence {
  const reader = new StampReader(undefined);
  let ambiguous: DateEvidence['ambiguous'];
  let needed = false;
  let last = '';
  for (const r of columns.rows) {
    const cell = table.records[r]![column] ?? '';
    const day = cell.slice(0, 10);
    if (day === last && needed) continue;
    last = day;
    if (!reader.read(cell)) continue;
    const { form, first, second } = reader;
    if (form === 'yearFirst' || form === 'named') {
      if (!needed) return { needed: false, twoDigitYear: false };
      continue;
    }
    needed = true;
    if (form === 'twoDigitYear')
      return { needed, twoDigitYear: true, ambiguous: { cell, line: table.lineOf(r, column) } };
    if (first > 12) return { needed, twoDigitYear: false, order: 'dmy', line: table.lineOf(r, column) };
    if (second > 12) return { needed, twoDigitYear: false, order: 'mdy', line: table.lineOf(r, column) };
    if (first !== second && ambiguous === undefined) ambiguous = { cell, line: table.lineOf(r, column) };
  }
  return { needed, twoDigitYear: false, ...(ambiguous ? { ambiguous } : {}) };
}

/**
 * The message for dates that could be read either way.
 *
 * @param file name of the file
 * @param evidence what its dates say
 * @returns the error to throw
 * @example askForDateOrder('a.csv', evidence).message // "a.csv, line 2: \"03/04/2026\" could be day first or month first..."
 */
export function askForDateOrder(file: string, evidence: DateEvidence): InputError {
  const { cell, line } = evidence.ambiguous!;
  if (evidence.twoDigitYear) {
    return new InputError(
      `"${cell.trim()}" has a year of two digits`,
      'Say the order of its parts: --date-order dmy, mdy or ymd (years are then 20yy), or export with four-digit years.',
      { file, line },
    );
  }
  return new InputError(
    `"${cell.trim()}" could be day first or month first, and no date of the file settles it`,
    'Say which: --date-order dmy or --date-order mdy.',
    { file, line },
  );
}
