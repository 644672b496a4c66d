import { readdirSync, readFileSync } from 'node:fs';
import { join, posix, sep } from 'node:path';
import { ts } from '@ts-morph/common';

/** One import, re-export, dynamic import or imported type of a file. */
export interface FoundImport {
  /** The file as seen from the folder that was read, with `/`. */
  file: string;
  /** From 1. */
  line: number;
  /** As it is written: `../errors.js`, `zod`, `node:path`. */
  specifier: string;
  /** The imported file as seen from the same folder; undefined for a library. */
  target: string | undefined;
}

/**
 * The imports of one file.
 *
 * @param file path as seen from the folder of the sources, with `/`
 * @param text the file's text
 * @returns in the order of the text; what stands in comments and texts is no import
 * @example importsOf('time/serial.ts', "import './zone.js';")[0] // { line: 1, target: 'time/zone.ts', … }
 */
export function importsOf(file: string, text: string): FoundImport[] {
  return ts.preProcessFile(text, true, true).importedFiles.map(({ fileName, pos }) => ({
    file,
    line: text.slice(0, pos).split('\n').length,
    specifier: fileName,
    target: fileName.startsWith('.')
      ? posix.join(posix.dirname(file), fileName).replace(/\.js$/, '.ts')
      : undefined,
  }));
}

/**
 * The imports of every TypeScript file of a folder.
 *
 * @param folder path of the folder
 * @returns in the order of the files' paths
 */
export function importsIn(folder: string): FoundImport[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.ts'))
    .map((path) => path.split(sep).join('/'))
    .sort()
    .flatMap((file) => importsOf(file, readFileSync(join(folder, file), 'utf8')));
}
