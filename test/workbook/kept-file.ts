import { createHash, randomBytes } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = join(root, 'node_modules/.cache/test-workbooks');

/**
 * A file that takes seconds to make, kept between runs and shared by the test files.
 *
 * @param name what it is
 * @param key everything that its content depends on
 * @param make makes it
 */
export async function keptFile(
  name: string,
  key: string | Uint8Array,
  make: () => Uint8Array | Promise<Uint8Array>,
): Promise<Uint8Array> {
  const path = join(folder, `${name}-${createHash('sha256').update(key).digest('hex').slice(0, 16)}`);
  try {
    return readFileSync(path);
  } catch {
    const bytes = await make();
    mkdirSync(folder, { recursive: true });
    const beside = `${path}.${randomBytes(4).toString('hex')}`;
    writeFileSync(beside, bytes);
    renameSync(beside, path);
    forgetOld(name);
    return bytes;
  }
}

/** Of every kind only the newest few stay: each change of the source makes others. */
function forgetOld(name: string): void {
  const KEPT = 4;
  const paths = readdirSync(folder)
    .filter((file) => file.startsWith(`${name}-`))
    .map((file) => join(folder, file))
    .sort((a, b) => statSync(b).mtimeMs - statSync(a).mtimeMs);
  for (const path of paths.slice(KEPT)) rmSync(path, { force: true });
}

let source: string | undefined;

/** A text that changes whenever a source file, a starting input or a helper of the tests does. */
export function sourceKey(): string {
  if (source === undefined) {
    const hash = createHash('sha256').update(process.version);
    for (const part of ['src', 'workbook-template', 'test/workbook']) {
      for (const name of readdirSync(join(root, part), { recursive: true, encoding: 'utf8' }).sort()) {
        if (/(?<!\.test)\.(ts|json)$/.test(name))
          hash.update(name).update(readFileSync(join(root, part, name)));
      }
    }
    hash.update(readFileSync(join(root, 'package-lock.json')));
    source = hash.digest('hex');
  }
  return source;
}
