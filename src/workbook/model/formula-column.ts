import type { Column } from '../book/terms.js';
import type { FormulaColumn } from './sheet-model.js';

/**
 * A column of terms as its sheet takes it.
 *
 * @param column from its terms
 * @returns undefined for a column of values
 */
export function formulaColumnOf(column: Column): FormulaColumn | undefined {
  if (column.is === undefined) return undefined;
  return {
    letters: column.letters,
    firstRow: column.firstRow,
    rows: column.rows,
    ...column.text,
    formula: column.is,
    style: column.style,
    ...(column.name === undefined ? {} : { name: column.name }),
  };
}
