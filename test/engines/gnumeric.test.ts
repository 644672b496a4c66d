import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { describeWithGnumeric } from './availability.js';
import { assertCellsEqual, compareCells } from './compare-cells.js';
import { recalculateWithGnumeric } from './gnumeric.js';
import { sampleWorkbook } from './sample-workbook.js';

describeWithGnumeric('Gnumeric', () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'engines-'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('agrees with every kind of stored value', async () => {
    const path = join(folder, 'right.xlsx');
    writeFileSync(path, await sampleWorkbook());
    assertCellsEqual(compareCells(path, await recalculateWithGnumeric(path)), 57);
  });

  it('finds wrong stored values, because it calculates them again', async () => {
    const path = join(folder, 'wrong.xlsx');
    const file = await sampleWorkbook((workbook) => {
      const results = workbook.getWorksheet('Results')!;
      results.getCell('A1').value = { formula: 'UnitRate/3', result: 99 };
      results.getCell('A6').value = { formula: 'IF(UnitRate>0,"","none")', result: 'none' };
    });
    writeFileSync(path, file);
    expect(compareCells(path, await recalculateWithGnumeric(path)).mismatches).toEqual([
      { sheet: 'Results', cell: 'A1', stored: 99, engine: 24.5 / 3 },
      { sheet: 'Results', cell: 'A6', stored: 'none', engine: '' },
    ]);
  });

  it('says what is wrong with a file that it cannot load', async () => {
    const path = join(folder, 'words.xlsx');
    writeFileSync(path, 'only words');
    await expect(recalculateWithGnumeric(path)).rejects.toThrow(`could not recalculate ${path}`);
  });
});
