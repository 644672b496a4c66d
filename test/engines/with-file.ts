import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Lends a workbook as a file, which is gone afterwards. */
export async function withFile(bytes: Uint8Array, use: (path: string) => Promise<void>): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'workbook-'));
  try {
    const path = join(folder, 'workbook.xlsx');
    writeFileSync(path, bytes);
    await use(path);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
