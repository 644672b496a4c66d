import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** What a run in a process of its own took. */
export interface ChildAnswer {
  ms: number;
  /** Cells that a fill wrote. */
  cells: number;
  /** Most memory that the process has held so far, MB. */
  peakMegabytes: number;
}

/** A process that does one kind of work whenever it is asked to. */
export class MeasuredProcess {
  private readonly child: ChildProcess;

  /** @param args task and its arguments, see `child.ts` */
  constructor(...args: string[]) {
    this.child = fork(fileURLToPath(new URL('./child.ts', import.meta.url)), args);
  }

  /** Does the work once. */
  run(): Promise<ChildAnswer> {
    return new Promise((resolve, reject) => {
      const ended = (code: number | null): void => reject(new Error(`a measurement ended with code ${code}`));
      this.child.once('exit', ended);
      this.child.once('message', (answer) => {
        this.child.off('exit', ended);
        resolve(answer as ChildAnswer);
      });
      this.child.send('run');
    });
  }

  /** Ends the process. */
  end(): void {
    this.child.disconnect();
  }
}
