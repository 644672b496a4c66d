import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

interface BundleOptions {
  /** The module to start from. */
  entry: URL;
  /** `node` for a script that Node runs; `neutral` for one that may use no host's globals. */
  platform: 'node' | 'neutral';
  /** Name of the one variable that holds the entry's exports; none where it exports nothing. */
  globalName?: string;
  /** Comment on top. */
  banner: string;
}

/**
 * Bundles a module and all that it imports into one classic script.
 *
 * @returns its text
 * @throws Error when a module can't be found or read
 */
export async function bundleScript({ entry, platform, globalName, banner }: BundleOptions): Promise<string> {
  const result = await build({
    entryPoints: [fileURLToPath(entry)],
    bundle: true,
    write: false,
    charset: 'utf8',
    legalComments: 'inline',
    target: platform === 'node' ? 'node20' : 'es2019',
    format: platform === 'node' ? 'cjs' : 'iife',
    platform,
    ...(platform === 'neutral' ? { mainFields: ['module', 'main'], conditions: ['import', 'default'] } : {}),
    ...(globalName === undefined ? {} : { globalName }),
    banner: { js: banner },
    logLevel: 'silent',
  });
  return result.outputFiles[0]!.text;
}
