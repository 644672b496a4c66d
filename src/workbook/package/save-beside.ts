import { randomBytes } from 'node:crypto';
import { constants } from 'node:fs';
import { access, type FileHandle, open, readdir, realpath, rename, stat, unlink } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { InputError } from '../../errors.js';

/** Whose a file is, and who may do what with it. */
interface FileOwner {
  mode: number;
  uid: number;
  gid: number;
}

/** What saving does with an open file. */
type NewFile = Pick<FileHandle, 'writeFile' | 'sync' | 'chmod' | 'chown' | 'close'>;

/** The file operations that saving needs; those of `node:fs/promises`, or stand-ins for tests. */
export interface SaveFileSystem {
  access(path: string, mode?: number): Promise<void>;
  open(path: string, flags: string, mode?: number): Promise<NewFile>;
  readdir(path: string): Promise<string[]>;
  realpath(path: string): Promise<string>;
  rename(from: string, to: string): Promise<void>;
  stat(path: string): Promise<FileOwner>;
  unlink(path: string): Promise<void>;
}

const nodeFileSystem: SaveFileSystem = { access, open, readdir, realpath, rename, stat, unlink };

function codeOf(error: unknown): string {
  return (error as NodeJS.ErrnoException).code ?? '';
}

/**
 * Says why a file could not be written.
 *
 * @param error what the file system threw
 * @param path where it was to go
 * @returns an InputError that says what to do, or the error itself where the cause is not one of the user's
 */
export function whyNotSaved(error: unknown, path: string): Error {
  const place = { file: path };
  switch (codeOf(error)) {
    case 'ENOSPC':
    case 'EDQUOT':
      return new InputError(
        'the disk is full',
        'The old file is as it was. Free some space and try again.',
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
    case 'EBUSY':
    case 'ETXTBSY':
      return openElsewhere(path);
    default:
      return error as Error;
  }
}

function openElsewhere(path: string, lockFile?: string): InputError {
  const stale =
    lockFile === undefined ? '' : ` If no program has it open, delete the leftover file '${lockFile}'.`;
  return new InputError('the workbook is open in another program', `Close it there and try again.${stale}`, {
    file: path,
  });
}

/** Files that spreadsheet programs put beside a workbook while it is open. */
function lockFileNames(name: string): string[] {
  return [`.~lock.${name}#`, `~$${name}`];
}

async function refuseIfOpen(target: string, path: string, fileSystem: SaveFileSystem): Promise<void> {
  const names = new Set(await fileSystem.readdir(dirname(target)));
  const lock = lockFileNames(basename(target)).find((name) => names.has(name));
  if (lock !== undefined) throw openElsewhere(path, lock);
}

/** Makes the rename last through a power cut. Some systems can't sync a folder: then there is nothing to do. */
async function syncFolder(folder: string, fileSystem: SaveFileSystem): Promise<void> {
  try {
    const handle = await fileSystem.open(folder, 'r');
    await handle.sync().finally(() => handle.close());
  } catch {
    // The file itself is safe on disk already.
  }
}

/**
 * Writes a file so that at any moment either the old or the new one is there, whole: it is written beside, forced to
 * the disk, and renamed. Permissions and owner of an old file are kept; a symbolic link is followed.
 *
 * @param path where to save
 * @param bytes the whole file
 * @param fileSystem file operations, for tests
 * @throws InputError when the disk is full, writing is not allowed, the folder is missing, or another program has the
 *   workbook open; the old file is untouched then and nothing is left beside it
 */
export async function saveBeside(
  path: string,
  bytes: Uint8Array,
  fileSystem: SaveFileSystem = nodeFileSystem,
): Promise<void> {
  let temporary: string | undefined;
  try {
    const target = await realTarget(path, fileSystem);
    const owner = await ownerOf(target, fileSystem);
    await refuseIfOpen(target, path, fileSystem);
    // Renaming over a file needs no permission for the file itself: a file that is read-only means it.
    if (owner !== undefined) await fileSystem.access(target, constants.W_OK);
    const beside = join(dirname(target), `.${basename(target)}.${randomBytes(4).toString('hex')}.saving`);
    const handle = await fileSystem.open(beside, 'wx', owner?.mode ?? 0o666);
    temporary = beside;
    try {
      await handle.writeFile(bytes);
      if (owner !== undefined) await keepOwner(handle, owner);
      await handle.sync();
    } finally {
      await handle.close();
    }
    await fileSystem.rename(beside, target);
    temporary = undefined;
    await syncFolder(dirname(target), fileSystem);
  } catch (error) {
    if (temporary !== undefined) await fileSystem.unlink(temporary).catch(() => undefined);
    throw error instanceof InputError ? error : whyNotSaved(error, path);
  }
}

async function realTarget(path: string, fileSystem: SaveFileSystem): Promise<string> {
  try {
    return await fileSystem.realpath(path);
  } catch (error) {
    if (codeOf(error) !== 'ENOENT') throw error;
    return join(await fileSystem.realpath(dirname(path)), basename(path));
  }
}

/** Gives the new file what the old one had. Only the superuser can give a file to someone else, and needs to. */
async function keepOwner(handle: NewFile, { mode, uid, gid }: FileOwner): Promise<void> {
  if (process.getuid?.() === 0) await handle.chown(uid, gid);
  await handle.chmod(mode & 0o7777);
}

async function ownerOf(target: string, fileSystem: SaveFileSystem): Promise<FileOwner | undefined> {
  try {
    return await fileSystem.stat(target);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return undefined;
    throw error;
  }
}
