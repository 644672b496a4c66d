import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/**
 * A workbook of layout 4 as its last version built and filled it: what that of layout 2 holds, carried over into 31 days;
 * rates as they are now, more figures of heating, two bills, both timers on, what one file was told; more cells of the owner's
 * beside the tables, of which some look at what is elsewhere now. To keep it small, rows of workings below their first were
 * cut; none of these rows holds an input.
 */
export const LAYOUT_4_FILE = fileURLToPath(new URL('layout-4.xlsx', import.meta.url));

/** The bytes of that file. */
export const layout4Workbook = (): Uint8Array => readFileSync(LAYOUT_4_FILE);
