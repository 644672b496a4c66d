import { readFile, stat } from 'node:fs/promises';
import { InputError } from './errors.js';

/**
 * Reads a file that the user named.
 *
 * @param path as the user gave it
 * @param whereMissing what to do where there is no such file, for the message
 * @param whereFolder what to do where it is a folder; as for a missing file where nothing else is given
 * @returns its bytes
 * @throws InputError when it is missing, a folder or a device (which may have no end), or can't be read
 * @example await readUserFile('home.xlsx', 'Give the path of a workbook.')
 */
export async function readUserFile(
  path: string,
  whereMissing: string,
  whereFolder: string = whereMissing,
): Promise<Uint8Array> {
  try {
    const state = await stat(path);
    if (state.isCharacterDevice() || state.isBlockDevice()) {
      throw new InputError('this is a device, not a file', 'Give the path of a file.', { file: path });
    }
    return await readFile(path);
  } catch (error) {
    throw error instanceof InputError ? error : whyUnreadable(error as NodeJS.ErrnoException);
  }

  function whyUnreadable({ code }: NodeJS.ErrnoException): InputError {
    const place = { file: path };
    // A file stands where the path has a folder.
    if (code === 'ENOENT' || code === 'ENOTDIR') {
      return new InputError('there is no such file', whereMissing, place);
    }
    if (code === 'EISDIR') return new InputError('this is a folder', whereFolder, place);
    if (code === 'ELOOP') {
      return new InputError('its links lead in a circle', 'Give the path of the file itself.', place);
    }
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
}

/**
 * Reads the file that stands where another is to be written.
 *
 * @param path as the user gave it
 * @returns its bytes; null where there is none
 * @throws InputError when it is a folder or a device, or can't be read
 * @example await readFileInTheWay('new.xlsx') // null
 */
export async function readFileInTheWay(path: string): Promise<Uint8Array | null> {
  try {
    await stat(path);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT' || code === 'ENOTDIR') return null;
  }
  return readUserFile(path, 'Give the name of a file.');
}
