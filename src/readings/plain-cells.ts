import { withoutMarks } from './marks-in-cells.js';
import type { Table } from './read-table.js';
import { withSerialDates } from './serial-dates.js';
import type { Vocabulary } from './vocabulary.js';

/**
 * A table whose cells are dates and numbers as everything after this expects them: what spreadsheets count days by is a date, a mark behind a
 * number is apart.
 *
 * @param table the table
 * @param vocabulary of the reader, which says whether there may be marks
 * @returns the table, and what to say as assumed
 * @example withPlainCells(table, gasVocabulary).table.records[1] // ['2025-02-01', '180'] for 45689,180 E
 */
export function withPlainCells<C extends string>(
  table: Table,
  vocabulary: Vocabulary<C>,
): { table: Table; assumptions: string[] } {
  const marked = vocabulary.marksInCells === true ? withoutMarks(table) : { table };
  const dated = withSerialDates(marked.table);
  const said = [marked, dated].map((step: { assumption?: string }) => step.assumption);
  return { table: dated.table, assumptions: said.filter((one) => one !== undefined) };
}
