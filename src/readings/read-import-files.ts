import { readFile } from 'node:fs/promises';
import { InputError } from '../errors.js';
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
  let bytes: Uint8Array;
  try {
    bytes = await readFile(path);
  } catch (error) {
    throw whyUnreadable(path, (error as NodeJS.ErrnoException).code);
  }
  if (bytes.length === 0) {
    throw new InputError('the file is empty', 'Export the readings again.', { file: path });
  }
  return { name: path, bytes };
}

function whyUnreadable(path: string, code: string | undefined): InputError {
  const place = { file: path };
  if (code === 'ENOENT') return new InputError('there is no such file', 'Check the path.', place);
  if (code === 'EISDIR') return new InputError('this is a folder', 'Give the files in it.', place);
  if (code === 'EACCES' || code === 'EPERM') {
    return new InputError(
      'no permission to read the file',
      'Change its permissions, or copy it first.',
      place,
    );
  }
  return new InputError(
    `the file cannot be read (${code ?? 'unknown reason'})`,
    'Copy it to this machine first.',
    place,
  );
}
