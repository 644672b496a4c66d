import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { importsIn } from '../architecture/read-imports.js';

const root = new URL('../../', import.meta.url);
const { dependencies, devDependencies } = JSON.parse(
  readFileSync(new URL('package.json', root), 'utf8'),
) as Record<'dependencies' | 'devDependencies', Record<string, string>>;

/** `csv-parse` of `csv-parse/sync`, `@date-fns/tz` of itself. */
const packageOf = (specifier: string): string =>
  specifier
    .split('/')
    .slice(0, specifier.startsWith('@') ? 2 : 1)
    .join('/');

const isLibrary = (specifier: string): boolean => !/^(\.|node:)/.test(specifier);
const sources = importsIn(fileURLToPath(new URL('src', root))).filter(({ specifier }) =>
  isLibrary(specifier),
);
const shipped = sources.filter(({ file }) => !file.startsWith('addons/'));
const namesOf = (imports: typeof sources): string[] =>
  [...new Set(imports.map(({ specifier }) => packageOf(specifier)))].sort();

describe('the dependencies', () => {
  it('are the libraries that the shipped sources import, no more and no fewer', () => {
    expect(namesOf(shipped)).toEqual(Object.keys(dependencies).sort());
  });

  it('include, for development, what the add-ons are built with', () => {
    const declared = new Set([...Object.keys(dependencies), ...Object.keys(devDependencies)]);
    expect(namesOf(sources).filter((name) => !declared.has(name))).toEqual([]);
  });
});
