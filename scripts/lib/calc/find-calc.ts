import { execFileSync } from 'node:child_process';
import { accessSync, constants, readdirSync, realpathSync } from 'node:fs';
import { delimiter, dirname, join } from 'node:path';

/** The two programs that drive LibreOffice: its starter, and a Python that can `import uno`. */
export interface CalcPrograms {
  soffice: string;
  python: string;
}

let found: CalcPrograms | { missing: string } | undefined;

/** Looks once for LibreOffice Calc and its Python bridge; says in words what is missing. */
export function findCalc(): CalcPrograms | { missing: string } {
  found ??= search();
  return found;
}

function search(): CalcPrograms | { missing: string } {
  const soffice = firstExecutable([
    ...onPath('soffice'),
    ...onPath('libreoffice'),
    '/usr/lib/libreoffice/program/soffice',
    ...optional('/opt').map((folder) => join('/opt', folder, 'program/soffice')),
    '/Applications/LibreOffice.app/Contents/MacOS/soffice',
  ]);
  if (soffice === undefined)
    return { missing: 'LibreOffice is not installed (Debian: libreoffice-calc-nogui)' };
  const programs = dirname(realpathSync(soffice));
  const pythons = [
    join(programs, 'python'),
    join(programs, '../Resources/python'),
    '/usr/bin/python3',
    ...onPath('python3'),
  ].filter(isExecutable);
  const python = pythons.find(canImportUno);
  if (python === undefined) {
    return { missing: 'LibreOffice is installed, its Python bridge is not (Debian: python3-uno)' };
  }
  return { soffice, python };
}

function onPath(name: string): string[] {
  return (process.env.PATH ?? '').split(delimiter).map((folder) => join(folder, name));
}

function optional(folder: string): string[] {
  try {
    return readdirSync(folder).filter((name) => name.startsWith('libreoffice'));
  } catch {
    return [];
  }
}

function firstExecutable(paths: string[]): string | undefined {
  return paths.find(isExecutable);
}

function isExecutable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

function canImportUno(python: string): boolean {
  try {
    execFileSync(python, ['-c', 'import uno'], { stdio: 'ignore', timeout: 20_000 });
    return true;
  } catch {
    return false;
  }
}
