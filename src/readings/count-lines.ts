import type { Draft } from './draft.js';
import type { LineCounts } from './file-report.js';
import { listText } from './list-text.js';
import { isBlankCell } from './parse-number.js';

const MOST_NAMED = 5;

/**
 * Counts the lines of a file by what they are: each is one of these, so that the counts add up to the file's lines.
 *
 * @param draft the file
 * @returns lines with readings, lines of data without a value, of the header, above it, and blank
 * @example countLines(draft) // { all: 50, readings: 48, withoutValue: 0, header: 1, above: [1], blank: 0 }
 */
export function countLines<C extends string>({ table, columns, values, slots }: Draft<C>): LineCounts {
  const { records, source } = table;
  if (source?.counts !== undefined) return source.counts;
  const linesOf = (record: number): number =>
    source !== undefined
      ? 1
      : record + 1 < records.length
        ? table.lineNumber(record + 1) - table.lineNumber(record)
        : 1 + records[record]!.reduce((sum, cell) => sum + cell.split('\n').length - 1, 0);
  const counts: LineCounts = { all: 0, readings: 0, withoutValue: 0, header: 0, above: [], blank: 0 };
  const rows = new Set(columns.rows);
  const above = new Set(columns.above);
  const passedOver = new Set(columns.passedOver);
  const passedLines: number[] = [];
  const cells = slots?.columns ?? [...new Set(values.values.map(({ column }) => column))];
  for (let r = 0; r < records.length; r++) {
    const lines = linesOf(r);
    counts.all += lines;
    if (rows.has(r)) {
      const record = records[r]!;
      // A day may go on beyond its last named column.
      const isBlank =
        cells.every((column) => isBlankCell(record[column])) &&
        (slots === undefined || record.slice(slots.first).every(isBlankCell));
      if (isBlank) counts.withoutValue += lines;
      else counts.readings += lines;
    } else if (above.has(r)) {
      for (let i = 0; i < lines; i++) counts.above.push(table.lineNumber(r) + i);
    } else if (passedOver.has(r)) {
      for (let i = 0; i < lines; i++) passedLines.push(table.lineNumber(r) + i);
    } else if (records[r]!.every((cell) => cell.trim() === '')) counts.blank += lines;
    else counts.header += lines;
  }
  if (passedLines.length > 0) {
    const name = `${source?.lineName ?? 'line'}${passedLines.length === 1 ? '' : 's'}`;
    counts.other = [
      {
        count: passedLines.length,
        what: `passed over as told, not read (${name} ${listText(passedLines, MOST_NAMED)})`,
      },
    ];
  }
  return counts;
}
