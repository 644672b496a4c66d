import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { SHEETS } from '../../src/workbook/layout.js';
import { verifyWorkbook } from '../../src/workbook/verify/verify-workbook.js';
import { numberCell, withCells } from '../workbook/edit-package.js';
import { filledMonth, octoberCsv, template } from '../workbook/template.js';
import { type Ran, ran } from './ran.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'commands-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs a command as npm does, with its output in pipes. */
function run(command: string, ...args: string[]): Promise<Ran> {
  const script = join(root, 'scripts', `${command}.ts`);
  return ran(join(root, 'node_modules/.bin/tsx'), [script, ...args], { cwd: folder });
}

/** Lines that a terminal of 80 columns would break. */
const tooWide = (text: string): string[] => text.split('\n').filter((line) => [...line].length > 80);
const ESCAPE = '\u001b';
const hashOf = (path: string): string => createHash('sha256').update(readFileSync(path)).digest('hex');

describe('help', () => {
  it.each<[string, string[]]>([
    ['start', []],
    ['build', ['--inputs', '--out']],
    ['sample', ['--out']],
    [
      'fill',
      [
        '--workbook',
        '--out',
        '--time-zone',
        '--channel',
        '--date-order',
        '--stamp',
        '--unit',
        '--replace',
        'beside others, --for says it of one of theirs',
      ],
    ],
    ['carry', ['<old>', '--out', '--days']],
    ['verify', ['<file>']],
    ['bench', ['--quick']],
    ['pictures', ['--out', '--print', '--readme']],
    ['docs-functions', []],
    ['addon-calc', []],
    ['addon-excel', ['--url']],
    ['addon-excel-serve', []],
    ['addon-sheets', ['--time-zone']],
    ['addon-examples', []],
  ])(
    'of %s names its options and exit codes, within 80 columns, and does nothing',
    async (command, options) => {
      const before = readdirSync(folder);
      const { code, out, error } = await run(command, '--help');
      expect(readdirSync(folder)).toEqual(before);
      expect({ code, error }).toEqual({ code: 0, error: '' });
      expect(out).toMatch(new RegExp(`^Usage: ${command.replaceAll('-', ':')} `));
      for (const option of options) expect(out).toContain(option);
      expect(out).toContain('Exit codes: 0 done');
      expect(tooWide(out)).toEqual([]);
      expect(out).not.toContain(ESCAPE);
      // A path of the folder of this checkout would be too wide in a deeper one.
      expect(out.replace(/\s/g, '')).not.toContain(root.replace(/\s/g, ''));
    },
  );
});

