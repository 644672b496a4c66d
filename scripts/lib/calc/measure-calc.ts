import { statSync } from 'node:fs';
import { resolve } from 'node:path';
import { officeUsage } from './office-usage.js';
import { type Calc, type CalcDocument, type CellSetting, startCalc } from './start-calc.js';

/** What to measure beside load and recalculation. */
export interface CalcPlan {
  /** The same input with values to set in turn, for example a rate up and down again. */
  changes?: readonly CellSetting[];
  /** Switches a part of the workbook off, whereupon the changes are timed once more. */
  switchOff?: CellSetting;
  /** A small workbook to open and close first, so that what every process loads once is no part of the figures. */
  warmUpWith?: string;
  /** Where LibreOffice saves the workbook as .xlsx; by default it doesn't. */
  saveTo?: string;
  /** Default `never`, as for a person who opens a file that carries its values. */
  recalculateOnLoad?: 'always' | 'never';
}

/** Times are ms inside LibreOffice. What wasn't asked for, or the system can't tell, is left out. */
export interface CalcTimings {
  /** Opening the file, with a calculation of every formula where `recalculateOnLoad` says so. */
  loadMs: number;
  /** Calculating every formula again. */
  recalculateAllMs: number;
  /** One changed input until everything that depends on it is calculated; median of the changes. */
  changeMs?: number;
  /** The same after the switch. */
  changeSwitchedOffMs?: number;
  /** Most memory that the process held while it loaded and recalculated, MB (of 1,000,000 bytes). */
  peakMegabytes?: number;
  /** Processor time of saving as .xlsx, s. */
  saveCpuSeconds?: number;
  /** Size of what it saved, MB (of 1,000,000 bytes). */
  savedMegabytes?: number;
}

/**
 * Measures what a person who opens and edits the workbook waits for, inside LibreOffice and without a screen. Each call
 * starts a process of its own, so that its memory is its own.
 *
 * @param workbookPath the .xlsx or .ods
 * @param plan what to change and where to save
 */
export async function measureCalc(workbookPath: string, plan: CalcPlan = {}): Promise<CalcTimings> {
  const { changes = [], switchOff, warmUpWith, saveTo, recalculateOnLoad = 'never' } = plan;
  const calc = await startCalc({ recalculateOnLoad });
  try {
    if (warmUpWith !== undefined) await (await calc.open(resolve(warmUpWith))).close();
    const document = await calc.open(resolve(workbookPath));
    const timings: CalcTimings = {
      loadMs: document.loadMs,
      recalculateAllMs: await document.recalculateAll(),
    };
    const usage = officeUsage(calc.officeProcess);
    if (usage !== undefined) timings.peakMegabytes = usage.peakMegabytes;
    if (changes.length > 0) timings.changeMs = await changesMs(document, changes);
    if (saveTo !== undefined) Object.assign(timings, await measureSave(calc, document, saveTo));
    if (switchOff !== undefined) {
      await document.setCells([switchOff]);
      timings.changeSwitchedOffMs = await changesMs(document, changes);
    }
    return timings;
  } finally {
    await calc.stop();
  }
}

async function changesMs(document: CalcDocument, changes: readonly CellSetting[]): Promise<number> {
  const times: number[] = [];
  for (const change of changes) times.push(await document.setCells([change]));
  times.sort((a, b) => a - b);
  return times[Math.floor(times.length / 2)] ?? Number.NaN;
}

async function measureSave(
  calc: Calc,
  document: CalcDocument,
  path: string,
): Promise<Pick<CalcTimings, 'saveCpuSeconds' | 'savedMegabytes'>> {
  const before = officeUsage(calc.officeProcess);
  await document.saveAs(resolve(path), 'xlsx');
  const after = officeUsage(calc.officeProcess);
  return {
    ...(before && after ? { saveCpuSeconds: after.cpuSeconds - before.cpuSeconds } : {}),
    savedMegabytes: statSync(path).size / 1e6,
  };
}
