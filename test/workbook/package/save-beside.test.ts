import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import * as fs from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { removeLeftovers, type SaveFileSystem, saveBeside } from '../../../src/workbook/package/index.js';
import { unfinishedName } from '../../../src/workbook/package/unfinished-saves.js';

const oldBytes = Buffer.from('old workbook');
const newBytes = Buffer.from('new workbook');
let folder: string;
let path: string;

beforeEach(async () => {
  folder = await fs.mkdtemp(join(tmpdir(), 'save-beside-'));
  path = join(folder, 'home.xlsx');
});
afterEach(() => fs.rm(folder, { recursive: true, force: true }));

const real: SaveFileSystem = {
  access: fs.access,
  open: fs.open,
  readdir: (at) => fs.readdir(at),
  readFile: (at) => fs.readFile(at),
  realpath: (at) => fs.realpath(at),
  rename: fs.rename,
  stat: (at) => fs.stat(at),
  unlink: fs.unlink,
};

function failure(code: string): Error {
  return Object.assign(new Error(code), { code });
}

async function messageOf(promise: Promise<void>): Promise<string> {
  return promise.then(
    () => 'no error',
    (error: Error) => `${error.name}: ${error.message}`,
  );
}

describe('saveBeside', () => {
  it('makes a new file', async () => {
    await saveBeside(path, newBytes);
    expect(await fs.readFile(path)).toEqual(newBytes);
    expect(await fs.readdir(folder)).toEqual(['home.xlsx']);
  });

  it('replaces an old file and keeps its permissions', async () => {
    await fs.writeFile(path, oldBytes);
    await fs.chmod(path, 0o640);
    await saveBeside(path, newBytes);
    expect(await fs.readFile(path)).toEqual(newBytes);
    expect((await fs.stat(path)).mode & 0o777).toBe(0o640);
    expect(await fs.readdir(folder)).toEqual(['home.xlsx']);
  });

  it('keeps the owner when the superuser saves', async ({ skip }) => {
    skip(process.getuid?.() !== 0, 'needs the superuser');
    await fs.writeFile(path, oldBytes);
    await fs.chown(path, 1234, 2345);
    await saveBeside(path, newBytes);
    expect(await fs.stat(path)).toMatchObject({ uid: 1234, gid: 2345 });
  });

  it('follows a symbolic link', async () => {
    const target = join(folder, 'elsewhere');
    await fs.mkdir(target);
    await fs.writeFile(join(target, 'real.xlsx'), oldBytes);
    await fs.symlink(join(target, 'real.xlsx'), path);
    await saveBeside(path, newBytes);
    expect((await fs.lstat(path)).isSymbolicLink()).toBe(true);
    expect(await fs.readFile(join(target, 'real.xlsx'))).toEqual(newBytes);
    expect(await fs.readdir(target)).toEqual(['real.xlsx']);
  });

  it.each(['.~lock.home.xlsx#', '~$home.xlsx'])('refuses while %s says that it is open', async (lock) => {
    await fs.writeFile(path, oldBytes);
    await fs.writeFile(join(folder, lock), '');
    expect(await messageOf(saveBeside(path, newBytes))).toBe(
      `InputError: ${path}: the workbook is open in another program. Close it there and try again. If no program has it open, delete the leftover file '${lock}'.`,
    );
    expect(await fs.readFile(path)).toEqual(oldBytes);
  });

  it('does not mind the lock of another workbook', async () => {
    await fs.writeFile(join(folder, '.~lock.other.xlsx#'), '');
    await saveBeside(path, newBytes);
    expect(await fs.readFile(path)).toEqual(newBytes);
  });

  it('says that the folder is missing, or is a file', async () => {
    expect(await messageOf(saveBeside(join(folder, 'none', 'home.xlsx'), newBytes))).toContain(
      'the folder does not exist. Make the folder',
    );
    await fs.writeFile(path, oldBytes);
    expect(await messageOf(saveBeside(join(path, 'home.xlsx'), newBytes))).toContain(
      'the folder does not exist',
    );
  });

  it('says that the name is a folder', async () => {
    await fs.mkdir(path);
    expect(await messageOf(saveBeside(path, newBytes))).toContain('this is a folder');
    expect(await fs.readdir(folder)).toEqual(['home.xlsx']);
  });
});

