import { looksLikeNumber } from './parse-number.js';
import type { Table } from './read-table.js';

/** A number, and behind it one of the words or letters that makers mark a read with. */
const MARKED =
  /^\s*([+-]?\d(?:[\d.,' \u00a0\u202f]*\d)?)\s*\(?\s*(e|est\.?|estimated?|a|act\.?|actual|c|cust\.?|customer)\s*\)?\s*$/i;
const ESTIMATED = /^e/i;

/**
 * A table whose cells hold numbers and marks, as `180 E`, with the numbers alone in their place. E, est. and estimated mark an estimated
 * read; A and actual one of the meter, C and customer one of the customer, which are both read as they are (common practice, no source).
 *
 * @param table the table
 * @returns the table, with its marks, and what to say as assumed; the table itself where no cell has one
 * @example withoutMarks(table).table.records[1] // ['2025-02-01', '180'] for 2025-02-01,180 E
 */
export function withoutMarks(table: Table): { table: Table; assumption?: string } {
  const estimated = new Set<string>();
  const seen = new Map<string, string>();
  let count = 0;
  const records = table.records.map((record, r) => {
    let changed: string[] | undefined;
    record.forEach((cell, column) => {
      const [, number, mark] = MARKED.exec(cell) ?? [];
      if (number === undefined || mark === undefined || !looksLikeNumber(number)) return;
      // A title such as "Block 12 A" stands alone; a reading has its date beside it.
      if (!record.some((other, i) => i !== column && /\d/.test(other))) return;
      changed ??= [...record];
      changed[column] = number;
      count++;
      if (ESTIMATED.test(mark)) estimated.add(placeKey(r, column));
      if (!seen.has(mark)) seen.set(mark, cell.trim());
    });
    return changed ?? record;
  });
  if (count === 0) return { table };
  const meanings = [...seen.keys()].map(
    (mark) => `${mark} as ${ESTIMATED.test(mark) ? 'estimated' : 'read'}`,
  );
  const [first] = seen.values();
  const cells = count === 1 ? 'a cell holds' : `${count} cells hold`;
  return {
    table: { ...table, records, estimatedCells: estimated },
    assumption: `${cells} a mark behind the number ("${first}"): ${meanings.join(', ')}`,
  };
}

/**
 * Key of a cell among {@link Table.estimatedCells}.
 *
 * @param record number of its record, from 0
 * @param column number of its column, from 0
 * @returns the key
 * @example placeKey(1, 2) // '1 2'
 */
export const placeKey = (record: number, column: number): string => `${record} ${column}`;
