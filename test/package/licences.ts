/** Licences under which a package may be a dependency: permissive ones, by their SPDX identifiers. */
const ALLOWED: ReadonlySet<string> = new Set([
  '0BSD',
  'Apache-2.0',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'BlueOak-1.0.0',
  'CC0-1.0',
  'ISC',
  'MIT',
  // How the MIT licence was written before there were identifiers.
  'MIT/X11',
  'Python-2.0',
  'Unlicense',
  'Zlib',
]);

/**
 * Whether a stated licence lets a package be used.
 *
 * @param stated an SPDX expression without brackets within brackets, as `package.json` has it
 * @returns true where each licence that must be kept is allowed, or one of those to choose from
 * @example isAllowedLicence('(MIT OR GPL-3.0-or-later)') // true: MIT is chosen
 */
export function isAllowedLicence(stated: string | undefined): boolean {
  if (stated === undefined) return false;
  const expression = stated.replace(/^\((.*)\)$/, '$1');
  return expression.split(' OR ').some((choice) => choice.split(' AND ').every((one) => ALLOWED.has(one)));
}

/** A package as npm's lock file has it. */
export interface LockedPackage {
  version?: string;
  license?: string;
  dev?: boolean;
  /** Whether npm runs a script of it when it is installed. */
  hasInstallScript?: boolean;
  dependencies?: Record<string, string>;
  optionalDependencies?: Record<string, string>;
}

/**
 * The packages that come along with a package's dependencies.
 *
 * @param packages of npm's lock file, by path: '' the project itself, `node_modules/a/node_modules/b` another one
 * @returns paths of what is reached from the project's dependencies, those for development left out, in order
 * @throws RangeError when one is not in the lock file
 */
export function productionPackages(packages: Readonly<Record<string, LockedPackage>>): string[] {
  const found = new Set<string>();
  const visit = (path: string): void => {
    const { dependencies, optionalDependencies } = packages[path] ?? {};
    for (const name of Object.keys({ ...dependencies, ...optionalDependencies })) {
      const next = resolve(path, name);
      if (found.has(next)) continue;
      found.add(next);
      visit(next);
    }
  };
  const resolve = (from: string, name: string): string => {
    for (let folder = from; ; folder = folder.slice(0, Math.max(0, folder.lastIndexOf('/node_modules/')))) {
      const path = folder === '' ? `node_modules/${name}` : `${folder}/node_modules/${name}`;
      if (packages[path] !== undefined) return path;
      if (folder === '') throw new RangeError(`${name}, which ${from} needs, is not in the lock file`);
    }
  };
  visit('');
  return [...found].sort();
}
