import { InputError } from '../errors.js';
import { readUserFile } from '../read-user-file.js';
import type { InputFile } from './import-options.js';

/**
 * Reads files of readings from disk.
 *
 * @param paths paths as the user gave them
 * @returns names and bytes, ready for {@link importFiles}
 * @throws InputError for a file that is missing, a folder, unreadable or empty
 * @example await readImportFiles(['may.csv'])
 */
export async function readImportFiles(paths: readonly string[]): Promise<InputFile[]> {
  return Promise.all(paths.map(readOne));
}

async function readOne(path: string): Promise<InputFile> {
  const bytes = await readUserFile(path, 'Check the path.', 'Give the files in it.');
  if (bytes.length === 0) {
    throw new InputError('the file is empty', 'Export the readings again.', { file: path });
  }
  return { name: path, bytes };
}
