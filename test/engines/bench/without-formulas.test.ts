import { strFromU8, unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { withoutFormulas } from '../../../scripts/lib/bench/without-formulas.js';
import { sampleWorkbook } from '../sample-workbook.js';
import { readStoredWorkbook } from '../stored-cells.js';

const cellsOf = (bytes: Uint8Array) =>
  readStoredWorkbook(bytes).sheets.flatMap(({ name, cells }) =>
    [...cells()].map(({ ref, kind, value, formula }) => ({ name, ref, kind, value, formula })),
  );

describe('a workbook without its formulas', () => {
  it('holds every input as it was, and no cell that was a formula', async () => {
    const whole = await sampleWorkbook((workbook) => {
      const sheet = workbook.getWorksheet('Inputs & rates')!;
      sheet.getCell('B1').value = 'a <c> and <f> in text';
      // A formatted blank cell right before a formula must not swallow it.
      sheet.getCell('C1').border = { top: { style: 'thin' } };
      sheet.getCell('D1').value = { formula: 'A1*2', result: 49 };
      sheet.getCell('E1').value = 7;
    });
    const bare = withoutFormulas(whole);
    const inputs = cellsOf(whole).filter(({ formula }) => formula === undefined);
    expect(cellsOf(bare.bytes)).toEqual(inputs);
    expect(bare.removedCells).toBe(cellsOf(whole).length - inputs.length);
    expect(bare.removedCells).toBe(58);
    expect(bare.keptValues).toBe(inputs.filter(({ kind }) => kind !== 'blank').length);
  });

  it('keeps every other part as it was', async () => {
    const whole = await sampleWorkbook();
    const [before, after] = [whole, withoutFormulas(whole).bytes].map((bytes) => unzipSync(bytes));
    expect(Object.keys(after!)).toEqual(Object.keys(before!));
    for (const [name, part] of Object.entries(before!)) {
      if (!name.startsWith('xl/worksheets/sheet')) expect(strFromU8(after![name]!)).toBe(strFromU8(part));
    }
  });
});
