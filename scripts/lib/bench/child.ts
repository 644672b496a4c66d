import { readFileSync, writeFileSync } from 'node:fs';
import ExcelJS from 'exceljs';
import { fillFile } from '../../../src/cli/fill-file.js';
import { Progress } from '../../../src/cli/progress.js';
import { fillWorkbook } from '../../../src/workbook/fill/fill-workbook.js';
import type { ChildAnswer, ChildTask } from './child-process.js';
import { sampleReadingsOfYears } from './sample-input.js';

/* Work in a process of its own, so that its memory is its own; the parent asks for each run. */
type Work = () => unknown;

function workOf(task: ChildTask): Work {
  switch (task.kind) {
    case 'fill':
      return fill(task);
    case 'fill-files': {
      const { kind, ...files } = task;
      const quiet = new Progress({ write: () => true });
      return () => fillFile({ ...files, importOptions: {} }, quiet);
    }
    case 'numbers':
      return numbers(task.count);
  }
}

function fill({ workbook, out, years }: Extract<ChildTask, { kind: 'fill' }>): Work {
  const bytes = readFileSync(workbook);
  const readings = sampleReadingsOfYears(years);
  return () => {
    const { bytes: filled, changedInputs, changedCached } = fillWorkbook(bytes, workbook, readings);
    cells = changedInputs + changedCached;
    writeFileSync(out, filled);
  };
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
const work = workOf(JSON.parse(process.argv[2]!) as ChildTask);

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
