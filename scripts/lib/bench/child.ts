import { readFileSync, writeFileSync } from 'node:fs';
import ExcelJS from 'exceljs';
import { fillFile } from '../../../src/cli/fill-file.js';
import { Progress } from '../../../src/cli/progress.js';
import { fillWorkbook } from '../../../src/workbook/fill/fill-workbook.js';
import { median } from './measure.js';
import { sampleReadings } from './sample-input.js';

/*
 * One measurement in a process of its own, so that its memory is its own:
 *   fill WORKBOOK OUT           fills the sample year; median time, cells written
 *   fill-files WORKBOOK OUT …   what the fill command does, once
 *   numbers COUNT               exceljs writes as many plain numbers; median time
 */
const RUNS = 3;

async function timed(work: () => unknown): Promise<number> {
  const started = performance.now();
  await work();
  return performance.now() - started;
}

async function medianOf(work: () => unknown): Promise<number> {
  await work();
  const times: number[] = [];
  for (let run = 0; run < RUNS; run++) times.push(await timed(work));
  return median(times);
}

async function fill(workbook: string, out: string): Promise<object> {
  const bytes = readFileSync(workbook);
  const readings = sampleReadings();
  const { bytes: filled, changedInputs, changedCached } = fillWorkbook(bytes, workbook, readings);
  writeFileSync(out, filled);
  const ms = await medianOf(() => fillWorkbook(bytes, workbook, readings));
  return { ms, cells: changedInputs + changedCached };
}

async function fillFiles(workbook: string, out: string, files: string[]): Promise<object> {
  const quiet = new Progress({ write: () => true });
  const ms = await timed(() => fillFile({ files, workbook, out, importOptions: {} }, quiet));
  return { ms };
}

/** As many columns as the sheet of half-hours has. */
const COLUMNS = 34;

async function numbers(count: number): Promise<object> {
  const ms = await medianOf(async () => {
    const workbook = new ExcelJS.Workbook();
    const sheet = workbook.addWorksheet('Numbers');
    for (let cell = 0; cell < count; cell += COLUMNS) {
      sheet.addRow(Array.from({ length: Math.min(COLUMNS, count - cell) }, (_, i) => (cell + i) / 7));
    }
    await workbook.xlsx.writeBuffer();
  });
  return { ms };
}

const [task, first = '', second = '', ...rest] = process.argv.slice(2);
const result =
  task === 'fill'
    ? await fill(first, second)
    : task === 'fill-files'
      ? await fillFiles(first, second, rest)
      : await numbers(Number(first));
process.send!({ ...result, peakMegabytes: process.resourceUsage().maxRSS / 1024 });
