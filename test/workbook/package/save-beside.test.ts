import { execFileSync } from 'node:child_process';
import * as fs from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type SaveFileSystem, saveBeside } from '../../../src/workbook/package/index.js';

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
    expect(await messageOf(saveBeside(path, newBytes, fileSystem))).toContain(
      `InputError: ${path}: ${expected}`,
    );
    expect(await fs.readFile(path)).toEqual(oldBytes);
    expect(await fs.readdir(folder)).toEqual(['home.xlsx']);
  });

  it('an unknown failure is passed on as it is', async () => {
    await expect(saveBeside(path, newBytes, failingAt('rename', 'EIO'))).rejects.toThrow('EIO');
    expect(await fs.readdir(folder)).toEqual([]);
  });

  it('a folder that cannot be synced is no failure', async () => {
    const fileSystem: SaveFileSystem = {
      ...real,
      open: (at, flags, mode) =>
        at === folder ? Promise.reject(failure('EISDIR')) : fs.open(at, flags, mode),
    };
    await saveBeside(path, newBytes, fileSystem);
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
