import type { FormulaColumn } from '../sheet-model.js';

/** What the comparison takes of each row of gas. */
export function gasColumns(): FormulaColumn[] {
  return [];
}
