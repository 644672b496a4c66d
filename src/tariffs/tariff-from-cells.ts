import type { CellReader } from '../functions/cell-reader.js';
import type { Tariff } from './tariff.js';
import { parseTariffTable } from './tariff-table.js';

/**
 * The tariff out of the typed table that a cell function was given.
 *
 * @param read the function's arguments, `tariffTable` among them
 * @returns a valid tariff
 * @throws InputError as {@link parseTariffTable}, its place naming the argument
 * @example tariffFromCells(cellReader(args, [LOCAL_TIMES_ARGUMENT, TARIFF_TABLE_ARGUMENT]))
 */
export function tariffFromCells(read: CellReader): Tariff {
  return parseTariffTable(read.rows('tariffTable'), {}, (row, column) => ({
    line: `tariffTable, row ${row}, column ${column}`,
  }));
}
