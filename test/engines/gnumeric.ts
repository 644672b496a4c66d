import { execFile } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import { SheetValues } from '../../scripts/lib/calc/sheet-values.js';
import { scaledLimitMs } from '../../scripts/lib/calc/time-limit.js';
import type { EngineResult } from './compare-cells.js';
import { readStoredWorkbook, type StoredCell, type StoredSheet } from './stored-cells.js';

/**
 * Has Gnumeric calculate every formula of a workbook again.
 *
 * @param path the .xlsx; it is not changed
 * @param timeoutMs default 240 s, more where the machine is busy or slow
 * @returns its values in the shape that `compareCells` takes
 * @throws Error with what `ssconvert` printed where it cannot load the file
 */
export async function recalculateWithGnumeric(
  path: string,
  timeoutMs = scaledLimitMs(240_000),
): Promise<EngineResult> {
  const folder = await mkdtemp(join(tmpdir(), 'gnumeric-'));
  try {
    const saved = join(folder, 'recalculated.xlsx');
    await convert(resolve(path), saved, folder, timeoutMs);
    // Gnumeric saves numbers with more digits than a double has, so nothing is lost on this way.
    const values = new Map(readStoredWorkbook(saved).sheets.map((sheet) => [sheet.name, valuesOf(sheet)]));
    return { engine: 'Gnumeric', values };
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

async function convert(from: string, to: string, home: string, timeout: number): Promise<void> {
  try {
    await promisify(execFile)('ssconvert', ['--import-type=Gnumeric_Excel:xlsx', '--recalc', from, to], {
      timeout,
      killSignal: 'SIGKILL',
      maxBuffer: 1 << 26,
      // Its settings and caches go to a folder that is thrown away.
      env: { ...process.env, HOME: home, LC_ALL: 'C.UTF-8', DISPLAY: '' },
    });
  } catch (error) {
    const { killed, stderr } = error as { killed?: boolean; stderr?: string };
    const why = killed ? `it gave no answer within ${timeout / 1000} s` : stderr?.trim() || String(error);
    throw new Error(`Gnumeric could not recalculate ${from}: ${why}`);
  }
}

function valuesOf(sheet: StoredSheet): SheetValues {
  const cells: StoredCell[] = [...sheet.cells()];
  const rows = cells.reduce((most, { row }) => Math.max(most, row), 0);
  const columns = cells.reduce((most, { column }) => Math.max(most, column), 0);
  const values = SheetValues.empty(sheet.name, rows, columns);
  for (const { row, column, kind, value, formula } of cells) {
    values.set(row, column, kind, value, formula !== undefined);
  }
  return values;
}
