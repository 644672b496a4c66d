import { openWorkbookPackage } from '../../../src/workbook/package/index.js';
import { median } from './measure.js';

/** What a workbook's formulas amount to, counted in the file. */
export interface WorkbookFigures {
  formulaCells: number;
  /** Formulas that differ in more than the place they were copied to, of cells and of names. */
  distinctFormulas: number;
  /** Length of the longest formula as any cell shows it, characters without the equals sign. */
  longestCharacters: number;
  /** A cell that shows it, for example `Months!C7`, or its name; empty where there is no formula. */
  longestCell: string;
  /** Median length of the distinct formulas, each as the first cell that has it shows it; NaN where there is none. */
  medianCharacters: number;
}

/** What a name of cells has none of: a call, or an operator. */
const FORMULA_SIGN = /[(+*/&<>=]/;

/**
 * Counts the formulas of a workbook. A formula that was copied down or across, shared or written out, counts once among
 * the distinct ones, in whatever sheets it stands. A formula that stands under a name counts for what it is, and a cell that shows nothing but the
 * name is no formula beside it.
 *
 * @param bytes the .xlsx file
 * @returns counts and lengths
 * @throws InputError where the file can't be read
 */
export function workbookFigures(bytes: Uint8Array): WorkbookFigures {
  const workbook = openWorkbookPackage(bytes, 'workbook');
  const lengths = new Map<string, number>();
  let formulaCells = 0;
  let longestCharacters = 0;
  let longestCell = '';
  const named = new Map<string, string>();
  for (const { name, text } of workbook.definedNames()) {
    if (FORMULA_SIGN.test(text)) named.set(name.toLowerCase(), text);
  }
  const longer = (formula: string, place: string): void => {
    if (formula.length <= longestCharacters) return;
    longestCharacters = formula.length;
    longestCell = place;
  };
  for (const sheet of workbook.sheetNames()) {
    const cells = workbook.readSheet(sheet);
    while (cells.next()) {
      const { formula } = cells;
      if (formula === undefined) continue;
      formulaCells++;
      longer(formula, `${sheet}!${cells.name}`);
      const form = cells.comparableFormula!;
      if (!lengths.has(form) && !named.has(formula.toLowerCase())) lengths.set(form, formula.length);
    }
  }
  for (const [name, text] of named) {
    longer(text, name);
    lengths.set(`name ${name}`, text.length);
  }
  const medianCharacters = median([...lengths.values()]);
  return { formulaCells, distinctFormulas: lengths.size, longestCharacters, longestCell, medianCharacters };
}
