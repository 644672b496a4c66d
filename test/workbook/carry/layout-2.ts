import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/**
 * A workbook of layout 2 as its last version built and filled it, lived in by its owner: the sample's tariffs with a changed
 * rate and a later change of rates, other battery and heating figures, the last 14 days of October 2026 (with the end of summer
 * time and six estimated half-hours), five stretches of gas, 20 days of temperatures, October chosen; cells of the owner's
 * beside the tables, a sheet with formulas, a number format, a comment, a chart and a picture, and a defined name. To keep it
 * small, rows of workings below the days of the readings were cut from the sheets Days, Half-hours, Heating days and those of
 * the battery; none of these rows holds an input.
 */
export const LAYOUT_2_FILE = fileURLToPath(new URL('layout-2.xlsx', import.meta.url));

/** The bytes of that file. */
export const layout2Workbook = (): Uint8Array => readFileSync(LAYOUT_2_FILE);
