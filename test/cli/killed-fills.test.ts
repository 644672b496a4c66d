import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { buildTemplate } from '../../src/cli/build-template.js';
import { PATHS } from '../../src/cli/paths.js';
import { seededRandom } from '../../src/sample/seeded-random.js';
import { readInputs, shapeOfWorkbook } from '../../src/workbook/inputs/read-inputs.js';
import { openWorkbookPackage } from '../../src/workbook/package/index.js';
import { octoberCsv } from '../workbook/template.js';
import { type BundledProgram, bundledProgram } from './bundled-program.js';

/** Whole fills take seconds each, and nearly all of that is reckoning: most signals go to the part that writes. */
const WHOLE_FILLS = 10;
const SAVES = 90;
const DAYS_FILLED = 2;
const SIGNALS = ['SIGKILL', 'SIGTERM', 'SIGINT', 'SIGHUP'] as const;
type Signal = (typeof SIGNALS)[number];

const folder = mkdtempSync(join(tmpdir(), 'killed-fills-'));
const workbook = join(folder, 'home.xlsx');
const readings = join(folder, 'readings.csv');
const random = seededRandom('killed fills');
let bundled: BundledProgram;
let before: Buffer;
/** What an undisturbed fill makes of it, and how long it takes, ms. */
let filled: Buffer;
let fillMs: number;

function start(script: string, ...args: string[]): ChildProcess {
  return spawn(process.execPath, [script, ...args], { cwd: folder, stdio: ['ignore', 'pipe', 'ignore'] });
}

const fill = (): ChildProcess => start(bundled.program, 'fill', readings, '--workbook', workbook);

interface Ended {
  code: number | null;
  signal: string | null;
}

function ended(child: ChildProcess): Promise<Ended> {
  return new Promise((resolve) => child.on('close', (code, signal) => resolve({ code, signal })));
}

const leftovers = (): string[] => readdirSync(folder).filter((name) => name.endsWith('.saving'));

/** Readings that a workbook holds; every part of it is unpacked and held to its checksum. */
function readingsOf(bytes: Buffer): number {
  const whole = openWorkbookPackage(bytes, 'home.xlsx');
  for (const part of whole.partNames()) whole.readPart(part);
  return readInputs(whole, shapeOfWorkbook(whole)).readings.count;
}

beforeAll(async () => {
  bundled = await bundledProgram();
  before = Buffer.from(await buildTemplate(PATHS.sampleInputs, 31));
  writeFileSync(workbook, before);
  writeFileSync(readings, octoberCsv(1, DAYS_FILLED));
  const from = performance.now();
  expect(await ended(fill())).toEqual({ code: 0, signal: null });
  fillMs = performance.now() - from;
  filled = readFileSync(workbook);
});
afterAll(() => {
  bundled.remove();
  rmSync(folder, { recursive: true, force: true });
});

it(`${WHOLE_FILLS + SAVES} signals at random moments: the workbook is the old or the new one, whole, and what is left beside it goes with the next fill`, async () => {
  const saving = await bundled.script(
    'save',
    `import { readFileSync } from 'node:fs';
     import { saveBeside } from './src/workbook/package/index.js';
     const [path, from] = process.argv.slice(2);
     const [replaces, bytes] = [readFileSync(path), readFileSync(from)];
     process.stdout.write('saving');
     await saveBeside(path, bytes, { replaces });`,
  );
  const next = join(folder, 'next');
  writeFileSync(next, filled);
  const counts = { old: 0, new: 0, 'ended before the signal': 0 };
  const seenLeft = new Set<string>();
  const sent = new Map<Signal, number>();

  async function kill(child: ChildProcess, afterMs: number): Promise<void> {
    const signal = SIGNALS[Math.floor(random.uniform() * SIGNALS.length)]!;
    sent.set(signal, (sent.get(signal) ?? 0) + 1);
    const end = ended(child);
    await new Promise((resolve) => setTimeout(resolve, afterMs));
    child.kill(signal);
    const how = await end;
    if (how.signal === null) {
      counts['ended before the signal']++;
      expect(how.code).toBe(0);
    } else expect(how.signal).toBe(signal);
    const left = leftovers();
    // Whatever can be heeded is heeded. What an earlier kill left stays until a save comes far enough to remove it.
    if (signal !== 'SIGKILL') expect(left.filter((name) => name.includes(`-${child.pid}-`))).toEqual([]);
    for (const name of left) seenLeft.add(name);
    const found = readFileSync(workbook);
    if (found.equals(before)) counts.old++;
    else {
      if (!found.equals(filled)) expect(readingsOf(found)).toBe(DAYS_FILLED * 48);
      counts.new++;
    }
    if (how.signal === null) expect(found.equals(before)).toBe(false);
    writeFileSync(workbook, before);
  }

  for (let i = 0; i < WHOLE_FILLS; i++) await kill(fill(), random.uniform() * fillMs);
  // How long a save takes, by one that is left alone.
  const alone = start(saving, workbook, next);
  await new Promise((resolve) => alone.stdout!.once('data', resolve));
  const from = performance.now();
  await ended(alone);
  const saveMs = performance.now() - from;
  writeFileSync(workbook, before);
  for (let i = 0; i < SAVES; i++) {
    const child = start(saving, workbook, next);
    await new Promise((resolve) => child.stdout!.once('data', resolve));
    await kill(child, random.uniform() * saveMs);
  }
  expect(await ended(fill())).toEqual({ code: 0, signal: null });
  expect(leftovers()).toEqual([]);
  expect(readingsOf(readFileSync(workbook))).toBe(DAYS_FILLED * 48);
  const kinds = [...sent].map(([signal, count]) => `${count} ${signal}`).join(', ');
  console.log(
    `${WHOLE_FILLS} signals within whole fills of ${(fillMs / 1000).toFixed(1)} s, ${SAVES} within saves of ${saveMs.toFixed(0)} ms (${kinds}): ${JSON.stringify(counts)}, ${seenLeft.size} files left beside it and removed later`,
  );
  // Had all come too early or too late, they would have shown nothing.
  expect(Math.min(counts.old, counts.new)).toBeGreaterThan(5);
});