describe('wrong usage', () => {
  it.each<[string, string[], string]>([
    ['fill', ['readings.csv'], "required option '--workbook <file>' not specified"],
    ['fill', ['--workbok', 'home.xlsx'], "unknown option '--workbok'\n(Did you mean --workbook?)"],
    ['carry', ['old.xlsx', '--ou', 'new.xlsx'], "unknown option '--ou'\n(Did you mean --out?)"],
    ['fill', ['--workbook', ''], "the value of option '--workbook <file>' is empty"],
    ['fill', ['', '--workbook', 'home.xlsx'], 'the name of a file is empty'],
    [
      'fill',
      ['--workbook', 'home.xlsx', '--pass-over', ''],
      "the value of option '--pass-over <text>' is empty",
    ],
    ['addon-excel', ['--url', 'nope'], 'Give an address such as https://your.host/folder'],
    ['carry', ['old.xlsx'], "required option '--out <file>' not specified"],
    ['fill', ['--workbook', 'home.xlsx', '--date-order', 'ydm'], "argument 'ydm' is invalid"],
    ['verify', [], "missing required argument 'file'"],
    ['build', ['--nonsense'], "unknown option '--nonsense'"],
    ['addon-calc', ['--nonsense'], "unknown option '--nonsense'"],
    ['addon-examples', ['--nonsense'], "unknown option '--nonsense'"],
  ])('%s %j ends with code 2 and says what is wrong', async (command, args, message) => {
    const { code, out, error } = await run(command, ...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(error).toContain(message);
    expect(error).toContain('(see --help)');
    expect(error).not.toContain('    at ');
  });
});

it.each<[string, string[]]>([
  ['pictures', ['missing.xlsx']],
  ['verify', ['missing.xlsx']],
  ['carry', ['missing.xlsx', '--out', 'new.xlsx']],
  ['fill', ['--workbook', 'missing.xlsx', 'readings.csv']],
  ['build', ['--inputs', 'missing.json']],
  ['bench', ['--against', 'missing.xlsx']],
])('%s: a missing file ends with code 2 and a sentence', async (command, args) => {
  const { code, out, error } = await run(command, ...args);
  expect({ code, out }).toEqual({ code: 2, out: '' });
  expect(error).toContain('there is no such file');
});

it.each<[string, string[], string]>([
  ['pictures', ['letter.txt'], 'letter.txt: this is a text file, not a workbook.'],
  ['bench', ['--against', 'letter.txt'], 'letter.txt: this is a text file, not a workbook.'],
  ['addon-sheets', ['--time-zone', 'Nope'], '--time-zone: "Nope" is not a known time zone.'],
  ['build', ['--inputs', 'empty.json', '--out', 'new.xlsx'], 'empty.json: the file is empty.'],
  [
    'build',
    ['--inputs', 'home.zip', '--out', 'new.xlsx'],
    'home.zip: this is a workbook or a zip file, not JSON.',
  ],
  ['build', ['--out', 'letter.txt/new.xlsx'], 'letter.txt: a file is where the folder should be.'],
])(
  '%s %j: a file of another kind, or a zone that is none, ends with code 2 and a sentence',
  async (command, args, sentence) => {
    writeFileSync(join(folder, 'letter.txt'), 'Dear all\n');
    writeFileSync(join(folder, 'empty.json'), '');
    writeFileSync(join(folder, 'home.zip'), 'PK\u0003\u0004');
    const { code, out, error } = await run(command, ...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(error.startsWith(sentence)).toBe(true);
    expect(error).not.toContain('    at ');
  },
);

it('a reader that has seen enough is no fault', async () => {
  const child = spawn(join(root, 'node_modules/.bin/tsx'), [join(root, 'scripts/fill.ts'), '--help']);
  child.stdout.destroy();
  let error = '';
  child.stderr.on('data', (text) => {
    error += text;
  });
  const code = await new Promise((resolve) => child.on('close', resolve));
  expect({ code, error }).toEqual({ code: 0, error: '' });
});

describe('the commands', () => {
  const workbook = join(folder, 'home.xlsx');
  const readings = join(folder, 'october.csv');
  beforeAll(async () => {
    writeFileSync(workbook, await template());
    writeFileSync(readings, octoberCsv());
  });

  it('fill: fills, says what was understood, compares, and names the workbook', async () => {
    const { code, out, error } = await run('fill', readings, '--workbook', workbook);
    expect(code).toBe(0);
    expect(out).toContain('october.csv');
    expect(out).toMatch(/^Tariff +Energy +Standing +Export +Total +Diff\. +All-in +Off-pk +Covered$/m);
    expect(out).toContain('1,490 half-hours added.');
    expect(out.trimEnd().endsWith(workbook)).toBe(true);
    expect(tooWide(out).filter((line) => !line.includes(folder))).toEqual([]);
    expect(`${out}${error}`).not.toContain(ESCAPE);
    expect(error).toMatch(/^( {2}.+: \d+\.\d s\n)+$/);
    const verification = verifyWorkbook(readFileSync(workbook), workbook);
    expect(verification.agrees).toBe(true);
    expect(verification.values.inputs.readings.count).toBe(1490);
  });

  it('fill: says so when there is nothing new, and leaves the file alone', async () => {
    const before = hashOf(workbook);
    const { code, out } = await run('fill', readings, '--workbook', workbook);
    expect(code).toBe(0);
    expect(out).toContain('Nothing changed: the workbook holds these readings already.');
    expect(hashOf(workbook)).toBe(before);
  });

  it('verify: code 0 for a workbook that agrees, 1 and the cells for one that does not', async () => {
    const changed = join(folder, 'changed.xlsx');
    writeFileSync(
      changed,
      withCells(await filledMonth(), { [SHEETS.tariffs]: { D9: numberCell('D9', 4.5) } }),
    );
    const [agrees, differs] = await Promise.all([run('verify', workbook), run('verify', changed)]);
    expect(agrees.code).toBe(0);
    expect(agrees.out).toMatch(/^[\d,]+ formula cells compared: all agree\.\n$/);
    expect(differs.code).toBe(1);
    expect(differs.out).toContain('Tariffs!D9: the formula was overwritten; it holds 4.5\n');
  });

  it('sample: names every file that it writes', async () => {
    const into = join(folder, 'sample');
    const { code, out } = await run('sample', '--out', into);
    expect(code).toBe(0);
    const written = readdirSync(into, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name));
    expect(out.trimEnd().split('\n').sort()).toEqual(written.sort());
  });

  it('wrong input: code 2, one line on the error stream, nothing written', async () => {
    const before = [readdirSync(folder), hashOf(workbook)];
    writeFileSync(readings, octoberCsv(1, 1).replace(/,\d\.\d+/, ',9.999'));
    const ran = await Promise.all([
      run('fill', readings, '--workbook', workbook),
      run('verify', readings),
      run('build', '--inputs', readings, '--out', join(folder, 'new.xlsx')),
      run('sample', '--out', readings),
    ]);
    for (const { code, out, error } of ran) {
      expect({ code, out }).toEqual({ code: 2, out: '' });
      const lines = error
        .trimEnd()
        .split('\n')
        .filter((line) => !/^ {2}.+: \d+\.\d s$/.test(line));
      expect(lines).toHaveLength(1);
      expect(lines[0]).toContain('october.csv');
    }
    expect([readdirSync(folder), hashOf(workbook)]).toEqual(before);
  });
});
