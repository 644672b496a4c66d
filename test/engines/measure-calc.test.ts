import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { measureCalc } from '../../scripts/lib/calc/measure-calc.js';
import { officeUsage } from '../../scripts/lib/calc/office-usage.js';
import { describeWithCalc } from './availability.js';
import { sampleWorkbook } from './sample-workbook.js';
import { readStoredWorkbook } from './stored-cells.js';

describeWithCalc('what LibreOffice needs for a workbook', () => {
  let folder: string;
  let path: string;

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'measured-'));
    path = join(folder, 'book.xlsx');
    writeFileSync(path, await sampleWorkbook());
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('is measured for a load, a full calculation, changes with and without a part, and a save', async () => {
    const saveTo = join(folder, 'saved.xlsx');
    const timings = await measureCalc(path, {
      changes: [20, 30, 24.5].map((value) => ({ name: 'UnitRate', value })),
      switchOff: { sheet: 'Results', cell: 'C1', value: 0 },
      warmUpWith: path,
      saveTo,
    });
    const { saveCpuSeconds, savedMegabytes, ...positive } = timings;
    expect(Object.keys(positive).sort()).toEqual([
      'changeMs',
      'changeSwitchedOffMs',
      'loadMs',
      ...(process.platform === 'linux' ? ['peakMegabytes'] : []),
      'recalculateAllMs',
    ]);
    for (const figure of Object.values(positive)) expect(figure).toBeGreaterThan(0);
    expect(savedMegabytes).toBe(statSync(saveTo).size / 1e6);
    if (process.platform === 'linux') expect(saveCpuSeconds).toBeGreaterThanOrEqual(0);
    // Saved after the changes and before the switch.
    const results = readStoredWorkbook(saveTo).sheets.find(({ name }) => name === 'Results')!;
    const cells = new Map([...results.cells()].map((cell) => [cell.ref, cell.value]));
    expect(cells.get('C1')).toBeCloseTo(1 / 7, 12);
    expect(cells.get('A1')).toBeCloseTo(24.5 / 3, 12);
  });

  it('is told of processes that exist only', () => {
    if (process.platform !== 'linux') return;
    expect(() => officeUsage(process.pid)).toThrow('no soffice.bin');
  });
});
