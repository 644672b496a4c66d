import { type CellRange, parseRangeRef } from './cell-reference.js';

/** Cells of one sheet. */
export interface SheetRange {
  sheet: string;
  range: CellRange;
}

/**
 * The cells that a defined name stands for.
 *
 * @param text text of the name, for example `'My home'!$C$4:$C$9`
 * @returns sheet and range; undefined when the text is something else, such as a constant, a formula or `#REF!`
 */
export function sheetRange(text: string): SheetRange | undefined {
  const match = /^(?:'((?:[^']|'')+)'|([^'!]+))!([$A-Za-z0-9:]+)$/.exec(text.trim());
  if (match === null) return undefined;
  try {
    return {
      sheet: match[1]?.replaceAll("''", "'") ?? (match[2] as string),
      range: parseRangeRef(match[3] as string),
    };
  } catch {
    return undefined;
  }
}
