import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assertCellsEqual, compareCells } from './compare-cells.js';
import { beyondIronCalc, evaluateFormulas, loadIronCalc } from './ironcalc.js';
import { sampleWorkbook } from './sample-workbook.js';

describe('the in-process engine', () => {
  it('agrees with every kind of stored value', async () => {
    const file = await sampleWorkbook();
    assertCellsEqual(compareCells(file, loadIronCalc(file).result()), 57);
  });

  it('finds a wrong stored value', async () => {
    const file = await sampleWorkbook((workbook) => {
      workbook.getWorksheet('Results')!.getCell('A3').value = {
        formula: "NOT('Inputs & rates'!A3)",
        result: true,
      };
    });
    expect(compareCells(file, loadIronCalc(file).result()).mismatches).toEqual([
      { sheet: 'Results', cell: 'A3', stored: true, engine: false },
    ]);
  });

  it('recalculates after an input changes', async () => {
    const { book } = loadIronCalc(await sampleWorkbook());
    book.setCells([{ sheet: 'Inputs & rates', cell: 'A1', value: 30 }]);
    expect(book.values().get('Results')!.get('A1').value).toBe(10);
    expect(book.values().get('Results')!.get('D50').value).toBeCloseTo((50 / 7) * 30 + 1 / 7, 12);
  });

  it('sets aside, with the reason, what is beyond it, and still calculates what depends on it', async () => {
    const file = await sampleWorkbook((workbook) => {
      const results = workbook.getWorksheet('Results')!;
      results.getCell('F1').value = { formula: 'SUM(INDEX(C1:C50,1):INDEX(C1:C50,2))', result: 3 / 7 };
      results.getCell('F2').value = { formula: 'SUMPRODUCT(--ISNUMBER(C1:C50))', result: 50 };
      results.getCell('F3').value = { formula: 'F1*F2', result: 150 / 7 };
    });
    const { unsupported, result } = loadIronCalc(file);
    expect([...unsupported.keys()]).toEqual(['Results!F1', 'Results!F2']);
    const comparison = compareCells(file, result());
    expect(comparison).toMatchObject({ mismatchCount: 0, cellsCompared: 58, cellsUnsupported: 2 });
  });

  it.each([
    ['SUM(INDEX(A:A,B1):INDEX(A:A,C1))', true],
    ['MAX(INDEX(A:A,MATCH(B1,C:C,0)):B9)', true],
    ['SUMPRODUCT((ISTEXT(A1:A9))*(B1:B9>0))', true],
    ['INDEX(A1:A9,3)+SUM(B1:B9)', false],
    ['IF(A1=1,"x:INDEX(",2)', false],
    ['SUMPRODUCT(A1:A9,B1:B9)+ISNUMBER(A1)', false],
  ])('tells from the formula %s whether it is beyond the engine: %s', (formula, beyond) => {
    expect(beyondIronCalc(formula) !== undefined).toBe(beyond);
  });

  it('gives numbers to 1e-12 of their size', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.double({ min: -1e15, max: 1e15, noNaN: true }).filter((x) => x === 0 || Math.abs(x) > 1e-90),
          {
            minLength: 1,
            maxLength: 50,
          },
        ),
        (numbers) => {
          const cells = evaluateFormulas(
            numbers.flatMap((value, index) => [
              { ref: `A${index + 1}`, value },
              { ref: `B${index + 1}`, formula: `A${index + 1}/3` },
            ]),
          );
          numbers.forEach((value, index) => {
            const read = cells.get(`B${index + 1}`)!.value as number;
            expect(Math.abs(read - value / 3)).toBeLessThanOrEqual(1e-12 * Math.abs(value / 3));
          });
        },
      ),
      { numRuns: 40, seed: 11 },
    );
  });

  it('gives the serial number of a date and the share of a percentage, and numbers of any size', () => {
    const cells = evaluateFormulas([
      { ref: 'A1', formula: 'DATE(2024,1,15)+0.25' },
      { ref: 'A2', formula: '5%' },
      { ref: 'A3', formula: '1E+200/3' },
    ]);
    expect(cells.get('A1')!.value).toBeCloseTo(45306.25, 8);
    expect(cells.get('A2')!.value).toBe(0.05);
    expect(cells.get('A3')!.value).toBe(1e200 / 3);
  });

  it('takes a text for a text, whatever it looks like', () => {
    const cells = evaluateFormulas([
      { ref: 'A1', value: '=1+1' },
      { ref: 'A2', value: '007' },
      { ref: 'B1', formula: 'A1&A2' },
      { ref: 'B2', formula: 'ISBLANK(A3)' },
    ]);
    expect(cells.get('B1')!.value).toBe('=1+1007');
    expect(cells.get('B2')!.value).toBe(true);
  });
});
