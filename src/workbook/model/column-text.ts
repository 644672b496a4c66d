import { printFormula } from '../../formula/print.js';
import { columnNumber, parseCell } from '../cell-address.js';
import type { FormulaCell, FormulaColumn } from './sheet-model.js';

/** Formula of a cell as it stands there, without `=`. */
export function cellFormula(sheet: string, cell: FormulaCell): string {
  if (typeof cell.formula === 'string') return cell.formula;
  return printFormula(cell.formula, { sheet, ...parseCell(cell.at) });
}

/** Formula of a row of a column, without `=`. */
export function columnFormula(sheet: string, column: FormulaColumn, row: number): string {
  const { formula, letters } = column;
  if (typeof formula === 'function') return formula(row);
  return printFormula(formula, { sheet, row, column: columnNumber(letters) });
}

/**
 * Whether cells may share a formula. The format forbids references to other sheets, the range operator between
 * results, and array constants in shared formulas: [MS-XLSB] 2.5.98.98 SharedParsedFormula.
 */
export function isShareable(formula: string): boolean {
  const plain = formula.replace(/"(?:[^"]|"")*"/g, '""');
  return !plain.includes('!') && !/\)\s*:|:\s*[A-Z][A-Z.]*\(/.test(plain) && !plain.includes('{');
}