describe('nobody else’s save is lost', () => {
  const others = Buffer.from('what another program saved');
  const meanwhile = (work: () => Promise<void>): SaveFileSystem => ({
    ...real,
    access: async (at, mode) => {
      await fs.access(at, mode);
      await work();
    },
  });
  const refusal = (what: string): string =>
    `InputError: ${path}: the file ${what} by another program, or another run, meanwhile. Nothing was written. Run the command again.`;

  it('a file that was changed since it was read stays', async () => {
    await fs.writeFile(path, oldBytes);
    const fileSystem = meanwhile(() => fs.writeFile(path, others));
    expect(await messageOf(saveBeside(path, newBytes, { replaces: oldBytes, fileSystem }))).toBe(
      refusal('was changed'),
    );
    expect(await fs.readFile(path)).toEqual(others);
    expect(await fs.readdir(folder)).toEqual(['home.xlsx']);
  });

  it('a file that was moved away since it was read is not made anew', async () => {
    await fs.writeFile(path, oldBytes);
    const fileSystem = meanwhile(() => fs.unlink(path));
    expect(await messageOf(saveBeside(path, newBytes, { replaces: oldBytes, fileSystem }))).toBe(
      refusal('was moved or deleted'),
    );
    expect(await fs.readdir(folder)).toEqual([]);
  });

  it('a file that was made where there was none stays', async () => {
    await fs.writeFile(path, others);
    expect(await messageOf(saveBeside(path, newBytes, { replaces: null }))).toBe(refusal('was made'));
    expect(await fs.readFile(path)).toEqual(others);
  });

  it('a file that a program opened meanwhile stays', async () => {
    await fs.writeFile(path, oldBytes);
    const fileSystem = meanwhile(() => fs.writeFile(join(folder, '.~lock.home.xlsx#'), ''));
    expect(await messageOf(saveBeside(path, newBytes, { fileSystem }))).toContain('open in another program');
    expect(await fs.readFile(path)).toEqual(oldBytes);
  });

  it('of two saves at once one is written, and that one says so', async () => {
    let written = 0;
    for (let round = 0; round < 40; round++) {
      await fs.writeFile(path, oldBytes);
      const both = ['the first', 'the second'].map((text) => Buffer.from(text));
      const outcomes = await Promise.allSettled(
        both.map((bytes) => saveBeside(path, bytes, { replaces: oldBytes })),
      );
      const done = both.filter((_, i) => outcomes[i]!.status === 'fulfilled');
      expect(done.length).toBeLessThan(2);
      for (const outcome of outcomes)
        if (outcome.status === 'rejected') expect(String(outcome.reason)).toMatch(/was changed|being saved/);
      expect(await fs.readFile(path)).toEqual(done[0] ?? oldBytes);
      expect(await fs.readdir(folder)).toEqual(['home.xlsx']);
      written += done.length;
    }
    console.log(`two saves at once, 40 times: ${written} written`);
    // Both may see the other and give way each time that they try, but seldom do.
    expect(written).toBeGreaterThan(36);
  });
});

