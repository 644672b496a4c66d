import { openWorkbookPackage } from '../../../src/workbook/package/index.js';
import { median } from './measure.js';

/** What a workbook's formulas amount to, counted in the file. */
export interface WorkbookFigures {
  formulaCells: number;
  /** Formulas that differ in more than the place they were copied to. */
  distinctFormulas: number;
  /** Length of the longest formula as any cell shows it, characters without the equals sign. */
  longestCharacters: number;
  /** A cell that shows it, for example `Months!C7`; empty where there is no formula. */
  longestCell: string;
  /** Median length of the distinct formulas, each as the first cell that has it shows it; NaN where there is none. */
  medianCharacters: number;
}

/**
 * Counts the formulas of a workbook. A formula that was copied down or across, shared or written out, counts once among
 * the distinct ones, in whatever sheets it stands.
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
  for (const sheet of workbook.sheetNames()) {
    const cells = workbook.readSheet(sheet);
    while (cells.next()) {
      const { formula } = cells;
      if (formula === undefined) continue;
      formulaCells++;
      if (formula.length > longestCharacters) {
        longestCharacters = formula.length;
        longestCell = `${sheet}!${cells.name}`;
      }
      const form = cells.comparableFormula!;
      if (!lengths.has(form)) lengths.set(form, formula.length);
    }
  }
  const medianCharacters = median([...lengths.values()]);
  return { formulaCells, distinctFormulas: lengths.size, longestCharacters, longestCell, medianCharacters };
}
