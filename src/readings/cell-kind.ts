import { isBlankCell, looksLikeNumber } from './parse-number.js';
import { StampReader } from './parse-stamp.js';

/** What a cell looks like, judged alone. */
export type CellKind = 'blank' | 'date' | 'dateTime' | 'time' | 'number' | 'text';

const reader = new StampReader(undefined);

/**
 * Judges a cell alone; used on the first lines only.
 *
 * @param cell text of the cell
 * @returns its kind; eight digits that name a day are a date
 * @example cellKind('25/10/2026') // 'date'
 */
export function cellKind(cell: string): CellKind {
  if (isBlankCell(cell)) return 'blank';
  if (reader.read(cell)) return Number.isNaN(reader.timeMs) ? 'date' : 'dateTime';
  if (looksLikeNumber(cell)) return 'number';
  if (reader.readTimeOfDay(cell)) return 'time';
  return 'text';
}
