import { cellKind } from './cell-kind.js';

const DELIMITERS = [',', ';', '\t', '|'];
const SAMPLE_LINES = 80;

/**
 * Finds the character between cells: the one that splits most lines into a date or a time and at least one number. A decimal comma
 * is not mistaken for it, because the cells that it would leave are no dates.
 *
 * @param head the first lines of the file
 * @returns comma, semicolon, tab or pipe
 * @example findDelimiter('2026-01-01 00:00;0,25\n') // ';'
 */
export function findDelimiter(head: string): string {
  const lines = head
    .split(/\r\n|\n|\r/)
    .filter((line) => line.trim() !== '')
    .slice(0, SAMPLE_LINES);
  let best = ',';
  let bestScore = 0;
  for (const delimiter of DELIMITERS) {
    let score = 0;
    for (const line of lines) score += lineScore(splitRoughly(line, delimiter));
    if (score > bestScore) {
      best = delimiter;
      bestScore = score;
    }
  }
  if (bestScore > 0) return best;
  // Dates may stand there as numbers of a spreadsheet, with a decimal comma too.
  for (const delimiter of DELIMITERS) {
    let score = 0;
    for (const line of lines) score += serialLineScore(splitRoughly(line, delimiter));
    if (score > bestScore) {
      best = delimiter;
      bestScore = score;
    }
  }
  if (bestScore > 0) return best;
  // No line holds a date beside a number: the most frequent character serves the message about it.
  const count = (d: string): number => lines.reduce((sum, line) => sum + line.split(d).length - 1, 0);
  return DELIMITERS.reduce((most, d) => (count(d) > count(most) ? d : most), ',');
}

function lineScore(cells: readonly string[]): number {
  if (cells.length < 2) return 0;
  const kinds = cells.map((cell) => cellKind(cell));
  const stamped = kinds.some((k) => k === 'date' || k === 'dateTime');
  if (!stamped || !kinds.some((k) => k === 'number' || k === 'blank')) return 0;
  // A line cut in the wrong places leaves scraps that are neither stamp nor number.
  const sense = kinds.filter((k) => k !== 'text').length;
  return 1 + sense / cells.length;
}

function serialLineScore(cells: readonly string[]): number {
  const at = cells.findIndex((cell) => /^\s*\d{5}([.,]\d+)?\s*$/.test(cell));
  if (at < 0 || cells.length < 2) return 0;
  const kinds = cells.map((cell) => cellKind(cell));
  if (!kinds.some((kind, i) => i !== at && (kind === 'number' || kind === 'blank'))) return 0;
  return 1 + kinds.filter((kind) => kind !== 'text').length / cells.length;
}

function splitRoughly(line: string, delimiter: string): string[] {
  if (!line.includes('"')) return line.split(delimiter);
  const cells: string[] = [];
  let cell = '';
  let quoted = false;
  for (const c of line) {
    if (c === '"') quoted = !quoted;
    else if (c === delimiter && !quoted) {
      cells.push(cell);
      cell = '';
    } else cell += c;
  }
  cells.push(cell);
  return cells;
}
