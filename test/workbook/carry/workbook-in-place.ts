import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Kept workbooks of layouts whose cells stood where they stand today. */
export type LayoutInPlace = 5 | 6 | 7;

/**
 * A workbook of such a layout as its last version carried that of the layout before: rates as they are now, figures of
 * heating, two bills, both timers on, what one file was told; cells of the owner's beside the tables. To keep it small, rows of
 * workings below their first were cut, and from layout 6 on what *Old boiler* worked out from row 81 on; none of these cells holds an input.
 *
 * @param layout number of the layout
 * @returns the bytes of the file
 */
export function workbookInPlace(layout: LayoutInPlace): Uint8Array {
  return readFileSync(fileURLToPath(new URL(`layout-${layout}.xlsx`, import.meta.url)));
}
