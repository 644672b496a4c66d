import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { isAllowedLicence, type LockedPackage, productionPackages } from './licences.js';

const root = new URL('../../', import.meta.url);
const { packages } = JSON.parse(readFileSync(new URL('package-lock.json', root), 'utf8')) as {
  packages: Record<string, LockedPackage>;
};
const nameOf = (path: string): string =>
  `${path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length)}@${packages[path]?.version}`;

/** Packages whose licence had to be looked up, each at the one version that was looked at, with what was found. */
const LOOKED_UP: Readonly<Record<string, string>> = {
  // It comes with exceljs (by way of unzipper and binary). What it ships states no licence anywhere: neither its
  // package.json nor its README, and it has no licence file. The repository that its package.json names has the MIT
  // licence, "Copyright (c) 2010 James Halliday", in a file LICENSE that is younger than this last published version.
  'buffers@0.1.1': 'MIT',
};

describe('the licences of what the package brings along', () => {
  const production = productionPackages(packages);

  it('are looked at for every package that npm installs for a user', () => {
    expect(production.length).toBeGreaterThan(20);
    const marked = Object.keys(packages).filter((path) => path !== '' && packages[path]?.dev !== true);
    expect(production).toEqual(marked.sort());
  });

  it('are permissive ones, stated or looked up', () => {
    const refused = production
      .filter((path) => !isAllowedLicence(packages[path]?.license ?? LOOKED_UP[nameOf(path)]))
      .map((path) => `${nameOf(path)}: ${packages[path]?.license ?? 'states none'}`);
    expect(refused).toEqual([]);
  });

  it('are looked up only where none is stated in what is shipped', () => {
    const silent = production.filter((path) => packages[path]?.license === undefined);
    expect(silent.map(nameOf)).toEqual(Object.keys(LOOKED_UP));
    for (const path of silent) {
      const folder = fileURLToPath(new URL(path, root));
      const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((file) =>
        file.isFile(),
      );
      const speaking = files.filter((file) =>
        /licen[cs]e|copyright/i.test(
          `${file.name} ${readFileSync(`${file.parentPath}/${file.name}`, 'utf8')}`,
        ),
      );
      expect(speaking.map(({ name }) => name)).toEqual([]);
    }
  });
});

it('none of them, nor the package itself, runs a script when it is installed', () => {
  expect(productionPackages(packages).filter((path) => packages[path]?.hasInstallScript === true)).toEqual(
    [],
  );
  // A package of the tests does: were the mark gone from the lock file, the line above would show nothing.
  expect(Object.values(packages).some(({ hasInstallScript }) => hasInstallScript === true)).toBe(true);
  const { scripts } = JSON.parse(readFileSync(new URL('package.json', root), 'utf8')) as {
    scripts: Record<string, string>;
  };
  expect(['preinstall', 'install', 'postinstall'].filter((name) => name in scripts)).toEqual([]);
});

describe('a licence', () => {
  it.each(['MIT', 'ISC', 'BlueOak-1.0.0', '(MIT OR GPL-3.0-or-later)', '(MIT AND Zlib)'])(
    'is allowed: %s',
    (stated) => {
      expect(isAllowedLicence(stated)).toBe(true);
    },
  );

  it.each([undefined, '', 'GPL-3.0-only', 'UNLICENSED', 'MIT AND GPL-3.0-only', 'SEE LICENSE IN terms.txt'])(
    'is refused: %s',
    (stated) => {
      expect(isAllowedLicence(stated)).toBe(false);
    },
  );
});

describe('what is brought along', () => {
  it('is found the way Node looks for it: the nearest folder first', () => {
    expect(
      productionPackages({
        '': { dependencies: { a: '1' } },
        'node_modules/a': { dependencies: { b: '2', c: '1' } },
        'node_modules/a/node_modules/b': { dependencies: { c: '1' } },
        'node_modules/b': {},
        'node_modules/c': {},
      }),
    ).toEqual(['node_modules/a', 'node_modules/a/node_modules/b', 'node_modules/c']);
    expect(() => productionPackages({ '': { dependencies: { a: '1' } } })).toThrow('a, which');
  });
});
