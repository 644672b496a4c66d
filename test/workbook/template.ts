import { buildTemplate } from '../../src/cli/build-template.js';
import { PATHS } from '../../src/cli/paths.js';
import { importFiles, type SourcedReadings } from '../../src/readings/index.js';
import { sampleExtraMonthFiles } from '../../src/sample/sample-files.js';
import { fillWorkbook } from '../../src/workbook/fill/fill-workbook.js';
import { keptFile, sourceKey } from './kept-file.js';
import { livedInWorkbook } from './lived-in-workbook.js';

/** Time zone of the sample home. */
export const ZONE = 'Europe/London';
/** When the test workbooks were filled. */
export const NOW = new Date(Date.UTC(2026, 10, 1, 12));

/** A workbook without readings, with the sample's tariffs, battery and heating, as this very source builds it. */
export function template(): Promise<Uint8Array> {
  return keptFile('template.xlsx', sourceKey(), () => buildTemplate(PATHS.sampleInputs));
}

/** The workbook that somebody's own begins with: nothing typed into it. */
export function emptyTemplate(): Promise<Uint8Array> {
  return keptFile('empty-template.xlsx', sourceKey(), () => buildTemplate(PATHS.startingInputs));
}

/** The workbook with the sample's inputs and October 2026 in it, which has a day of 25 hours. */
export function filledMonth(): Promise<Uint8Array> {
  return keptFile(
    'month.xlsx',
    sourceKey(),
    async () => fillWorkbook(await template(), 'home.xlsx', october(), { now: NOW }).bytes,
  );
}

/** A workbook with the first ten days of October that someone has lived in. */
export function livedInMonth(): Promise<Uint8Array> {
  return keptFile('lived-in.xlsx', sourceKey(), async () => {
    const started = imported({ 'start-of-october.csv': octoberCsv(1, 10) });
    return livedInWorkbook(fillWorkbook(await template(), 'home.xlsx', started, { now: NOW }).bytes);
  });
}

/** Readings of October 2026 in all channels. */
export function october(): SourcedReadings {
  return imported({ 'october.csv': octoberCsv() });
}

/** The rows of October's file from one day of the month to another, with its header. */
export function octoberCsv(fromDay = 1, toDay = 31): string {
  const [header, ...rows] = sampleExtraMonthFiles()[0]!.text.trimEnd().split('\n');
  const days = rows.filter((row) => {
    const day = Number(row.slice(8, 10));
    return day >= fromDay && day <= toDay;
  });
  return `${[header, ...days].join('\n')}\n`;
}

/** Imports texts by file name, in this order. */
export function imported(files: Record<string, string>, timeZone = ZONE): SourcedReadings {
  const inputs = Object.entries(files).map(([name, text]) => ({ name, bytes: Buffer.from(text) }));
  return importFiles(inputs, { timeZone });
}
