import { InputError } from '../../errors.js';

/**
 * Says why a file could not be written.
 *
 * @param error what the file system threw
 * @param path where it was to go
 * @returns an InputError that says what to do; the error itself where it is none of the file system's
 * @example whyNotSaved(Object.assign(new Error(), { code: 'ENOSPC' }), 'home.xlsx').message // 'home.xlsx: the disk is full. …'
 */
export function whyNotSaved(error: unknown, path: string): Error {
  const { code, syscall } = error as NodeJS.ErrnoException;
  const place = { file: path };
  switch (code) {
    case 'ENOSPC':
    case 'EDQUOT':
      return new InputError(
        'the disk is full',
        'The old file is as it was. Free some space and try again.',
        place,
      );
    case 'EFBIG':
      return new InputError(
        'the file would be larger than this disk, or the limit of this shell (ulimit -f), allows',
        'The old file is as it was. Raise the limit, or choose another place.',
        place,
      );
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return new InputError(
        'there is no permission to write here',
        'The old file is as it was. Choose another place for the workbook, or allow writing.',
        place,
      );
    case 'ENOENT':
    case 'ENOTDIR':
      return new InputError('the folder does not exist', 'Make the folder, or choose another place.', place);
    case 'EISDIR':
      return new InputError('this is a folder', 'Give the name of a file.', place);
    case 'ELOOP':
      return new InputError('its links lead in a circle', 'Give the path of the file itself.', place);
    case 'ENAMETOOLONG':
      return new InputError('the name is too long for this disk', 'Give a shorter one.', place);
    case 'EBUSY':
    case 'ETXTBSY':
      return openElsewhere(path);
    default:
      if (code === undefined || syscall === undefined) return error as Error;
      return new InputError(
        `the file cannot be written (${code})`,
        'The old file is as it was. Try again, or choose another place.',
        place,
      );
  }
}

/**
 * Says that another program has a workbook open.
 *
 * @param path of the workbook
 * @param lockFile name of the file that says so, where one does
 * @returns the error
 * @example openElsewhere('home.xlsx').found // 'the workbook is open in another program'
 */
export function openElsewhere(path: string, lockFile?: string): InputError {
  const stale =
    lockFile === undefined ? '' : ` If no program has it open, delete the leftover file '${lockFile}'.`;
  return new InputError('the workbook is open in another program', `Close it there and try again.${stale}`, {
    file: path,
  });
}
