import { columnNumber } from '../cell-address.js';
import { TOLD, TOLD_KEYS } from '../fields/told-places.js';
import type { ToldRow } from '../inputs/read-told-rows.js';
import type { InputColumn } from '../package/index.js';

/**
 * What changes where a workbook keeps what files were told.
 *
 * @param rows rows from the first on; the places below them become blank. At most as many as there are places
 * @returns columns to write
 * @throws RangeError when there are more rows than places
 * @example toldColumns([]).length // 5, all blank
 */
export function toldColumns(rows: readonly ToldRow[]): InputColumn[] {
  if (rows.length > TOLD.rows) throw new RangeError(`${rows.length} rows for ${TOLD.rows} places`);
  return TOLD_KEYS.map((key) => ({
    column: columnNumber(TOLD.letters[key]),
    firstRow: TOLD.firstRow,
    values: Array.from({ length: TOLD.rows }, (_, i) => {
      const text = rows[i]?.[key] ?? '';
      return text === '' ? null : text;
    }),
  }));
}
