import { constants } from 'node:fs';
import {
  access,
  type FileHandle,
  open,
  readdir,
  readFile,
  realpath,
  rename,
  stat,
  unlink,
} from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { InputError } from '../../errors.js';
import { removeOnSignal, unfinishedName, unfinishedSaves } from './unfinished-saves.js';
import { openElsewhere, whyNotSaved } from './why-not-saved.js';

/** Whose a file is, who may do what with it, what it is and when it was last written (epoch ms). */
interface FileState {
  mode: number;
  uid: number;
  gid: number;
  mtimeMs: number;
  isFile(): boolean;
  isDirectory(): boolean;
}

/** What saving does with an open file. */
type NewFile = Pick<FileHandle, 'writeFile' | 'sync' | 'chmod' | 'chown' | 'close'>;

/** The file operations that saving needs; those of `node:fs/promises`, or stand-ins for tests. */
export interface SaveFileSystem {
  access(path: string, mode?: number): Promise<void>;
  open(path: string, flags: string, mode?: number): Promise<NewFile>;
  readdir(path: string): Promise<string[]>;
  readFile(path: string): Promise<Uint8Array>;
  realpath(path: string): Promise<string>;
  rename(from: string, to: string): Promise<void>;
  stat(path: string): Promise<FileState>;
  unlink(path: string): Promise<void>;
}

/** How a file is saved. */
export interface SaveOptions {
  /** What must still be there right before the new file takes its place: these bytes, or no file (null); whatever where it is left out. */
  replaces?: Uint8Array | null | undefined;
  /** File operations, for tests. */
  fileSystem?: SaveFileSystem;
}

const nodeFileSystem: SaveFileSystem = { access, open, readdir, readFile, realpath, rename, stat, unlink };

/** How often a save that met another one tries again, and the longest that it waits before, ms: twice as long each time. */
const TRIES_AGAIN = 5;
const LONGEST_FIRST_WAIT_MS = 100;

/** Another save of the file is going on, or seems to be. */
class Busy extends InputError {}

function codeOf(error: unknown): string {
  return (error as NodeJS.ErrnoException).code ?? '';
}

/** Files that spreadsheet programs put beside a workbook while it is open. */
function lockFileNames(name: string): string[] {
  return [`.~lock.${name}#`, `~$${name}`];
}

/** Stops where a spreadsheet program has the file open, or another save of it is going on; removes what killed saves left. */
async function refuseIfBusy(
  target: string,
  path: string,
  fileSystem: SaveFileSystem,
  own?: string,
): Promise<void> {
  const folder = dirname(target);
  const names = new Set(await fileSystem.readdir(folder));
  const lock = lockFileNames(basename(target)).find((name) => names.has(name));
  if (lock !== undefined) throw openElsewhere(path, lock);
  const ageMs = async (file: string): Promise<number> => {
    const state = await stateOf(file, fileSystem);
    // A save that has just come to its end is none that is going on.
    return state === undefined ? Number.POSITIVE_INFINITY : Date.now() - state.mtimeMs;
  };
  const { going, left } = await unfinishedSaves(target, names, ageMs, own);
  for (const name of left) await fileSystem.unlink(join(folder, name)).catch(() => undefined);
  if (going.length > 0) {
    throw new Busy(
      'the file is being saved by another run at this moment',
      `Nothing was written. Run the command again. If no other is running, delete the leftover file '${going[0]}'.`,
      { file: path },
    );
  }
}

