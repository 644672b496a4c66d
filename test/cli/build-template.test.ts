import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { buildTemplate } from '../../src/cli/build-template.js';
import { PATHS } from '../../src/cli/paths.js';

const folder = mkdtempSync(join(tmpdir(), 'build-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('refuses starting inputs that a fill would refuse in the workbook', async () => {
  const inputs = JSON.parse(readFileSync(PATHS.sampleInputs, 'utf8'));
  inputs.battery.chargeKw = 0;
  const path = join(folder, 'inputs.json');
  writeFileSync(path, JSON.stringify(inputs));
  await expect(buildTemplate(path, 31)).rejects.toThrow('inputs.json, Battery!');
});
