import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** What a measurement in a process of its own sends back. */
export interface ChildResult {
  ms: number;
  /** Cells that a fill wrote. */
  cells: number;
  /** Most memory that the process held, MB. */
  peakMegabytes: number;
}

/**
 * Measures in a process of its own.
 *
 * @param args task and its arguments, see `child.ts`
 */
export function runChild(...args: string[]): Promise<ChildResult> {
  return new Promise((resolve, reject) => {
    const child = fork(fileURLToPath(new URL('./child.ts', import.meta.url)), args);
    let result: ChildResult | undefined;
    child.on('message', (message) => {
      result = message as ChildResult;
    });
    child.on('error', reject);
    child.on('exit', (code) => {
      if (code === 0 && result !== undefined) resolve(result);
      else reject(new Error(`the measurement "${args[0]}" ended with code ${code}`));
    });
  });
}
