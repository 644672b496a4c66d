import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { expect, it } from 'vitest';
import { describedFunctions } from '../../src/functions/index.js';
import * as library from '../../src/index.js';

it('is importable by its name, as compiled JavaScript without a loader', async () => {
  const script =
    "import { halfHoursInLocalDay } from 'home-tariff-workbook'; console.log(halfHoursInLocalDay('2026-10-25', 'Europe/London'));";
  const { stdout } = await promisify(execFile)(process.execPath, ['--input-type=module', '-e', script]);
  expect(stdout).toBe('50\n');
});

it('exports every function that is described', () => {
  const names = new Set(Object.keys(library));
  const missing = describedFunctions.map(({ name }) => name).filter((name) => !names.has(name));
  expect(missing).toEqual([]);
});