describe('what another save left beside the file', () => {
  const DEAD = 2 ** 22 + 1; // Above the highest number of a process that Linux gives.
  const beside = (pid: number): string => unfinishedName(path).replace(`-${process.pid}-`, `-${pid}-`);

  it('is removed where its process is gone, or where it is old', async () => {
    await fs.writeFile(beside(DEAD), 'half');
    const old = beside(process.ppid);
    await fs.writeFile(old, 'half');
    await fs.utimes(old, new Date(0), new Date(0));
    await saveBeside(path, newBytes);
    expect(await fs.readdir(folder)).toEqual(['home.xlsx']);
  });

  it('is removed without a save, too', async () => {
    await fs.writeFile(path, oldBytes);
    await fs.writeFile(beside(DEAD), 'half');
    await fs.writeFile(join(folder, '.home.xlsx-notes'), 'somebody’s');
    await removeLeftovers(path);
    expect(await fs.readdir(folder)).toEqual(['.home.xlsx-notes', 'home.xlsx']);
  });

  it('stays where its process runs, and nothing is written', async () => {
    await fs.writeFile(path, oldBytes);
    const going = beside(process.ppid);
    await fs.writeFile(going, 'half');
    expect(await messageOf(saveBeside(path, newBytes))).toBe(
      `InputError: ${path}: the file is being saved by another run at this moment. Nothing was written. Run the command again. If no other is running, delete the leftover file '${basename(going)}'.`,
    );
    expect((await fs.readdir(folder)).sort()).toEqual([basename(going), 'home.xlsx']);
    expect(await fs.readFile(path)).toEqual(oldBytes);
    // One that ends soon is waited for.
    setTimeout(() => fs.unlink(going), 20);
    await saveBeside(path, newBytes, { replaces: oldBytes });
    expect(await fs.readFile(path)).toEqual(newBytes);
  });
});

describe('a signal to end', () => {
  it.each(['SIGINT', 'SIGTERM', 'SIGHUP'] as const)(
    '%s that comes while the file beside is being made waits, and removes it',
    async (signal) => {
      await fs.writeFile(path, oldBytes);
      const others = process.listeners(signal);
      const send = (): void => {
        for (const heed of process.listeners(signal)) if (!others.includes(heed)) heed(signal);
      };
      const ended = vi.spyOn(process, 'kill').mockReturnValue(true);
      let left: string[] | undefined;
      let heededBefore = false;
      const fileSystem: SaveFileSystem = {
        ...real,
        open: async (at, flags, mode) => {
          heededBefore ||= process.listeners(signal).length > others.length;
          setImmediate(send);
          await wait(20);
          return fs.open(at, flags, mode);
        },
        // The process would have ended by now.
        rename: async () => {
          left = await fs.readdir(folder);
          throw failure('ENOENT');
        },
      };
      try {
        await saveBeside(path, newBytes, { fileSystem }).catch(() => undefined);
        expect(heededBefore).toBe(true);
        expect(left).toEqual(['home.xlsx']);
        expect(ended).toHaveBeenCalledWith(process.pid, signal);
      } finally {
        ended.mockRestore();
      }
    },
  );
});

describe('a path that leads to no file', () => {
  it('links that lead in a circle', async () => {
    await fs.symlink(path, join(folder, 'other.xlsx'));
    await fs.symlink(join(folder, 'other.xlsx'), path);
    expect(await messageOf(saveBeside(path, newBytes))).toBe(
      `InputError: ${path}: its links lead in a circle. Give the path of the file itself.`,
    );
  });

  it('a device', async ({ skip }) => {
    skip(!existsSync('/dev/full'), 'needs /dev/full');
    expect(await messageOf(saveBeside('/dev/full', newBytes))).toBe(
      'InputError: /dev/full: this is a device, not a file. Give the name of a file.',
    );
    expect((await fs.stat('/dev/full')).isCharacterDevice()).toBe(true);
  });

  it('a name that is too long', async () => {
    expect(await messageOf(saveBeside(join(folder, 'n'.repeat(400)), newBytes))).toContain('too long');
  });
});

