import { resolve } from 'node:path';
import { type CellSetting, startCalc } from './start-calc.js';

export interface CalcTimings {
  /** Opening the file, with a calculation of every formula where `recalculateOnLoad` says so. */
  loadMs: number;
  /** Calculating every formula again. */
  recalculateAllMs: number;
  /** One changed input until everything that depends on it is calculated; median of the changes. */
  changeMs: number;
}

/**
 * Times what a person who opens and edits the workbook waits for, inside LibreOffice and without a screen.
 *
 * @param workbookPath the .xlsx or .ods
 * @param changes the same input with values to set in turn, for example a rate up and down again
 * @param recalculateOnLoad default `never`, as for a person who opens a file that carries its values
 */
export async function measureCalc(
  workbookPath: string,
  changes: readonly CellSetting[],
  recalculateOnLoad: 'always' | 'never' = 'never',
): Promise<CalcTimings> {
  const calc = await startCalc({ recalculateOnLoad });
  try {
    const document = await calc.open(resolve(workbookPath));
    const recalculateAllMs = await document.recalculateAll();
    const times: number[] = [];
    for (const change of changes) times.push(await document.setCells([change]));
    times.sort((a, b) => a - b);
    return {
      loadMs: document.loadMs,
      recalculateAllMs,
      changeMs: times[Math.floor(times.length / 2)] ?? Number.NaN,
    };
  } finally {
    await calc.stop();
  }
}
