import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, expect, it } from 'vitest';
import { type FilledFile, fillFile } from '../../src/cli/fill-file.js';
import { Progress } from '../../src/cli/progress.js';
import { saveBeside } from '../../src/workbook/package/index.js';
import { octoberCsv, template } from '../workbook/template.js';

const folder = mkdtempSync(join(tmpdir(), 'save-during-fill-'));
const workbook = join(folder, 'home.xlsx');
const readings = join(folder, 'readings.csv');
afterAll(() => rmSync(folder, { recursive: true, force: true }));
beforeEach(async () => {
  writeFileSync(workbook, await template());
  writeFileSync(readings, octoberCsv(1, 1));
});

/** A fill, and what happens to its files after it has read them and before it saves. */
const fillWhile = (meanwhile: () => void, out = workbook): Promise<FilledFile> =>
  fillFile(
    {
      files: [readings],
      workbook,
      out,
      importOptions: {},
      save: (path, bytes, options) => {
        meanwhile();
        return saveBeside(path, bytes, options);
      },
    },
    new Progress({ write: () => true }),
  );

it('a workbook that the user saves during a fill keeps what was saved', async () => {
  const saved = Buffer.from('what the user saved');
  await expect(fillWhile(() => writeFileSync(workbook, saved))).rejects.toThrow(
    `${workbook}: the file was changed by another program, or another run, meanwhile. Nothing was written. Run the command again.`,
  );
  expect(readFileSync(workbook)).toEqual(saved);
  expect(readdirSync(folder).sort()).toEqual(['home.xlsx', 'readings.csv']);
});

it('what --out names is held to the same: a file that comes up meanwhile stays, a workbook of ours is replaced', async () => {
  const out = join(folder, 'new.xlsx');
  await expect(fillWhile(() => writeFileSync(out, 'a letter'), out)).rejects.toThrow(
    'the file was made by another program',
  );
  expect(readFileSync(out, 'utf8')).toBe('a letter');
  await expect(fillWhile(() => {}, out)).rejects.toThrow('it is no home tariff workbook');
  writeFileSync(out, await template());
  expect((await fillWhile(() => {}, out)).written).toBe(true);
  expect(readFileSync(workbook).equals(Buffer.from(await template()))).toBe(true);
});
