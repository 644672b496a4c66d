import { createHash, randomBytes } from 'node:crypto';
import { unlinkSync } from 'node:fs';
import { readdir, realpath, stat, unlink } from 'node:fs/promises';
import { hostname } from 'node:os';
import { basename, dirname, join } from 'node:path';

/*
 * A save writes beside the file and renames. The name of what it writes says which process does it, so that another one can tell
 * a save that is going on from what a killed one left behind.
 */

/** A save takes seconds: whatever its name says, an older file is a leftover. */
const LONGEST_SAVE_MS = 3_600_000;
const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
const NAME = /^-([0-9a-f]{6})-(\d+)-[0-9a-f]{8}\.saving$/;

/** Saves of a file that other processes have begun. */
export interface UnfinishedSaves {
  /** Names of those that may be going on. */
  going: string[];
  /** Names of what killed ones left behind. */
  left: string[];
}

/**
 * A name for what is being written, beside the file that it will become.
 *
 * @param target path of that file
 * @returns path that no other save has
 * @example unfinishedName('/home/me/home.xlsx') // '/home/me/.home.xlsx-1f2e3d-4711-89abcdef.saving'
 */
export function unfinishedName(target: string): string {
  const random = randomBytes(4).toString('hex');
  return join(dirname(target), `.${basename(target)}-${machine()}-${process.pid}-${random}.saving`);
}

/**
 * Sorts what stands beside a file into saves of it that may be going on and leftovers.
 *
 * @param target path of the file
 * @param names all names in its folder
 * @param ageMs how long ago a file of that path was last written, ms
 * @param own path of the save that asks, which is neither
 * @returns both
 * @example await unfinishedSaves('home.xlsx', ['home.xlsx'], async () => 0) // { going: [], left: [] }
 */
export async function unfinishedSaves(
  target: string,
  names: Iterable<string>,
  ageMs: (path: string) => Promise<number>,
  own?: string,
): Promise<UnfinishedSaves> {
  const start = `.${basename(target)}`;
  const saves: UnfinishedSaves = { going: [], left: [] };
  for (const name of names) {
    const path = join(dirname(target), name);
    if (!name.startsWith(start) || path === own) continue;
    const [, host, pid] = NAME.exec(name.slice(start.length)) ?? [];
    if (host === undefined) continue;
    const isLeft = (host === machine() && !isRunning(Number(pid))) || (await ageMs(path)) > LONGEST_SAVE_MS;
    saves[isLeft ? 'left' : 'going'].push(name);
  }
  return saves;
}

/**
 * Removes what killed saves of a file left beside it. Where that is not possible, it stays: it does no harm.
 *
 * @param path of the file, which need not be there
 * @example await removeLeftovers('home.xlsx')
 */
export async function removeLeftovers(path: string): Promise<void> {
  try {
    const target = await realpath(path);
    const ageMs = async (file: string): Promise<number> => Date.now() - (await stat(file)).mtimeMs;
    const { left } = await unfinishedSaves(target, await readdir(dirname(target)), ageMs);
    for (const name of left) await unlink(join(dirname(target), name));
  } catch {
    // The next save tries again.
  }
}

/**
 * Removes a file should a signal end this process.
 *
 * @param path of the file
 * @param opening called where a signal comes; settles once the file is made, or can't be: what is still being made can't be removed
 * @returns ends this, once the file is no longer there
 * @example const done = removeOnSignal('.home.xlsx.saving', async () => {}); done();
 */
export function removeOnSignal(path: string, opening: () => Promise<unknown>): () => void {
  const done = (): void => {
    for (const signal of SIGNALS) process.off(signal, onSignal);
  };
  const remove = (): void => {
    try {
      unlinkSync(path);
    } catch {
      // It is renamed already, or was never made.
    }
  };
  const onSignal = (signal: NodeJS.Signals): void => {
    const end = (): void => {
      remove();
      done();
      process.kill(process.pid, signal);
    };
    opening().then(end, end);
  };
  for (const signal of SIGNALS) process.on(signal, onSignal);
  return done;
}

/** Six digits for this machine: a folder may be shared with others, whose processes are not ours to look for. */
function machine(): string {
  return createHash('sha256').update(hostname()).digest('hex').slice(0, 6);
}

function isRunning(pid: number): boolean {
  try {
    return process.kill(pid, 0);
  } catch (error) {
    // Another user's process may not be signalled, but is there.
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
