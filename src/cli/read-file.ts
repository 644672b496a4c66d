import { readFile } from 'node:fs/promises';
import { InputError } from '../errors.js';

/**
 * Reads a file that the user named.
 *
 * @param path as the user gave it
 * @param whatToDo for the message when it can't be read
 * @returns its bytes
 * @throws InputError when it is missing, a folder, or not allowed
 */
export async function readUserFile(path: string, whatToDo: string): Promise<Uint8Array> {
  try {
    return await readFile(path);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    const found =
      code === 'ENOENT'
        ? 'there is no such file'
        : code === 'EISDIR'
          ? 'this is a folder'
          : code === 'EACCES' || code === 'EPERM'
            ? 'the file may not be read'
            : `the file can't be read (${code ?? String(error)})`;
    throw new InputError(found, whatToDo, { file: path });
  }
}
