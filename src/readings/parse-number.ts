import type { DecimalMark } from './import-options.js';

/** Cells that say "no value". */
const BLANKS = new Set(['', '-', '--', '–', 'n/a', 'na', 'nan', 'null', 'none', 'missing', '#n/a', '?']);

/**
 * Whether a cell holds no value.
 *
 * @param cell text of the cell
 * @returns true for an empty cell and the usual words for nothing
 * @example isBlankCell(' n/a ') // true
 */
export function isBlankCell(cell: string | undefined): boolean {
  if (cell === undefined || cell === '') return true;
  const c = cell.charCodeAt(0);
  if (c >= 48 && c <= 57) return false;
  return BLANKS.has(cell.trim().toLowerCase());
}

const GROUPED_POINT = /^[+-]?[1-9]\d{0,2}(,\d{3})+(\.\d+)?$/;
const GROUPED_COMMA = /^[+-]?[1-9]\d{0,2}([.\u00a0\u202f' ]\d{3})+(,\d+)?$/;
const GROUPED_SPACE = /^[+-]?[1-9]\d{0,2}([\u00a0\u202f' ]\d{3})+(\.\d+)?$/;

/**
 * Reads a number, strictly: digits, sign, one decimal mark, an exponent; thousands marks only in whole groups of three.
 *
 * @param cell text, not blank
 * @param mark decimal mark of the file
 * @returns the number, NaN when the cell is not one
 * @example parseNumber('1.234,5', ',') // 1234.5
 */
export function parseNumber(cell: string, mark: DecimalMark): number {
  let plain = mark === '.';
  if (plain) {
    for (let i = 0; i < cell.length; i++) {
      const c = cell.charCodeAt(i);
      // Number() also reads 0x1F, Infinity and blanks inside: let only digits and . + - through the quick way.
      if (!((c >= 48 && c <= 57) || c === 46 || c === 45 || c === 43)) {
        plain = false;
        break;
      }
    }
    if (plain) return cell === '' ? Number.NaN : Number(cell);
  }
  return parseSlowly(cell.trim(), mark);
}

function parseSlowly(cell: string, mark: DecimalMark): number {
  if (mark === ',') {
    if (/^[+-]?(\d+(,\d*)?|,\d+)(e[+-]?\d+)?$/i.test(cell)) return Number(cell.replace(',', '.'));
    if (GROUPED_COMMA.test(cell)) return Number(cell.replace(/[.\u00a0\u202f' ]/g, '').replace(',', '.'));
    return Number.NaN;
  }
  if (/^[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d+)?$/i.test(cell)) return Number(cell);
  if (GROUPED_POINT.test(cell)) return Number(cell.replaceAll(',', ''));
  if (GROUPED_SPACE.test(cell)) return Number(cell.replace(/[\u00a0\u202f' ]/g, ''));
  return Number.NaN;
}

/**
 * Whether a cell reads as a number with either decimal mark.
 *
 * @param cell text of the cell
 * @returns true for a number
 * @example looksLikeNumber('0,25') // true
 */
export function looksLikeNumber(cell: string): boolean {
  return !Number.isNaN(parseNumber(cell, '.')) || !Number.isNaN(parseSlowly(cell.trim(), ','));
}

/** What the cells of a file say about its decimal mark. */
type MarkEvidence = DecimalMark | 'none' | { ambiguousRow: number; cell: string };

/**
 * Settles the decimal mark from the cells of a file's value columns. A comma followed by other than three digits, or after a lone
 * zero, is a decimal comma; a comma that could just as well group thousands settles nothing.
 *
 * @param rows records
 * @param columns columns to look at
 * @returns the mark; `none` when no cell has a comma (a point is then decimal); or the first cell that could be either
 * @example settleDecimalMark([['0,25']], [0]) // ','
 */
export function settleDecimalMark(rows: readonly string[][], columns: readonly number[]): MarkEvidence {
  let ambiguous: { ambiguousRow: number; cell: string } | undefined;
  let pointSeen = false;
  for (let r = 0; r < rows.length; r++) {
    const row = rows[r]!;
    for (const column of columns) {
      const cell = row[column];
      if (cell === undefined) continue;
      const comma = cell.indexOf(',');
      if (comma < 0) {
        if (!pointSeen && cell.includes('.')) pointSeen = true;
        continue;
      }
      const bare = cell.trim();
      const point = bare.lastIndexOf('.');
      if (point > bare.lastIndexOf(',')) return '.';
      if (point >= 0) return ',';
      if (/^[+-]?[1-9]\d{0,2}(,\d{3}){2,}$/.test(bare)) return '.';
      if (/^[+-]?[1-9]\d{0,2},\d{3}$/.test(bare)) ambiguous ??= { ambiguousRow: r, cell: bare };
      else if (/^[+-]?\d*,\d*(e[+-]?\d+)?$/i.test(bare)) return ',';
    }
  }
  if (ambiguous === undefined) return 'none';
  // Elsewhere in the file a point is decimal, so this comma groups thousands.
  return pointSeen ? '.' : ambiguous;
}
