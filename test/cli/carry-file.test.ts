import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { carryFile } from '../../src/cli/carry-file.js';
import { formatCarried } from '../../src/cli/format-carried.js';
import { Progress } from '../../src/cli/progress.js';
import { LAYOUT_2_FILE, layout2Workbook } from '../workbook/carry/layout-2.js';

const folder = mkdtempSync(join(tmpdir(), 'carry-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const quiet = new Progress({ write: () => true });
const at = (name: string): string => join(folder, name);

it('never takes the place of a file, the old workbook included', async () => {
  writeFileSync(at('there.xlsx'), 'mine');
  writeFileSync(at('old.xlsx'), layout2Workbook());
  for (const name of ['there.xlsx', 'old.xlsx']) {
    await expect(carryFile({ old: at('old.xlsx'), out: at(name) }, quiet)).rejects.toThrow(
      `${at(name)}: there is a file of that name. Name a new one with --out, or move the old one away first.`,
    );
  }
  expect(readFileSync(at('there.xlsx'), 'utf8')).toBe('mine');
  expect(Buffer.compare(readFileSync(at('old.xlsx')), layout2Workbook())).toBe(0);
});

it('leaves nothing behind where it is refused', async () => {
  writeFileSync(at('text.xlsx'), 'not a workbook');
  const before = readdirSync(folder);
  await expect(carryFile({ old: at('text.xlsx'), out: at('new.xlsx') }, quiet)).rejects.toThrow(
    'this is a text file, not a workbook',
  );
  await expect(carryFile({ old: at('gone.xlsx'), out: at('new.xlsx') }, quiet)).rejects.toThrow(
    'there is no such file',
  );
  expect(readdirSync(folder)).toEqual(before);
});

it('tells what was carried, what was not, and for how many days there is room', async () => {
  const out = at('new.xlsx');
  const text = formatCarried(await carryFile({ old: LAYOUT_2_FILE, out, days: 31 }, quiet), out);
  expect(text).toContain('  674 half-hours of readings\n  5 stretches of gas\n  20 days of temperatures\n');
  expect(text).toContain('It holds 31 days; the old one 400.\n');
  expect(text).toContain(
    'Not carried over:\n  Tariffs!J5: "asked for a quote": the workbook has a cell of its own there now\n',
  );
  expect(readdirSync(folder)).toContain('new.xlsx');
}, 60_000);
