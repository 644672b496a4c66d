import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/**
 * A workbook of layout 3 as its last version built and filled it: what that of layout 2 holds, carried over into 31 days, and
 * what one file was told; cells of the owner's beside the tables. To keep it small, rows of workings below their first were
 * cut; none of these rows holds an input.
 */
export const LAYOUT_3_FILE = fileURLToPath(new URL('layout-3.xlsx', import.meta.url));

/** The bytes of that file. */
export const layout3Workbook = (): Uint8Array => readFileSync(LAYOUT_3_FILE);
