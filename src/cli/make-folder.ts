import { mkdir } from 'node:fs/promises';
import { InputError } from '../errors.js';
import { whyNotSaved } from '../workbook/package/index.js';

/**
 * Makes a folder for what is to be written, and those above it.
 *
 * @param folder its path; nothing happens where it exists
 * @throws InputError when a file is in the way, or writing is not allowed or not possible
 */
export async function makeFolder(folder: string): Promise<void> {
  try {
    await mkdir(folder, { recursive: true });
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EEXIST' || code === 'ENOTDIR') {
      throw new InputError('a file is where the folder should be', 'Give the name of a folder.', {
        file: folder,
      });
    }
    if (code === 'EACCES' || code === 'EPERM' || code === 'EROFS') {
      throw new InputError(
        'there is no permission to make this folder',
        'Choose another place, or allow writing there.',
        { file: folder },
      );
    }
    throw whyNotSaved(error, folder);
  }
}
