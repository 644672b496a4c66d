import { InputError } from '../../errors.js';

/** Column and row of a cell, both counted from 0 as drawings count them. */
export interface CellPosition {
  column: number;
  row: number;
}

/**
 * Position of a cell named as `K22`.
 *
 * @throws InputError when the name is not a cell of a sheet (A1 to XFD1048576)
 * @example cellPosition('B4') // { column: 1, row: 3 }
 */
export function cellPosition(cell: string): CellPosition {
  const match = /^\$?([A-Z]{1,3})\$?([1-9]\d{0,6})$/.exec(cell);
  const column = [...(match?.[1] ?? '')].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;
  const row = Number(match?.[2] ?? 0) - 1;
  if (match === null || column > 16383 || row > 1048575) {
    throw new InputError(`"${cell}" is not a cell`, 'Name a cell like B4.');
  }
  return { column, row };
}

const QUOTED_SHEET = /^'((?:[^']|'')+)'!/;
const PLAIN_SHEET = /^([^'!\s]+)!/;
const ABSOLUTE_CELLS = /^\$[A-Z]{1,3}\$[1-9]\d{0,6}(:\$[A-Z]{1,3}\$[1-9]\d{0,6})?$/;

/** An absolute reference taken apart. */
export interface AbsoluteReference {
  sheet: string;
  /** `$B$8:$B$55` */
  cells: string;
}

/**
 * @throws InputError when the text is not an absolute reference that names its sheet
 * @example parseReference("'Half-hours'!$B$8:$B$55") // { sheet: 'Half-hours', cells: '$B$8:$B$55' }
 */
export function parseReference(ref: string): AbsoluteReference {
  const found = takeApart(ref);
  if (found === undefined) {
    throw new InputError(
      `"${ref}" is not an absolute reference`,
      "Write the sheet and fixed cells, like 'Half-hours'!$B$8:$B$55.",
    );
  }
  return found;
}

/** Whether {@link parseReference} can take the text apart. */
export function isAbsoluteReference(text: string): boolean {
  return takeApart(text) !== undefined;
}

function takeApart(ref: string): AbsoluteReference | undefined {
  const match = QUOTED_SHEET.exec(ref) ?? PLAIN_SHEET.exec(ref);
  const cells = match === null ? '' : ref.slice(match[0].length);
  if (match?.[1] === undefined || !ABSOLUTE_CELLS.test(cells)) return undefined;
  return { sheet: match[1].replaceAll("''", "'"), cells };
}

/** The same reference always written the same way, whichever program wrote it: sheet quoted, one-cell range short. */
export function canonicalReference(ref: string): string {
  const { sheet, cells } = parseReference(ref);
  const [first, last] = cells.split(':');
  return `'${sheet.replaceAll("'", "''")}'!${last === undefined || last === first ? first : cells}`;
}

/** How many cells a reference covers. */
export function cellCount(ref: string): number {
  const [first, last] = parseReference(ref).cells.split(':');
  const from = cellPosition(first ?? '');
  const to = cellPosition(last ?? first ?? '');
  return (Math.abs(to.column - from.column) + 1) * (Math.abs(to.row - from.row) + 1);
}
