import { describe, expect, it } from 'vitest';
import { formatVerification } from '../../../src/cli/format-verification.js';
import { fillWorkbook } from '../../../src/workbook/fill/fill-workbook.js';
import { SHEETS } from '../../../src/workbook/layout.js';
import { ratePeriodRows, tariffLetters } from '../../../src/workbook/model/tariff-rows.js';
import { openWorkbookPackage } from '../../../src/workbook/package/index.js';
import { type Verification, verifyWorkbook } from '../../../src/workbook/verify/verify-workbook.js';
import { formulaCell, numberCell, sheetPart, withCells, withParts } from '../edit-package.js';
import { OWN_FORMULAS } from '../lived-in-workbook.js';
import { filledMonth, livedInMonth } from '../template.js';

const FILE = 'home.xlsx';

/** Names of the cells that differ, by what is wrong with them. */
function namesOf({ sheets }: Verification): { altered: string[]; differing: string[] } {
  const name = ({ sheet, cell }: { sheet: string; cell: string }): string => `${sheet}!${cell}`;
  return {
    altered: sheets.flatMap(({ altered }) => altered.map(name)),
    differing: sheets.flatMap(({ differing }) => differing.map(name)),
  };
}

describe('verifying a workbook', () => {
  it('agrees with one that nobody touched, and has looked at every formula in it', async () => {
    const bytes = await filledMonth();
    const verification = verifyWorkbook(bytes, FILE);
    expect(namesOf(verification)).toEqual({ altered: [], differing: [] });
    const workbook = openWorkbookPackage(bytes, FILE);
    const formulas = workbook
      .sheetNames()
      .map((sheet) => String(workbook.readPart(sheetPart(bytes, sheet))).match(/<f[ >]/g)?.length ?? 0);
    expect(verification.compared).toBe(formulas.reduce((sum, count) => sum + count, 0));
    expect(formatVerification(verification)).toBe(
      `${verification.compared.toLocaleString('en-GB')} formula cells compared: all agree.\n`,
    );
  });

  it('leaves the user’s own formulas alone, and says how many there are on its sheets', async () => {
    const verification = verifyWorkbook(await livedInMonth(), FILE);
    expect(namesOf(verification)).toEqual({ altered: [], differing: [] });
    const beside = OWN_FORMULAS.filter(([sheet]) => sheet === 'Tariffs' || sheet === 'Months').length;
    expect(formatVerification(verification)).toContain(
      `(${beside} formulas of your own on these sheets were left alone): all agree.`,
    );
  });

  it('refuses one that counts dates from 1904, as the fill does', async () => {
    const bytes = withParts(await filledMonth(), {
      'xl/workbook.xml': (xml) => xml.replace(/<workbookPr[^>]*\/>/, '<workbookPr date1904="1"/>'),
    });
    expect(() => verifyWorkbook(bytes, FILE)).toThrow(
      'home.xlsx: the workbook counts dates from 1904. Switch the 1904 date system off',
    );
  });

  it('names each cell that was changed, typed over or deleted', async () => {
    const changed = withCells(await filledMonth(), {
      [SHEETS.tariffs]: {
        D9: numberCell('D9', 4.5),
        E9: formulaCell('E9', 'Months!$W$24', 3),
        F9: '',
      },
    });
    const stored = withParts(changed, {
      [sheetPart(changed, SHEETS.answer)]: (xml) =>
        xml.replace(/(<c r="A2"[^>]*>.*?<v>)[^<]*/, '$1Stay where you are.'),
      [sheetPart(changed, SHEETS.days)]: (xml) => xml.replace(/(<c r="E9"[^>]*>.*?<v>)[^<]*/, '$1123.25'),
      [sheetPart(changed, SHEETS.months)]: (xml) => xml.replace(/(<c r="F8"[^>]*>.*?)<v>[^<]*<\/v>/, '$1'),
      [sheetPart(changed, SHEETS.halfHours)]: (xml) =>
        xml.replace(/(<c r="E19000"[^>]*>.*?<v>)[^<]*/, '$10.001').replace(/<c r="P20007".*?<\/c>/, ''),
    });
    const verification = verifyWorkbook(stored, FILE);
    expect(verification.agrees).toBe(false);
    expect(namesOf(verification)).toEqual({
      altered: ['Tariffs!D9', 'Tariffs!E9', 'Tariffs!F9', 'Grid!P20007'],
      differing: ['Answer!A2', 'Grid!E19000', 'Days!E9', 'Months!F8'],
    });
    const lines = formatVerification(verification).trimEnd().split('\n');
    expect(lines).toContain('Tariffs!D9: the formula was overwritten; it holds 4.5');
    expect(lines).toContain('Tariffs!E9: the formula was overwritten; it holds =Months!$W$24');
    expect(lines).toContain('Tariffs!F9: the formula was overwritten; it holds nothing');
    expect(lines).toContain('Grid!E19000: holds 0.001, the library works out 0');
    expect(lines.find((line) => line.startsWith('Answer!A2'))).toMatch(
      /^Answer!A2: holds "Stay where you are\.", the library works out "/,
    );
    expect(lines).toContain(
      'Months!F8: no stored value; the spreadsheet program works it out when it opens the file',
    );
    expect(lines.at(-1)).toMatch(/formula cells compared: 8 differ\.$/);
  });

  it('names every cell that depends on a rate that was changed without a recalculation', async () => {
    const rate = `${tariffLetters(0)}${ratePeriodRows(4).base}`;
    const changed = withCells(await filledMonth(), { [SHEETS.tariffs]: { [rate]: numberCell(rate, 99) } });
    const { altered, differing } = namesOf(verifyWorkbook(changed, FILE));
    expect(altered).toEqual([]);
    expect(differing).toContain('Tariffs!C9');
    expect(differing).not.toContain('Tariffs!D9');
  });

  it('says in a line what many cells without a stored value have in common', async () => {
    const overwritten = withCells(await filledMonth(), { [SHEETS.tariffs]: { D9: numberCell('D9', 99) } });
    const filled = fillWorkbook(overwritten, FILE, undefined);
    const text = formatVerification(verifyWorkbook(filled.bytes, FILE));
    const lines = text.trimEnd().split('\n');
    expect(lines).toContain('Tariffs!D9: the formula was overwritten; it holds 99');
    expect(lines.filter((line) => line.startsWith('Grid'))).toEqual([
      expect.stringMatching(
        /^Grid: none of its \d{3},\d{3} formulas has a stored value; the spreadsheet program works them out when it opens the file$/,
      ),
    ]);
    expect(lines.length).toBeLessThan(60);
  });
});
