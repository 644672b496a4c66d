import type { FieldColumns } from '../fields/field-column.js';
import { GAS_COLUMNS } from '../fields/gas-fields.js';
import { TEMPERATURE_COLUMNS } from '../fields/temperature-fields.js';
import type { HeatingCells } from '../inputs/heating-cells.js';
import type { InputColumn } from '../package/index.js';

/** What changes in the columns of a table, key by key. */
function changedColumns<Key extends string>(
  columns: FieldColumns<Key>,
  rows: readonly Readonly<Record<Key, unknown>>[],
  held: readonly Readonly<Record<Key, unknown>>[],
): InputColumn[] {
  if (rows === held) return [];
  return (Object.keys(columns) as Key[]).map((key) => ({
    column: columns[key].column.column,
    firstRow: columns[key].column.firstRow,
    // A cell that stays as it is keeps what was typed, a formula for example.
    values: rows.map((row, i) =>
      row[key] === held[i]?.[key] ? undefined : row[key],
    ) as InputColumn['values'],
  }));
}

/** What changes on the gas sheet. */
export function gasInputColumns(rows: HeatingCells['gas'], held: HeatingCells['gas']): InputColumn[] {
  return changedColumns(GAS_COLUMNS, rows, held);
}

/** What changes on the temperatures sheet. */
export function temperatureInputColumns(
  rows: HeatingCells['temperatures'],
  held: HeatingCells['temperatures'],
): InputColumn[] {
  return changedColumns(TEMPERATURE_COLUMNS, rows, held);
}
