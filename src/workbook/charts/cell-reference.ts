import { InputError } from '../../errors.js';
import { parseRangeRef } from '../package/cell-reference.js';

const QUOTED_SHEET = /^'((?:[^']|'')+)'!/;
const PLAIN_SHEET = /^([^'!\s]+)!/;
const ABSOLUTE_CELLS = /^\$[A-Z]{1,3}\$[1-9]\d{0,6}(:\$[A-Z]{1,3}\$[1-9]\d{0,6})?$/;

/** An absolute reference taken apart. */
interface AbsoluteReference {
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
  const { firstRow, firstColumn, lastRow, lastColumn } = parseRangeRef(parseReference(ref).cells);
  return (lastRow - firstRow + 1) * (lastColumn - firstColumn + 1);
}
