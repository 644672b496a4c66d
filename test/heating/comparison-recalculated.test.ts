import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, it } from 'vitest';
import { describeWithCalc, describeWithGnumeric } from '../engines/availability.js';
import { assertCellsEqual, compareCells, type EngineResult } from '../engines/compare-cells.js';
import { recalculateWithGnumeric } from '../engines/gnumeric.js';
import { loadIronCalc } from '../engines/ironcalc.js';
import { type Calc, startCalc } from '../engines/libreoffice.js';
import { COMPARISON_CASES } from './comparison-cases.js';
import { comparisonWorkbook } from './comparison-workbook.js';

async function eachCase(
  recalculate: (file: Uint8Array, path: string) => Promise<EngineResult>,
): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'heating-'));
  try {
    for (const [index, inputs] of Object.values(COMPARISON_CASES).entries()) {
      const file = await comparisonWorkbook(inputs);
      const path = join(folder, `case-${index}.xlsx`);
      writeFileSync(path, file);
      try {
        assertCellsEqual(compareCells(file, await recalculate(file, path)), 100);
      } catch (error) {
        throw new Error(`${Object.keys(COMPARISON_CASES)[index]}: ${(error as Error).message}`);
      }
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

describe('every line of the heating comparison, recalculated', () => {
  it('in the in-process engine', () => eachCase(async (file) => loadIronCalc(file).result()), 60_000);
});

describeWithCalc('every line of the heating comparison, recalculated', () => {
  it('in LibreOffice', async () => {
    const calc: Calc = await startCalc();
    try {
      await eachCase(async (_, path) => {
        const document = await calc.open(path);
        const values = await document.readAll();
        await document.close();
        return { engine: 'LibreOffice', values };
      });
    } finally {
      await calc.stop();
    }
  }, 60_000);
});

describeWithGnumeric('every line of the heating comparison, recalculated', () => {
  it('in Gnumeric', () => eachCase(async (_, path) => recalculateWithGnumeric(path)), 60_000);
});
