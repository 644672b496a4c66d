import { readFileSync } from 'node:fs';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { PATHS } from '../../src/cli/paths.js';
import { buildWorkbook } from '../../src/workbook/build/build-workbook.js';
import { fillWorkbook } from '../../src/workbook/fill/fill-workbook.js';
import { parseStartingInputs } from '../../src/workbook/inputs/parse-starting-inputs.js';
import { sheetPart } from './edit-package.js';
import { NOW, october } from './template.js';

/** Days that hold October. */
const DAYS = 32;

/** October in a workbook that holds no more than that, for an engine that a year is too much for. */
export async function shortMonth(): Promise<Uint8Array> {
  const start = parseStartingInputs(readFileSync(PATHS.startingInputs, 'utf8'), PATHS.startingInputs);
  return fillWorkbook(await buildWorkbook(start, DAYS), 'home.xlsx', october(), { now: NOW }).bytes;
}

/**
 * A copy of a workbook in which the formulas of some sheets are values: what an engine can't follow, it takes as given,
 * and everything that depends on it is still calculated.
 *
 * @param workbook bytes of a workbook that the project built
 * @param sheets names of the sheets
 */
export function withStoredValues(workbook: Uint8Array, sheets: readonly string[]): Uint8Array {
  const parts = unzipSync(workbook);
  for (const sheet of sheets) {
    const part = sheetPart(workbook, sheet);
    parts[part] = strToU8(strFromU8(parts[part]!).replace(/<f[^>]*>[^<]*<\/f>|<f[^>]*\/>/g, ''));
  }
  return zipSync(parts, { level: 1 });
}
