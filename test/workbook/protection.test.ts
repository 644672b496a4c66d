import { describe, expect, it } from 'vitest';
import { blankStart } from '../../src/workbook/fill/blank-start.js';
import { SHEETS, USUAL_DAYS } from '../../src/workbook/layout.js';
import { declareBook } from '../../src/workbook/model/book.js';
import type { SheetModel } from '../../src/workbook/model/sheet-model.js';
import { workbookModel } from '../../src/workbook/model/workbook-model.js';
import { openWorkbookPackage } from '../../src/workbook/package/index.js';
import { sheetPart } from './edit-package.js';
import { template } from './template.js';

const model = workbookModel(blankStart(), declareBook(USUAL_DAYS));
const textsOf = ({ cells }: SheetModel): string =>
  cells.map((cell) => (cell.kind === 'label' ? String(cell.value) : '')).join('\n');
/** What people paste into: rows and rows of cells under a heading. */
const PASTED: string[] = [SHEETS.gas, SHEETS.temperatures, SHEETS.readings];

describe('protection', () => {
  it('is on no sheet that months are pasted into: pasted cells bring their locks along', async () => {
    const bytes = await template();
    const workbook = openWorkbookPackage(bytes, 'home.xlsx');
    const isProtected = (sheet: string): boolean =>
      workbook.readPart(sheetPart(bytes, sheet))!.includes('<sheetProtection');
    expect(PASTED.filter(isProtected)).toEqual([]);
    const withColumns = model.filter(({ inputColumns, tab }) => tab === 'input' && inputColumns.length > 0);
    expect(withColumns.map(({ name }) => name).filter((name) => !PASTED.includes(name))).toEqual([]);
    expect(isProtected(SHEETS.months)).toBe(true);
  });

  it('is on every other sheet with formulas, without a password, and is said on it', async () => {
    const bytes = await template();
    const workbook = openWorkbookPackage(bytes, 'home.xlsx');
    for (const sheet of model) {
      const hasFormulas =
        sheet.formulaColumns.length > 0 || sheet.cells.some(({ kind }) => kind === 'formula');
      if (PASTED.includes(sheet.name)) {
        expect(sheet.protected).toBe(false);
        if (sheet.formulaColumns.length > 0)
          expect(textsOf(sheet)).toContain('Not protected, so that a paste');
        continue;
      }
      if (hasFormulas) expect(sheet, sheet.name).toMatchObject({ protected: true });
      if (!sheet.protected) continue;
      expect(textsOf(sheet), sheet.name).toContain('without a password');
      const [tag] = /<sheetProtection[^>]*>/.exec(
        workbook.readPart(sheetPart(bytes, sheet.name))!.toString(),
      ) ?? [''];
      expect(tag).toContain('sheet="1"');
      expect(tag).not.toMatch(/password|hash/i);
    }
  });
});
