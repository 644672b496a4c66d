import { execFile } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { describedFunctions } from '../../src/functions/index.js';
import * as library from '../../src/index.js';
import { type PackedPackage, packedPackage } from './packed-package.js';

let packed: PackedPackage;
beforeAll(async () => {
  packed = await packedPackage();
});
afterAll(() => packed?.remove());

interface Ran {
  code: number;
  out: string;
  error: string;
}

/** Runs Node without a loader. */
function node(args: readonly string[], cwd = packed.home): Promise<Ran> {
  return new Promise((resolve) => {
    execFile(process.execPath, [...args], { cwd }, (failure, out, error) => {
      resolve({ code: failure === null ? 0 : Number(failure.code), out, error });
    });
  });
}

const homeTariff = (args: readonly string[], cwd?: string): Promise<Ran> =>
  node([join(packed.folder, packed.description.bin['home-tariff'] ?? 'no bin'), ...args], cwd);

const filesOf = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));

describe('the packed package', () => {
  it('exports parts of which each is there, with its types, and can be imported without a loader', async () => {
    const { name, exports } = packed.description;
    const parts = Object.entries(exports).flatMap(([part, target]) =>
      typeof target === 'string' ? [] : [{ part, target }],
    );
    expect(parts.map(({ part }) => part)).toEqual(
      expect.arrayContaining([
        '.',
        './package',
        './readings',
        './battery',
        './heating',
        './tariffs',
        './workbook',
      ]),
    );
    const missing = parts
      .flatMap(({ target }) => [target.types, target.default])
      .filter((path) => !existsSync(join(packed.folder, path)));
    expect(missing).toEqual([]);
    const names = parts.map(({ part }) => `${name}${part.slice(1)}`);
    const script = `
      for (const name of ${JSON.stringify(names)}) {
        console.log(name, Object.keys(await import(name)).length > 0 ? 'exports' : 'is empty');
      }`;
    const { out, error } = await node(['--input-type=module', '--eval', script]);
    expect({ out: out.trimEnd().split('\n'), error }).toEqual({
      out: names.map((each) => `${each} exports`),
      error: '',
    });
  });

  it('works out what the library works out', async () => {
    const script =
      "import { halfHoursInLocalDay } from 'home-tariff-workbook/time'; console.log(halfHoursInLocalDay('2026-10-25', 'Europe/London'));";
    expect(await node(['--input-type=module', '--eval', script])).toEqual({
      code: 0,
      out: '50\n',
      error: '',
    });
  });

  it('holds nothing of an earlier build, no add-ons, and no tests', () => {
    const files = filesOf(packed.folder).map((path) => path.slice(packed.folder.length + 1));
    expect(files).toContain('dist/index.js');
    expect(files).toContain('workbook-template/starting-inputs.json');
    expect(files.filter((path) => /left-over|addons|\.test\.|\.py$/.test(path))).toEqual([]);
  });

  it('tells what changed, version by version', () => {
    const changelog = readFileSync(join(packed.folder, 'src', 'CHANGELOG.md'), 'utf8');
    const versions = [...changelog.matchAll(/^## (.+)$/gm)].map(([, version]) => version);
    expect(versions.slice(0, 2)).toEqual(['Unreleased', packed.description.version]);
  });

  it('holds the source of everything that is compiled, where the maps say that it is', () => {
    const maps = filesOf(join(packed.folder, 'dist')).filter((path) => path.endsWith('.map'));
    const compiled = filesOf(join(packed.folder, 'dist')).filter((path) => /\.(js|d\.ts)$/.test(path));
    expect(maps).toHaveLength(compiled.length);
    const astray = maps.filter((path) => {
      const { sources } = JSON.parse(readFileSync(path, 'utf8')) as { sources: string[] };
      return sources.length === 0 || !sources.every((source) => existsSync(join(dirname(path), source)));
    });
    expect(astray).toEqual([]);
  });
});

describe('the installed program', () => {
  const commands = ['build', 'fill', 'verify', 'sample'];

  it('names its version and its commands, and helps with each, within 80 columns', async () => {
    const [program, version, ...helps] = await Promise.all([
      homeTariff(['--help']),
      homeTariff(['--version']),
      ...commands.map((command) => homeTariff([command, '--help'])),
    ]);
    expect(version).toEqual({ code: 0, out: `${packed.description.version}\n`, error: '' });
    for (const command of commands) expect(program.out).toMatch(new RegExp(`^ {2}${command} `, 'm'));
    for (const [i, { code, out, error }] of helps.entries()) {
      expect({ code, error }).toEqual({ code: 0, error: '' });
      expect(out).toMatch(new RegExp(`^Usage: home-tariff ${commands[i]} `));
      expect(out.split('\n').filter((line) => [...line].length > 80)).toEqual([]);
    }
  });

  it('ends with code 2 where no command, or a wrong one, is given', async () => {
    const [none, wrong] = await Promise.all([homeTariff([]), homeTariff(['fil'])]);
    expect(none.code).toBe(2);
    expect(wrong).toEqual({ code: 2, out: '', error: expect.stringContaining("unknown command 'fil'") });
  });

  it('builds a workbook and writes the sample where the user stands', async () => {
    const [built, sample] = await Promise.all([homeTariff(['build']), homeTariff(['sample'])]);
    expect(built).toMatchObject({ code: 0, out: 'home-tariff-workbook.xlsx\n' });
    expect(existsSync(join(packed.home, 'home-tariff-workbook.xlsx'))).toBe(true);
    expect(sample.code).toBe(0);
    const named = sample.out.trimEnd().split('\n');
    expect(named.filter((path) => !existsSync(join(packed.home, path)))).toEqual([]);
    expect(named[0]).toMatch(/^home-tariff-sample\b/);
  });

  it('never builds over a file that is there', async () => {
    const folder = join(packed.home, 'in-use');
    mkdirSync(folder);
    const path = join(folder, 'home-tariff-workbook.xlsx');
    writeFileSync(path, "a year of somebody's readings");
    expect(await homeTariff(['build'], folder)).toEqual({
      code: 2,
      out: '',
      error:
        'home-tariff-workbook.xlsx: there is a file of that name. Name a new one with --out, or move the old one away first.\n',
    });
    expect(readFileSync(path, 'utf8')).toBe("a year of somebody's readings");
  });

  it('says how to build a workbook where the one to fill is missing', async () => {
    const { code, error } = await homeTariff(['fill', '--workbook', 'none.xlsx']);
    expect({ code, error }).toEqual({
      code: 2,
      error:
        'none.xlsx: there is no such file. Check its path, or build a workbook (home-tariff build) and copy it there.\n',
    });
  });
});

it('exports every function that is described', () => {
  const names = new Set(Object.keys(library));
  const missing = describedFunctions.map(({ name }) => name).filter((name) => !names.has(name));
  expect(missing).toEqual([]);
});
