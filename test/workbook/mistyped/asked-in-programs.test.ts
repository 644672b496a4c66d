import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { SHEETS } from '../../../src/workbook/layout.js';
import { describeWithCalc, describeWithGnumeric } from '../../engines/availability.js';
import { assertCellsEqual, compareCells, type EngineResult } from '../../engines/compare-cells.js';
import { recalculateWithGnumeric } from '../../engines/gnumeric.js';
import { recalculateWithCalc } from '../../engines/libreoffice.js';
import { ASKED_OF_SLIPS, withSlips, written } from './slips-typed.js';

/** So many formula cells at least: a comparison that finds few has gone blind. */
const LEAST_CELLS = 50_000;

let folder: string;
let path: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'slips-'));
  path = await written(await withSlips(), folder);
});
afterAll(() => rm(folder, { recursive: true, force: true }));

/** What the checks that ask found, and what they say. */
function askedIn({ values }: EngineResult): Record<string, unknown> {
  const checks = values.get(SHEETS.checks)!;
  const at = (cell: string): unknown => checks.get(cell)?.value;
  return Object.fromEntries(
    Array.from({ length: 120 }, (_, i) => i + 6).flatMap((row) => {
      const name = String(at(`A${row}`));
      return name in ASKED_OF_SLIPS ? [[name, [at(`B${row}`), at(`D${row}`), at(`C${row}`)]]] : [];
    }),
  );
}
const expected = Object.fromEntries(
  Object.entries(ASKED_OF_SLIPS).map(([name, [found, asks]]) => [
    name,
    [found, `${asks} It counts as typed.`, 'look'],
  ]),
);

describeWithCalc('what looks mistyped, in LibreOffice', () => {
  it('is counted and asked about in the same words, and every cell is as stored', async () => {
    const result = await recalculateWithCalc(path);
    expect(askedIn(result)).toEqual(expected);
    assertCellsEqual(compareCells(path, result), LEAST_CELLS);
  });
});

describeWithGnumeric('what looks mistyped, in Gnumeric', () => {
  it('is counted and asked about in the same words, and every cell is as stored', async () => {
    const result = await recalculateWithGnumeric(path);
    expect(askedIn(result)).toEqual(expected);
    assertCellsEqual(compareCells(path, result), LEAST_CELLS);
  });
});
