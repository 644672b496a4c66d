import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { keptFile } from './kept-file.js';

/** The workbook as LibreOffice saves it. It takes half a minute, so it is kept between runs. */
export function savedByLibreOffice(bytes: Uint8Array): Promise<Uint8Array> {
  return keptFile('libreoffice.xlsx', bytes, () =>
    inFolder(bytes, (folder, path) => {
      const profile = `-env:UserInstallation=${pathToFileURL(join(folder, 'profile')).href}`;
      const saved = join(folder, 'saved');
      execFileSync('soffice', [profile, '--headless', '--convert-to', 'xlsx', '--outdir', saved, path], {
        stdio: 'ignore',
      });
      return join(saved, 'home.xlsx');
    }),
  );
}

/** The workbook as Gnumeric saves it. */
export function savedByGnumeric(bytes: Uint8Array): Promise<Uint8Array> {
  return keptFile('gnumeric.xlsx', bytes, () =>
    inFolder(bytes, (folder, path) => {
      const saved = join(folder, 'saved.xlsx');
      execFileSync('ssconvert', [path, saved], { stdio: 'ignore', env: { ...process.env, HOME: folder } });
      return saved;
    }),
  );
}

function inFolder(bytes: Uint8Array, save: (folder: string, path: string) => string): Uint8Array {
  const folder = mkdtempSync(join(tmpdir(), 'saved-by-'));
  try {
    const path = join(folder, 'home.xlsx');
    writeFileSync(path, bytes);
    return readFileSync(save(folder, path));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
