import { readFileSync, writeFileSync } from 'node:fs';
import ExcelJS from 'exceljs';
import { fillFile } from '../../../src/cli/fill-file.js';
import { Progress } from '../../../src/cli/progress.js';
import { fillWorkbook } from '../../../src/workbook/fill/fill-workbook.js';
import type { ChildAnswer } from './child-process.js';
import { sampleReadings } from './sample-input.js';

/*
 * Work in a process of its own, so that its memory is its own; the parent asks for each run.
 *   fill WORKBOOK OUT           fills the sample year into a workbook
 *   fill-files WORKBOOK OUT …   does what the fill command does
 *   numbers COUNT               has exceljs write as many plain numbers
 */
type Work = () => unknown;

function fill(path: string, out: string): Work {
  const bytes = readFileSync(path);
  const readings = sampleReadings();
  return () => {
    const { bytes: filled, changedInputs, changedCached } = fillWorkbook(bytes, path, readings);
    cells = changedInputs + changedCached;
    writeFileSync(out, filled);
  };
}

function fillFiles(workbook: string, out: string, files: string[]): Work {
  const quiet = new Progress({ write: () => true });
  return () => fillFile({ files, workbook, out, importOptions: {} }, quiet);
}

/** As many columns as the sheet of half-hours has. */
const COLUMNS = 34;

function numbers(count: number): Work {
  return async () => {
    const workbook = new ExcelJS.Workbook();
    const sheet = workbook.addWorksheet('Numbers');
    for (let cell = 0; cell < count; cell += COLUMNS) {
      sheet.addRow(Array.from({ length: Math.min(COLUMNS, count - cell) }, (_, i) => (cell + i) / 7));
    }
    await workbook.xlsx.writeBuffer();
  };
}

let cells = 0;
const [task, first = '', second = '', ...rest] = process.argv.slice(2);
const work =
  task === 'fill'
    ? fill(first, second)
    : task === 'fill-files'
      ? fillFiles(first, second, rest)
      : numbers(Number(first));

process.on('message', async () => {
  const started = performance.now();
  await work();
  const answer: ChildAnswer = {
    ms: performance.now() - started,
    cells,
    peakMegabytes: process.resourceUsage().maxRSS / 1024,
  };
  process.send!(answer);
});
