import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** Work for a process of its own. */
export type ChildTask =
  /** Fills the sample's readings, year after year, into a workbook. */
  | { kind: 'fill'; workbook: string; out: string; years: number }
  /** Does what the fill command does. */
  | {
      kind: 'fill-files';
      workbook: string;
      out: string;
      files: string[];
      gasFiles: string[];
      temperatureFiles: string[];
    }
  /** Has exceljs write as many plain numbers. */
  | { kind: 'numbers'; count: number };

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

  /** @param task what it does */
  constructor(task: ChildTask) {
    this.child = fork(fileURLToPath(new URL('./child.ts', import.meta.url)), [JSON.stringify(task)]);
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

  /** Does one kind of work once, in a process that ends with it. */
  static async once(task: ChildTask): Promise<ChildAnswer> {
    const child = new MeasuredProcess(task);
    const answer = await child.run();
    child.end();
    return answer;
  }
}
