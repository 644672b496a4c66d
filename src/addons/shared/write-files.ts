import { mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** Files by path relative to their folder. */
export type AddonFiles = ReadonlyMap<string, string | Uint8Array>;

/**
 * Writes files into a folder of their own, in place of all that was in it. The folder is complete or untouched.
 *
 * @param folder replaced; its parents are made
 */
export function writeFiles(folder: string, files: AddonFiles): void {
  const fresh = `${folder}.new`;
  rmSync(fresh, { recursive: true, force: true });
  for (const [path, content] of files) {
    const target = join(fresh, path);
    mkdirSync(dirname(target), { recursive: true });
    writeFileSync(target, content);
  }
  rmSync(folder, { recursive: true, force: true });
  renameSync(fresh, folder);
}