/** Stops where the file is no longer the one that was read. */
async function refuseIfChanged(
  target: string,
  path: string,
  replaces: Uint8Array | null | undefined,
  fileSystem: SaveFileSystem,
): Promise<void> {
  if (replaces === undefined) return;
  let found: Uint8Array | null = null;
  try {
    found = await fileSystem.readFile(target);
  } catch (error) {
    if (codeOf(error) !== 'ENOENT') throw error;
  }
  if (found === null ? replaces === null : replaces !== null && Buffer.compare(found, replaces) === 0) return;
  const what = found === null ? 'was moved or deleted' : replaces === null ? 'was made' : 'was changed';
  throw new InputError(
    `the file ${what} by another program, or another run, meanwhile`,
    'Nothing was written. Run the command again.',
    { file: path },
  );
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
 * the disk, and renamed. Permissions and owner of an old file are kept; a symbolic link is followed. A signal to end removes what is
 * written beside; what a killed save left there is removed by the next. A save that meets another one gives way, and tries again for a few
 * seconds where it knows what it replaces.
 *
 * @param path where to save
 * @param bytes the whole file
 * @param options what it must take the place of, so that nobody else's save is lost
 * @throws InputError when the file is no longer what it replaces, another save of it is going on, the disk is full, writing is not
 *   allowed, the folder is missing, the path leads to no file, or another program has the workbook open; the old file is untouched then
 *   and nothing is left beside it
 * @example await saveBeside('home.xlsx', filled, { replaces: opened })
 */
export async function saveBeside(path: string, bytes: Uint8Array, options: SaveOptions = {}): Promise<void> {
  for (let tries = 0; ; tries++) {
    try {
      await saveOnce(path, bytes, options);
      return;
    } catch (error) {
      // Of two that meet, both give way, and draw how long they wait. Whoever comes second finds the file changed; where the caller does
      // not say what it replaces, nothing would tell, so that it does not try again.
      if (!(error instanceof Busy) || options.replaces === undefined || tries === TRIES_AGAIN) throw error;
      await wait(Math.random() * LONGEST_FIRST_WAIT_MS * 2 ** tries);
    }
  }
}

async function saveOnce(
  path: string,
  bytes: Uint8Array,
  { replaces, fileSystem = nodeFileSystem }: SaveOptions,
): Promise<void> {
  let temporary: string | undefined;
  let stopWatching = (): void => {};
  try {
    const target = await realTarget(path, fileSystem);
    const state = await stateOf(target, fileSystem);
    refuseIfNoFile(state, path);
    await refuseIfBusy(target, path, fileSystem);
    // Renaming over a file needs no permission for the file itself: a file that is read-only means it.
    if (state !== undefined) await fileSystem.access(target, constants.W_OK);
    const beside = unfinishedName(target);
    // Signals are heeded before the file can be there.
    let opening: Promise<NewFile>;
    stopWatching = removeOnSignal(beside, () => opening);
    opening = fileSystem.open(beside, 'wx', state?.mode ?? 0o666);
    const handle = await opening;
    temporary = beside;
    try {
      await handle.writeFile(bytes);
      if (state !== undefined) await keepOwner(handle, state);
      await handle.sync();
    } finally {
      await handle.close();
    }
    // Of two saves at once, the second to look sees the first's unfinished file, or what it has become.
    await refuseIfBusy(target, path, fileSystem, beside);
    await refuseIfChanged(target, path, replaces, fileSystem);
    await fileSystem.rename(beside, target);
    temporary = undefined;
    await syncFolder(dirname(target), fileSystem);
  } catch (error) {
    if (temporary !== undefined) await fileSystem.unlink(temporary).catch(() => undefined);
    throw error instanceof InputError ? error : whyNotSaved(error, path);
  } finally {
    stopWatching();
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

/** What a new file would take the place of must be a file: as the superuser it could be a device. */
function refuseIfNoFile(state: FileState | undefined, path: string): void {
  if (state === undefined || state.isFile()) return;
  const what = state.isDirectory() ? 'a folder' : 'a device, not a file';
  throw new InputError(`this is ${what}`, 'Give the name of a file.', { file: path });
}

/** Gives the new file what the old one had. Only the superuser can give a file to someone else, and needs to. */
async function keepOwner(handle: NewFile, { mode, uid, gid }: FileState): Promise<void> {
  if (process.getuid?.() === 0) await handle.chown(uid, gid);
  await handle.chmod(mode & 0o7777);
}

async function stateOf(target: string, fileSystem: SaveFileSystem): Promise<FileState | undefined> {
  try {
    return await fileSystem.stat(target);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return undefined;
    throw error;
  }
}
