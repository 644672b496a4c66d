import { performance } from 'node:perf_hooks';

/** Tells on the error stream what is being done, so that standard output stays clean for pipes. */
export class Progress {
  private readonly started = performance.now();
  private stepStarted = this.started;
  private step = '';

  constructor(
    private readonly stream: { write(text: string): unknown; isTTY?: boolean } = process.stderr,
    private readonly now: () => number = () => performance.now(),
  ) {}

  /** Starts a step; the one before it is told with its time. */
  begin(step: string): void {
    this.finishStep();
    this.step = step;
    this.stepStarted = this.now();
    if (this.stream.isTTY === true) this.stream.write(`  ${step} …`);
  }

  /** Ends the last step. */
  end(): void {
    this.finishStep();
    this.step = '';
  }

  private finishStep(): void {
    if (this.step === '') return;
    const seconds = ((this.now() - this.stepStarted) / 1000).toFixed(1);
    const line = `  ${this.step}: ${seconds} s\n`;
    // On a terminal the line is written over the one that announced the step.
    this.stream.write(this.stream.isTTY === true ? `\r\u001b[2K${line}` : line);
  }
}
