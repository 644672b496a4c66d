import { TOLD, TOLD_KEYS, type ToldKey } from '../fields/told-places.js';
import type { WorkbookPackage } from '../package/index.js';
import { inputValue, readCells } from './read-cells.js';

/** A row of what files were told, as text; '' where a cell is blank. */
export type ToldRow = Record<ToldKey, string>;

/**
 * What files were told, as the workbook keeps it.
 *
 * @param workbook an open workbook of ours
 * @returns a row for each of the places, blank or not
 * @throws InputError when a cell holds an error value or a formula without a result
 * @example readToldRows(workbook)[0] // { columns: 'Start | kWh', kind: 'readings', name: '', answer: 'unit=Wh', toldFor: 'may.csv' }
 */
export function readToldRows(workbook: WorkbookPackage): ToldRow[] {
  const cells = readCells(workbook, TOLD.sheet);
  const place = { file: workbook.fileName, sheet: TOLD.sheet };
  return Array.from({ length: TOLD.rows }, (_, i) => {
    const text = (key: ToldKey): string =>
      String(inputValue(cells, `${TOLD.letters[key]}${TOLD.firstRow + i}`, place) ?? '').trim();
    return Object.fromEntries(TOLD_KEYS.map((key) => [key, text(key)])) as ToldRow;
  });
}
