import { existsSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BundledProgram, bundledProgram } from './bundled-program.js';
import { type Ran, ran } from './ran.js';

const folder = mkdtempSync(join(tmpdir(), 'hard-places-'));
let bundled: BundledProgram;
beforeAll(async () => {
  bundled = await bundledProgram();
  writeFileSync(join(folder, 'letter.txt'), 'Dear all');
  symlinkSync('b.xlsx', join(folder, 'a.xlsx'));
  symlinkSync('a.xlsx', join(folder, 'b.xlsx'));
});
afterAll(() => {
  bundled.remove();
  rmSync(folder, { recursive: true, force: true });
});

/** Runs a line of the shell in which `$program` is the program. */
function shell(line: string): Promise<Ran> {
  const program = `${process.execPath} ${bundled.program}`;
  return ran('bash', ['-c', line.replaceAll('$program', program)], { cwd: folder });
}

/** Asks for exit code 2 and one sentence, never a trace. */
async function expectSentence(line: string, sentence: string): Promise<void> {
  const { code, error } = await shell(line);
  expect({ code, error: error.replace(/^ {2}.*\n/gm, '') }).toEqual({ code: 2, error: `${sentence}\n` });
}

describe.skipIf(process.platform === 'win32')('a place that cannot take or give a file', () => {
  it('a full disk behind standard output', () =>
    expectSentence(
      '$program --help > /dev/full',
      'Standard output: its disk is full. What was to be saved is saved; give the report another place.',
    ));

  it('a full disk behind the error stream changes nothing else', async () => {
    expect(await shell('$program fill --workbook none.xlsx 2> /dev/full')).toEqual({
      code: 2,
      out: '',
      error: '',
    });
  });

  it('a limit on the size of files', async () => {
    const { code, error } = await shell('ulimit -f 60; $program sample --out sample');
    expect({ code, error }).toEqual({
      code: 2,
      error: expect.stringMatching(
        /^sample\/.*: the file would be larger than this disk, or the limit of this shell \(ulimit -f\), allows\. The old file is as it was\. Raise the limit, or choose another place\.\n$/,
      ),
    });
    expect(existsSync(join(folder, 'sample', 'year', '.saving'))).toBe(false);
  });

  it.each([
    ['fill --workbook a.xlsx', 'a.xlsx: its links lead in a circle. Give the path of the file itself.'],
    ['verify a.xlsx', 'a.xlsx: its links lead in a circle. Give the path of the file itself.'],
    [
      'carry letter.txt --out a.xlsx',
      'a.xlsx: its links lead in a circle. Give the path of the file itself.',
    ],
    ['build --out a.xlsx', 'a.xlsx: its links lead in a circle. Give the path of the file itself.'],
    ['verify /dev/zero', '/dev/zero: this is a device, not a file. Give the path of a file.'],
    [
      'fill /dev/zero --workbook /dev/full',
      '/dev/full: this is a device, not a file. Give the path of a file.',
    ],
    ['build --out /dev/full', '/dev/full: this is a device, not a file. Give the path of a file.'],
    ['build --inputs /dev/zero', '/dev/zero: this is a device, not a file. Give the path of a file.'],
    [
      'fill --workbook letter.txt --out /dev/full',
      '/dev/full: this is a device, not a file. Give the path of a file.',
    ],
    [
      'carry letter.txt --out letter.txt',
      'letter.txt: there is a file of that name. Name a new one with --out, or move the old one away first.',
    ],
    [
      'build --out letter.txt',
      'letter.txt: there is a file of that name. Name a new one with --out, or move the old one away first.',
    ],
  ])('%s', (args, sentence) => expectSentence(`$program ${args}`, sentence));

  it('a fill writes over nothing but a workbook of ours', async () => {
    writeFileSync(join(folder, 'any.xlsx'), 'not looked at before --out is');
    await expectSentence(
      '$program fill --workbook any.xlsx --out letter.txt',
      'letter.txt: there is a file of that name, and it is no home tariff workbook. Name another one with --out, or move that file away first.',
    );
    expect(readFileSync(join(folder, 'letter.txt'), 'utf8')).toBe('Dear all');
  });
});
