import { dirname } from 'node:path';
import { InputError } from '../errors.js';
import { readFileInTheWay, readUserFile } from '../read-user-file.js';
import { type Carried, carryWorkbook } from '../workbook/carry/carry-workbook.js';
import { saveBeside } from '../workbook/package/index.js';
import { makeFolder } from './make-folder.js';
import type { Progress } from './progress.js';

/** What to carry over, and where to. */
export interface CarryFileOptions {
  old: string;
  out: string;
  days?: number;
}

/**
 * Carries a workbook file over into a new one, which is there whole or not at all; the old file is only read.
 *
 * @param options paths and days
 * @param progress told what is being done
 * @returns what was carried
 * @throws InputError when anything is wrong, or there is a file where the new one would go; then nothing is written
 */
export async function carryFile({ old, out, days }: CarryFileOptions, progress: Progress): Promise<Carried> {
  if ((await readFileInTheWay(out)) !== null) {
    throw new InputError(
      'there is a file of that name',
      'Name a new one with --out, or move the old one away first.',
      { file: out },
    );
  }
  const bytes = await readUserFile(old, 'Give the path of the workbook to carry over.');
  const carried = await carryWorkbook(bytes, old, {
    ...(days === undefined ? {} : { days }),
    onStep: (step) => progress.begin(step),
  });
  progress.begin('saving');
  await makeFolder(dirname(out));
  await saveBeside(out, carried.bytes, { replaces: null });
  progress.end();
  return carried;
}
