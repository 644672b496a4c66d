import { fork } from 'node:child_process';
import { text } from 'node:stream/consumers';
import { fileURLToPath } from 'node:url';
import { SAMPLE_INPUTS } from './sample-input.js';

/**
 * Builds a workbook with room for a number of days, by the build command.
 *
 * @param days how many
 * @param out path of the .xlsx file
 * @returns why it was not built, where the build can't choose the days; undefined where it was
 * @throws Error with what the build says when it fails otherwise
 */
export async function buildWithDays(days: number, out: string): Promise<string | undefined> {
  const build = fork(
    fileURLToPath(new URL('../../build.ts', import.meta.url)),
    ['--days', String(days), '--inputs', SAMPLE_INPUTS, '--out', out],
    { stdio: ['ignore', 'ignore', 'pipe', 'ipc'] },
  );
  const ended = new Promise<number | null>((resolve, reject) => {
    build.once('error', reject);
    build.once('exit', resolve);
  });
  const said = await text(build.stderr!);
  if ((await ended) === 0) return undefined;
  if (said.includes("unknown option '--days'")) return 'the build has no option for the number of days';
  throw new Error(`a workbook of ${days} days could not be built: ${said.trim()}`);
}
