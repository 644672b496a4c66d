import ExcelJS from 'exceljs';
import { describe, expect, it } from 'vitest';
import { workbookFigures } from '../../../scripts/lib/bench/workbook-figures.js';
import { withParts } from '../../workbook/edit-package.js';

async function workbookOf(
  sheets: Record<string, (sheet: ExcelJS.Worksheet) => unknown>,
): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  for (const [name, fill] of Object.entries(sheets)) fill(workbook.addWorksheet(name));
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}
const put = (sheet: ExcelJS.Worksheet, cell: string, formula: string): void => {
  sheet.getCell(cell).value = { formula, result: 1 };
};

describe('the figures of a workbook’s formulas', () => {
  it('count every formula cell, and one copied down or across once among the distinct', async () => {
    const bytes = await workbookOf({
      One: (sheet) => {
        sheet.getCell('A1').value = 5;
        for (let row = 1; row <= 10; row++) put(sheet, `B${row}`, `$A$1*A${row}`);
        put(sheet, 'C1', '$A$1*B1');
        sheet.fillFormula('D1:D10', 'A1+1', () => 1);
      },
      Two: (sheet) => put(sheet, 'B3', '$a$1 * A3'),
    });
    // $A$1*A1 of B1:B10, C1 and Two!B3 is one; A1+1 of D1:D10 the other.
    expect(workbookFigures(bytes)).toMatchObject({ formulaCells: 22, distinctFormulas: 2 });
  });

  it('take the longest formula as any cell shows it, a follower of a shared one too', async () => {
    const bytes = await workbookOf({
      Long: (sheet) => {
        sheet.fillFormula('B1:B1000', 'A1*2', () => 1);
        put(sheet, 'C1', 'A1*33');
      },
    });
    expect(workbookFigures(bytes)).toMatchObject({
      longestCharacters: 'A1000*2'.length,
      longestCell: 'Long!B1000',
    });
  });

  it('take the median over the distinct ones, so that copies of a short one don’t hide long ones', async () => {
    const bytes = await workbookOf({
      Sheet: (sheet) => {
        for (let row = 1; row <= 50; row++) put(sheet, `B${row}`, `A${row}`);
        put(sheet, 'C1', '1+A1+1');
        put(sheet, 'C2', '22+A2+22+22');
      },
    });
    expect(workbookFigures(bytes).medianCharacters).toBe('1+A1+1'.length);
  });

  it('take a formula under a name for what it is, not for the name that its cells show', async () => {
    const workbook = new ExcelJS.Workbook();
    const sheet = workbook.addWorksheet('Sheet');
    for (let row = 1; row <= 50; row++) put(sheet, `B${row}`, 'twice');
    put(sheet, 'C1', '1+A1+1');
    workbook.definedNames.add('Sheet!$A$1:$A$50', 'cells_only');
    const bytes = new Uint8Array(await workbook.xlsx.writeBuffer());
    const named = withParts(bytes, {
      'xl/workbook.xml': (xml) =>
        xml.replace(
          '</definedNames>',
          '<definedName name="twice">Sheet!$A1*2+SUM(cells_only)</definedName></definedNames>',
        ),
    });
    expect(workbookFigures(named)).toEqual({
      formulaCells: 51,
      distinctFormulas: 2,
      longestCharacters: 'Sheet!$A1*2+SUM(cells_only)'.length,
      longestCell: 'twice',
      // Of two the upper.
      medianCharacters: 'Sheet!$A1*2+SUM(cells_only)'.length,
    });
  });

  it('are none for a workbook without formulas', async () => {
    const bytes = await workbookOf({
      Plain: (sheet) => {
        sheet.getCell('A1').value = '=A2';
      },
    });
    expect(workbookFigures(bytes)).toEqual({
      formulaCells: 0,
      distinctFormulas: 0,
      longestCharacters: 0,
      longestCell: '',
      medianCharacters: Number.NaN,
    });
  });
});
