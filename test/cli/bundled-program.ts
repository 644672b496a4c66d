import { copyFileSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** The program as a package has it, each command in one file, so that it starts quickly. */
export interface BundledProgram {
  /** Path of the program `home-tariff`. */
  program: string;
  /** Path of a script made of the given source, which imports from `src`. */
  script: (name: string, source: string) => Promise<string>;
  remove: () => void;
}

/**
 * Bundles the program into a folder of its own.
 *
 * @returns where it is
 */
export async function bundledProgram(): Promise<BundledProgram> {
  const folder = mkdtempSync(join(tmpdir(), 'program-'));
  // The program finds what it comes with two folders up.
  for (const part of ['workbook-template', 'src/sample']) mkdirSync(join(folder, part), { recursive: true });
  for (const file of [
    'package.json',
    'workbook-template/starting-inputs.json',
    'src/sample/starting-inputs.json',
  ])
    copyFileSync(join(root, file), join(folder, file));
  const bundle = async (name: string, stdin: { contents: string }): Promise<string> => {
    const outfile = join(folder, 'dist', 'cli', `${name}.mjs`);
    await build({
      stdin: { ...stdin, resolveDir: root, loader: 'ts' },
      bundle: true,
      platform: 'node',
      format: 'esm',
      outfile,
      banner: { js: "import{createRequire as r}from'node:module';const require=r(import.meta.url);" },
      logLevel: 'error',
    });
    return outfile;
  };
  return {
    program: await bundle('home-tariff', { contents: "import './src/cli/home-tariff.js';" }),
    script: (name, source) => bundle(name, { contents: source }),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}