describe('when something fails', () => {
  type Handle = Awaited<ReturnType<SaveFileSystem['open']>>;

  /** The real file system, whose new files fail in one operation. */
  function failing(operation: keyof Handle, code: string): SaveFileSystem {
    return {
      ...real,
      open: async (...args) => {
        const handle = await fs.open(...args);
        const broken: Handle = {
          writeFile: (bytes) => handle.writeFile(bytes),
          sync: () => handle.sync(),
          chmod: (mode) => handle.chmod(mode),
          chown: (uid, gid) => handle.chown(uid, gid),
          close: () => handle.close(),
        };
        const failed = async () => {
          if (operation === 'close') await handle.close();
          throw failure(code);
        };
        return { ...broken, [operation]: failed };
      },
    };
  }
  const failingAt = (name: keyof SaveFileSystem, code: string): SaveFileSystem => ({
    ...real,
    [name]: () => Promise.reject(failure(code)),
  });

  it.each<[string, SaveFileSystem, string]>([
    ['the disk fills up', failing('writeFile', 'ENOSPC'), 'the disk is full'],
    ['the quota is used up', failing('writeFile', 'EDQUOT'), 'the disk is full'],
    ['the disk fills up late', failing('sync', 'ENOSPC'), 'the disk is full'],
    ['the disk fills up at the last moment', failing('close', 'ENOSPC'), 'the disk is full'],
    ['the folder may not be written', failingAt('open', 'EACCES'), 'there is no permission to write here'],
    ['the file may not be written', failingAt('access', 'EACCES'), 'there is no permission to write here'],
    ['the disk is read-only', failingAt('open', 'EROFS'), 'there is no permission to write here'],
    ['renaming is forbidden', failingAt('rename', 'EPERM'), 'there is no permission to write here'],
    ['the file is held open', failingAt('rename', 'EBUSY'), 'the workbook is open in another program'],
    ['the permissions cannot be kept', failing('chmod', 'EPERM'), 'there is no permission to write here'],
  ])('%s: the old file is whole, and nothing is left beside it', async (_, fileSystem, expected) => {
    await fs.writeFile(path, oldBytes);
    expect(await messageOf(saveBeside(path, newBytes, { fileSystem }))).toContain(
      `InputError: ${path}: ${expected}`,
    );
    expect(await fs.readFile(path)).toEqual(oldBytes);
    expect(await fs.readdir(folder)).toEqual(['home.xlsx']);
  });

  it('any other failure of the file system is told by its code', async () => {
    const fileSystem: SaveFileSystem = {
      ...real,
      rename: () => Promise.reject(Object.assign(failure('EIO'), { syscall: 'rename' })),
    };
    expect(await messageOf(saveBeside(path, newBytes, { fileSystem }))).toContain(
      'the file cannot be written (EIO). The old file is as it was.',
    );
    expect(await fs.readdir(folder)).toEqual([]);
  });

  it('a fault of the program is passed on as it is', async () => {
    const fileSystem: SaveFileSystem = { ...real, rename: () => Promise.reject(new TypeError('a fault')) };
    await expect(saveBeside(path, newBytes, { fileSystem })).rejects.toThrow(TypeError);
    expect(await fs.readdir(folder)).toEqual([]);
  });

  it('a folder that cannot be synced is no failure', async () => {
    const fileSystem: SaveFileSystem = {
      ...real,
      open: (at, flags, mode) =>
        at === folder ? Promise.reject(failure('EISDIR')) : fs.open(at, flags, mode),
    };
    await saveBeside(path, newBytes, { fileSystem });
    expect(await fs.readFile(path)).toEqual(newBytes);
  });
});

describe('on a disk that is really full', () => {
  it('the old file is whole, and nothing is left beside it', async ({ skip }) => {
    const disk = join(folder, 'disk');
    await fs.mkdir(disk);
    try {
      execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', disk], { stdio: 'ignore' });
    } catch {
      skip('a small disk can be mounted by the superuser of Linux only');
    }
    try {
      await fs.writeFile(join(disk, 'home.xlsx'), oldBytes);
      const message = await messageOf(saveBeside(join(disk, 'home.xlsx'), Buffer.alloc(100_000)));
      expect(message).toContain('the disk is full. The old file is as it was.');
      expect(await fs.readFile(join(disk, 'home.xlsx'))).toEqual(oldBytes);
      expect(await fs.readdir(disk)).toEqual(['home.xlsx']);
    } finally {
      execFileSync('umount', [disk]);
    }
  });
});
