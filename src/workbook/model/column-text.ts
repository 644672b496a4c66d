import { saysNothing } from '../../formula/empty-text.js';
import { printFormula } from '../../formula/print.js';
import { columnNumber, parseCell } from '../cell-address.js';
import { comparableFormula } from '../package/index.js';
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

/**
 * Whether the rows of a column share one formula: it may be shared, and moves down with the row. One of blocks that
 * are written out, four weeks for each row, moves further.
 *
 * Nor is one shared that may give an empty text, or an error on purpose. LibreOffice takes a cell with a shared formula
 * beside which nothing or an error is stored for one that is still to be worked out, and whose change it need tell nobody
 * (`applySharedFormulas` in its `formulabuffer.cxx`): what looks at it would keep its stored value.
 *
 * A name alone is written out: it is no longer than a share of a formula, and LibreOffice takes the number stored beside it.
 */
export function isSharedColumn(sheet: string, column: FormulaColumn): boolean {
  const { letters, firstRow, rows } = column;
  const text = (row: number): string => columnFormula(sheet, column, row);
  if (rows < 2 || isName(column) || mayBeEmpty(column) || !isShareable(text(firstRow))) return false;
  const as = (row: number): string => comparableFormula(text(row), `${letters}${row}`);
  return as(firstRow) === as(firstRow + 1);
}

function isName({ formula }: FormulaColumn): boolean {
  return typeof formula !== 'function' && formula.kind === 'named';
}

/** Of a text nobody knows what it hands on. */
function mayBeEmpty({ formula }: FormulaColumn): boolean {
  return typeof formula === 'function' || saysNothing(formula);
}
