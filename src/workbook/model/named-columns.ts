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
/** A formula of a few parts is as quick as a name, and sooner read. */
const SHORT = 24;
/** A longer formula can't be read at a glance, and a name says the sheet beside every cell. */
const LONG = 300;

/**
 * A sheet of workings whose long columns have their formula under a name of the column's: each row then reads one word, and
 * the formula is said above the headings. Programs load by the parts of formulas, row by row; and LibreOffice takes the
 * number stored beside a formula that is written out, where it works a shared one out anew after it opened a file.
 *
 * A column that looks at a row above keeps its formula: a name can't. So does one whose formula would be too long in a name, and one above whose
 * headings something stands.
 *
 * @param sheet any sheet; those that people look at stay as they are
 * @param days days that the workbook holds
 * @returns the sheet with such columns named, and a label above each
 */
export function withNamedColumns(sheet: SheetModel, days: number): SheetModel {
  if (!WORKINGS.includes(sheet.name)) return sheet;
  const taken = new Set(sheet.cells.map(({ at }) => at));
  const texts: Cell[] = [];
  const formulaColumns = sheet.formulaColumns.map((column) => {
    const { formula, letters, firstRow, rows } = column;
    const above = `${letters}${TEXT_ROW}`;
    if (typeof formula === 'function' || rows < Math.min(days, BLOCK_ROWS) || taken.has(above)) return column;
    const [name, is] =
      formula.kind === 'named' ? [formula.name, formula.is] : [columnName(sheet.name, column.label), formula];
    const text = columnFormula(sheet.name, { ...column, formula: is }, firstRow);
    if (formula.kind !== 'named' && !mayStandUnder(name, is, sheet.name, column)) return column;
    texts.push(label(above, text, 'hint'));
    return { ...column, formula: named(name, is) };
  });
  return { ...sheet, cells: [...sheet.cells, ...texts], formulaColumns };
}

/** `days_lowest_rate_tariff_1`: the sheet that says it, and what it says. */
function columnName(sheet: string, text: string): string {
  const words = `${sheet} ${text}`.replaceAll('’', '').match(/[A-Za-z0-9]+/g) ?? [];
  return words.join('_').toLowerCase();
}

/**
 * Whether a formula gains by a name, and can stand under it. A name is told from the first row of a sheet: there is no row above, and
 * a range that begins at a fixed row and ends at the formula's would run backwards.
 */
function mayStandUnder(name: string, is: Node, sheet: string, column: FormulaColumn): boolean {
  const row = column.firstRow + 1;
  const text = columnFormula(sheet, column, row);
  const looksUp = [...text.matchAll(/(?<![A-Z])\$?[A-Z]{1,3}(\d+)/g)].some(([, at]) => Number(at) < row);
  const growsDown = /\$\d+:\$?[A-Z]{1,3}\d/.test(text);
  if (text.length <= Math.max(SHORT, name.length) || looksUp || growsDown) return false;
  return printFormula(is, { sheet: '', row: 1, column: 1 }).length <= LONG;
}
