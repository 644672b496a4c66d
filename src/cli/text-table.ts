/** Columns that a terminal has. */
export const TERMINAL_COLUMNS = 80;
/** A name is cut no shorter than this, characters. */
const SHORTEST_NAME = 8;

/**
 * A table for a terminal: names on the left, everything else flush right, a rule below the headings.
 *
 * @param rows rows of as many cells each; the first two are headings and units
 * @param gap blanks between columns, count
 * @param longestName characters after which a name is cut; default: what the terminal leaves
 * @returns its lines
 * @example textTable([['Tariff', 'Total'], ['', '£'], ['Single rate', '2029.20']], 1)[2] // '-------------------'
 */
export function textTable(rows: readonly (readonly string[])[], gap: number, longestName?: number): string[] {
  const headings = rows[0] ?? [];
  const widths = headings.map((_, column) => Math.max(...rows.map((row) => row[column]!.length)));
  const others = widths.slice(1).reduce((sum, width) => sum + width + gap, 0);
  const name = Math.min(widths[0] ?? 0, longestName ?? Math.max(SHORTEST_NAME, TERMINAL_COLUMNS - others));
  const lines = rows.map(([first = '', ...cells]) =>
    [clipped(first, name).padEnd(name), ...cells.map((cell, i) => cell.padStart(widths[i + 1]!))]
      .join(' '.repeat(gap))
      .trimEnd(),
  );
  lines.splice(2, 0, '-'.repeat(name + others));
  return lines;
}

function clipped(text: string, width: number): string {
  return text.length <= width ? text : `${text.slice(0, width - 1)}…`;
}
