import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, '../..');

/** Runs a tiny test file on a machine that, as far as its PATH says, has no spreadsheet program. */
function runWithout(
  file: string,
  environment: Record<string, string>,
): { code: number | null; output: string } {
  const vitest = join(root, 'node_modules/vitest/vitest.mjs');
  const bare = {
    HOME: process.env.HOME ?? '',
    PATH: join(here, 'no-such-folder'),
    NO_COLOR: '1',
    ...environment,
  };
  const { status, stdout, stderr } = spawnSync(process.execPath, [vitest, 'run', file], {
    cwd: root,
    env: bare,
    encoding: 'utf8',
  });
  return { code: status, output: stdout + stderr };
}

describe('tests that need a spreadsheet program which is missing', () => {
  let folder: string;
  let file: string;
  beforeAll(() => {
    folder = mkdtempSync(join(here, 'missing-'));
    file = join(folder, 'needs-gnumeric.test.ts');
    writeFileSync(
      file,
      `import { it } from 'vitest';
import { describeWithGnumeric } from '../availability.js';
describeWithGnumeric('a check', () => { it('runs', () => {}); });
it('goes on', () => {});`,
    );
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('are skipped, and a visible line says so', () => {
    const { code, output } = runWithout(file, {});
    expect(code).toBe(0);
    expect(output).toContain('skipped: a check: ssconvert is not installed');
    expect(output).toContain('1 passed | 1 skipped');
  }, 20_000);

  it('fail where REQUIRE_CALC=1', () => {
    const { code, output } = runWithout(file, { REQUIRE_CALC: '1' });
    expect(code).toBe(1);
    expect(output).toContain('ssconvert is not installed (Debian: gnumeric), and REQUIRE_CALC=1 demands it');
  }, 20_000);
});
