import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import ExcelJS from 'exceljs';
import { findCalc } from '../calc/find-calc.js';
import { type CalcPlan, type CalcTimings, measureCalc } from '../calc/measure-calc.js';
import { buildWithDays } from './build-with-days.js';
import { calcLines, yearsLine } from './calc-lines.js';
import { MeasuredProcess } from './child-process.js';
import { batteryCapacityCell, rateCell } from './find-cells.js';
import { type Measured, skipped } from './measure.js';
import { withoutFormulas } from './without-formulas.js';

/** What to measure in LibreOffice. */
export interface CalcSubjects {
  /** Path of a filled year. */
  filled: string;
  /** Path of a filled year of an earlier shape to hold it against. */
  earlier: string | undefined;
  /** How many years the workbook of several holds. */
  years: number;
  /** Where workbooks go that are made on the way. */
  folder: string;
}

/** Every workbook is measured this often, in turn with the others, so that all see the same machine. */
const ROUNDS = 3;
const RATES_PENCE = [28.5, 29, 27.75, 30, 28.31];
const HALF_HOURS_OF_A_YEAR = 17_520;

/**
 * Measures a filled year in LibreOffice: load, recalculation, changes, memory, save.
 *
 * @param subjects the workbooks
 * @param onStep told what is being done
 * @returns the lines; one that says why, where LibreOffice is missing
 */
export async function measureInCalc(
  { filled, earlier, years, folder }: CalcSubjects,
  onStep: (step: string) => void,
): Promise<Measured[]> {
  const calc = findCalc();
  if ('missing' in calc) return [skipped('LibreOffice', calc.missing)];
  const warmUpWith = await smallWorkbook(folder);
  onStep(`building and filling ${years} years`);
  const several = await severalYears(years, folder);
  const subjects: { kind: keyof typeof rounds; path: string; plan: CalcPlan }[] = [
    { kind: 'filled', path: filled, plan: editPlan(filled) },
    ...(earlier === undefined ? [] : [{ kind: 'earlier' as const, path: earlier, plan: editPlan(earlier) }]),
    { kind: 'bare', path: bareWorkbook(filled, folder), plan: {} },
    ...('missing' in several ? [] : [{ kind: 'several' as const, path: several.path, plan: {} }]),
  ];
  const rounds = { filled: [], earlier: [], bare: [], several: [] } as Record<
    'filled' | 'earlier' | 'bare' | 'several',
    CalcTimings[]
  >;
  for (let round = 1; round <= ROUNDS; round++) {
    for (const { kind, path, plan } of subjects) {
      onStep(`LibreOffice, ${STEP_NAMES[kind]}, ${round} of ${ROUNDS}`);
      // Processor time and size of a save hardly differ from one to the next, and an old shape takes a minute.
      const isSaved = round === ROUNDS && plan.changes !== undefined;
      const save = isSaved ? { saveTo: join(folder, `saved-${kind}.xlsx`) } : {};
      rounds[kind].push(await measureCalc(path, { ...plan, ...save, warmUpWith }));
    }
  }
  return [
    ...calcLines({ ...rounds, earlier: earlier === undefined ? undefined : rounds.earlier }),
    'missing' in several
      ? skipped(`Load ${years} years / one`, several.missing)
      : yearsLine(years, rounds.several, rounds.filled),
  ];
}

const STEP_NAMES = {
  filled: 'a year',
  earlier: 'the earlier workbook',
  bare: 'no formulas',
  several: 'several years',
};

/** A rate up and down, then the same with the battery's usable capacity at 0. */
function editPlan(path: string): CalcPlan {
  const bytes = readFileSync(path);
  const rate = rateCell(bytes);
  const capacity = batteryCapacityCell(bytes);
  return {
    changes: RATES_PENCE.map((value) => ({ sheet: rate.sheet, cell: rate.cell, value })),
    switchOff: { sheet: capacity.sheet, cell: capacity.cell, value: 0 },
  };
}

function bareWorkbook(filled: string, folder: string): string {
  const { bytes, keptValues } = withoutFormulas(readFileSync(filled));
  if (keptValues < 2 * HALF_HOURS_OF_A_YEAR) {
    throw new Error(`${filled} holds ${keptValues} typed values: that is no year of half-hours`);
  }
  const path = join(folder, 'bare.xlsx');
  writeFileSync(path, bytes);
  return path;
}

async function severalYears(years: number, folder: string): Promise<{ path: string } | { missing: string }> {
  const empty = join(folder, 'several-empty.xlsx');
  const missing = await buildWithDays(Math.ceil(years * 366), empty);
  if (missing !== undefined) return { missing };
  const path = join(folder, 'several.xlsx');
  await MeasuredProcess.once({ kind: 'fill', workbook: empty, out: path, years });
  return { path };
}

async function smallWorkbook(folder: string): Promise<string> {
  const workbook = new ExcelJS.Workbook();
  workbook.addWorksheet('Small').getCell('A1').value = { formula: '1+1', result: 2 };
  const path = join(folder, 'small.xlsx');
  await workbook.xlsx.writeFile(path);
  return path;
}
