import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/**
 * A workbook of layout 5 as its last version carried that of layout 4 over and filled it: rates as they are now, figures of
 * heating, two bills, both timers on, what one file was told; cells of the owner's beside the tables. To keep it small, rows of workings below their first were
 * cut; none of these rows holds an input.
 */
export const LAYOUT_5_FILE = fileURLToPath(new URL('layout-5.xlsx', import.meta.url));

/** The bytes of that file. */
export const layout5Workbook = (): Uint8Array => readFileSync(LAYOUT_5_FILE);
