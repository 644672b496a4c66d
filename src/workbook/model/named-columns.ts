import type { Node } from '../../formula/nodes.js';
import { printFormula } from '../../formula/print.js';
import { named } from '../book/terms.js';
import { BLOCK_ROWS, FIRST_ROW, SHEETS } from '../layout.js';
import { label } from './cells.js';
import { columnFormula } from './column-text.js';
import type { Cell, FormulaColumn, SheetModel } from './sheet-model.js';

const WORKINGS: readonly string[] = [SHEETS.halfHours, SHEETS.days, SHEETS.months, SHEETS.rateGrid];
/** Above the headings, where the formula of a column is to be read. */
const TEXT_ROW = FIRST_ROW - 4;
/** A shorter formula is no longer than its name would be. */
const SHORT = 25;
/** A longer one can't be read at a glance, and a name says the sheet beside every cell. */
const LONG = 300;

/**
 * A sheet of workings whose long columns have their formula under a name of the column's: each row then reads one word, and
 * the formula is said above the headings. Programs load by the parts of formulas, row by row; and LibreOffice takes the
 * number stored beside a formula that is written out, where it works a shared one out anew after it opened a file.
 *
 * A column that looks at the row above keeps its formula: a name can't. So does one whose formula would be too long in a name.
 *
 * @param sheet any sheet; those that people look at stay as they are
 * @param days days that the workbook holds
 * @returns the sheet with such columns named, and a label above each
 */
export function withNamedColumns(sheet: SheetModel, days: number): SheetModel {
  if (!WORKINGS.includes(sheet.name)) return sheet;
  const taken = new Set(sheet.cells.map(({ at }) => at));
  const texts: Cell[] = [];
  const underName = (column: FormulaColumn, name: string, is: Node): FormulaColumn => {
    const { letters, firstRow } = column;
    const above = `${letters}${TEXT_ROW}`;
    const text = columnFormula(sheet.name, { ...column, formula: is }, firstRow);
    if (!taken.has(above)) texts.push(label(above, text, 'hint'));
    return { ...column, formula: named(name, is) };
  };
  const formulaColumns = sheet.formulaColumns.map((column) => {
    const { formula, label: text, rows } = column;
    if (typeof formula === 'function' || rows < Math.min(days, BLOCK_ROWS)) return column;
    if (formula.kind === 'named') return underName(column, formula.name, formula.is);
    const first = columnFormula(sheet.name, column, column.firstRow);
    if (first.length < SHORT || looksUp(sheet.name, column)) return column;
    if (printFormula(formula, { sheet: '', row: 1, column: 1 }).length > LONG) return column;
    return underName(column, columnName(sheet.name, text), formula);
  });
  return { ...sheet, cells: [...sheet.cells, ...texts], formulaColumns };
}

/** `days_lowest_rate_tariff_1`: the sheet that says it, and what it says. */
function columnName(sheet: string, text: string): string {
  const words = `${sheet} ${text}`.replaceAll('’', '').match(/[A-Za-z0-9]+/g) ?? [];
  return words.join('_').toLowerCase();
}

/** Whether a column looks at a row above its own. */
function looksUp(sheet: string, column: FormulaColumn): boolean {
  const row = column.firstRow + 1;
  const rows = columnFormula(sheet, column, row).matchAll(/\$?[A-Z]{1,3}(\d+)/g);
  return [...rows].some(([, at]) => Number(at) < row);
}
