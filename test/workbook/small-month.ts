import { buildTemplate } from '../../src/cli/build-template.js';
import { PATHS } from '../../src/cli/paths.js';
import { calculateWorkbook } from '../../src/workbook/calculate-inputs.js';
import { fillWorkbook } from '../../src/workbook/fill/fill-workbook.js';
import { readInputs, shapeOfWorkbook } from '../../src/workbook/inputs/read-inputs.js';
import type { WorkbookInputs } from '../../src/workbook/inputs/workbook-inputs.js';
import { type Book, bookOf } from '../../src/workbook/model/book.js';
import { workbookModel } from '../../src/workbook/model/workbook-model.js';
import { openWorkbookPackage } from '../../src/workbook/package/index.js';
import type { WorkbookValues } from '../../src/workbook/workbook-values.js';
import { keptFile, sourceKey } from './kept-file.js';
import { NOW, october } from './template.js';

const FILE = 'home.xlsx';
const DAYS = 40;

/** A workbook with October 2026 filled into it, all channels, the battery's too. */
const withOctober = async (workbook: Promise<Uint8Array>): Promise<Uint8Array> =>
  fillWorkbook(await workbook, FILE, october(), { now: NOW }).bytes;

/** The sample's tariffs, battery and heating in a workbook of a few days. */
export const smallTemplate = (): Promise<Uint8Array> =>
  keptFile('small-sample.xlsx', sourceKey(), () => buildTemplate(PATHS.sampleInputs, DAYS));

/** The same with readings. */
export const smallMonth = (): Promise<Uint8Array> =>
  keptFile('small-october.xlsx', sourceKey(), () => withOctober(smallTemplate()));

/** The workbook that somebody's own begins with, of a few days. */
export const smallEmpty = (): Promise<Uint8Array> =>
  keptFile('small-empty.xlsx', sourceKey(), () => buildTemplate(PATHS.startingInputs, DAYS));

/** The same with readings, and nothing else. */
export const smallFresh = (): Promise<Uint8Array> =>
  keptFile('small-fresh.xlsx', sourceKey(), () => withOctober(smallEmpty()));

/** What the inputs of a workbook hold, to be changed and worked out again. */
export function inputsOf(bytes: Uint8Array): { inputs: WorkbookInputs; book: Book } {
  const workbook = openWorkbookPackage(bytes, FILE);
  const book = bookOf(shapeOfWorkbook(workbook));
  return { inputs: readInputs(workbook, book.shape), book };
}

/** What a workbook comes to with inputs changed: what a spreadsheet program shows, right or wrong. */
export function workedOut(
  { inputs, book }: { inputs: WorkbookInputs; book: Book },
  change: (inputs: WorkbookInputs) => WorkbookInputs = (same) => same,
): WorkbookValues {
  const changed = change(inputs);
  return {
    inputs: changed,
    book,
    calculated: calculateWorkbook(workbookModel(changed, book), book, changed),
  };
}
