import { execFile } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';

const root = fileURLToPath(new URL('../..', import.meta.url));
const run = promisify(execFile);

/** What the package's description says, as far as the tests ask. */
export interface PackageDescription {
  name: string;
  version: string;
  exports: Record<string, string | { types: string; default: string }>;
  bin: Record<string, string>;
  dependencies: Record<string, string>;
}

/** The package as a user has it: packed by npm out of a copy of the sources, and unpacked beside its dependencies. */
export interface PackedPackage {
  description: PackageDescription;
  /** A folder whose `node_modules` hold the package and what it declares as dependencies, nothing else. */
  home: string;
  /** The unpacked package. */
  folder: string;
  remove: () => void;
}

/**
 * Compiles, packs and unpacks the package, as `npm publish` and `npm install` would. The project's own `dist` is left alone.
 *
 * @returns where it is
 */
export async function packedPackage(): Promise<PackedPackage> {
  const all = mkdtempSync(join(tmpdir(), 'packed-'));
  const sources = join(all, 'sources');
  for (const name of ['src', 'workbook-template', 'package.json', 'tsconfig.json', 'README.md', 'LICENSE']) {
    cpSync(join(root, name), join(sources, name), { recursive: true });
  }
  symlinkSync(join(root, 'node_modules'), join(sources, 'node_modules'));
  mkdirSync(join(sources, 'dist'));
  writeFileSync(join(sources, 'dist', 'left-over.js'), '// of an earlier build');
  await run('npm', ['pack', '--pack-destination', all], { cwd: sources });

  const description: PackageDescription = JSON.parse(readFileSync(join(sources, 'package.json'), 'utf8'));
  const home = join(all, 'home');
  const folder = join(home, 'node_modules', description.name);
  mkdirSync(folder, { recursive: true });
  const packed = join(all, `${description.name}-${description.version}.tgz`);
  await run('tar', ['-xzf', packed, '-C', folder, '--strip-components=1']);
  for (const name of Object.keys(description.dependencies)) {
    const link = join(home, 'node_modules', name);
    mkdirSync(dirname(link), { recursive: true });
    symlinkSync(join(root, 'node_modules', name), link);
  }
  return { description, home, folder, remove: () => rmSync(all, { recursive: true, force: true }) };
}
