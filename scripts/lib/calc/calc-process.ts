import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { findCalc } from './find-calc.js';

/** How a process of LibreOffice is started. */
export interface CalcProcessOptions {
  recalculateOnLoad: 'always' | 'never';
  /** Language and country by which it reads and writes numbers, for example `de-DE`. */
  locale: string;
  /** Limit of one request, start included, ms; asked before each. */
  limitMs: () => number;
  extensions: readonly string[];
  environment: NodeJS.ProcessEnv;
}

interface Waiting {
  resolve: (result: never) => void;
  reject: (error: Error) => void;
  timer: NodeJS.Timeout;
}

interface Answer {
  id: number;
  result?: unknown;
  error?: string;
  /** The office is gone, so that no later request can be met. */
  ended?: boolean;
}

const bridgeScript = fileURLToPath(new URL('./calc_bridge.py', import.meta.url));
const PATIENCE_MS = 5000;

/** One process of LibreOffice with its bridge and a profile of its own; once it is over, it stays so. */
export class CalcProcess {
  /** Holds the profile; removed by `end`. */
  readonly folder = mkdtempSync(join(tmpdir(), 'calc-'));
  /** Process group of the office; 0 until it has started. */
  officeProcess = 0;
  private readonly child: ChildProcessWithoutNullStreams;
  private readonly waiting = new Map<number, Waiting>();
  private readonly closed: Promise<void>;
  private nextId = 1;
  private stderr = '';
  private whyOver: Error | undefined;

  /**
   * Starts one.
   * @throws Error that says what is not installed, or what LibreOffice printed when it did not start
   */
  static async start(options: CalcProcessOptions): Promise<CalcProcess> {
    const programs = findCalc();
    if ('missing' in programs) throw new Error(programs.missing);
    const calc = new CalcProcess(programs.python, programs.soffice, options);
    try {
      calc.officeProcess = (await calc.wait<{ officeProcess: number }>(0, 'start')).officeProcess;
    } catch (error) {
      await calc.end();
      throw error;
    }
    return calc;
  }

  private constructor(
    python: string,
    soffice: string,
    private readonly options: CalcProcessOptions,
  ) {
    const { recalculateOnLoad, locale, limitMs, extensions, environment } = options;
    this.child = spawn(
      python,
      [
        bridgeScript,
        soffice,
        this.folder,
        recalculateOnLoad,
        locale,
        String(limitMs() / 1000),
        ...extensions,
      ],
      { stdio: ['pipe', 'pipe', 'pipe'], detached: true, env: environment },
    );
    this.child.stderr.setEncoding('utf8').on('data', (text: string) => {
      this.stderr = (this.stderr + text).slice(-4000);
    });
    this.child.stdin.on('error', () => {}); // The exit handler below reports a bridge that has gone.
    createInterface({ input: this.child.stdout }).on('line', (line) => this.receive(line));
    this.closed = new Promise((resolve) => {
      this.child.on('error', (error) => this.fail(error));
      this.child.on('close', (code) => {
        this.fail(new Error(`The LibreOffice bridge ended with code ${code}. ${this.stderr}`));
        resolve();
      });
    });
  }

  /** Whether it can't meet another request. */
  get isOver(): boolean {
    return this.whyOver !== undefined;
  }

  /** Sends one request to the bridge. */
  call<Result>(method: string, parameters: Record<string, unknown>): Promise<Result> {
    if (this.whyOver !== undefined) {
      return Promise.reject(
        new Error(
          `The LibreOffice that this workbook was open in is gone; open it again. ${this.whyOver.message}`,
        ),
      );
    }
    const id = this.nextId++;
    const result = this.wait<Result>(id, method);
    this.child.stdin.write(`${JSON.stringify({ id, method, parameters })}\n`);
    return result;
  }

  /** Ends LibreOffice and removes its profile. Safe to call twice. */
  async end(): Promise<void> {
    this.whyOver ??= new Error('It was stopped.');
    this.child.stdin.end();
    const patience = setTimeout(() => this.kill(), PATIENCE_MS);
    await this.closed;
    clearTimeout(patience);
    rmSync(this.folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 50 });
  }

  private wait<Result>(id: number, what: string): Promise<Result> {
    return new Promise((resolve, reject) => {
      const limitMs = this.options.limitMs();
      const timer = setTimeout(() => {
        this.fail(
          new Error(`LibreOffice gave no answer to "${what}" within ${limitMs / 1000} s; it was ended.`),
        );
        this.kill();
      }, limitMs);
      this.waiting.set(id, { resolve: resolve as (result: never) => void, reject, timer });
    });
  }

  private receive(line: string): void {
    let answer: Answer;
    try {
      answer = JSON.parse(line) as Answer;
    } catch {
      this.fail(new Error(`The LibreOffice bridge said what is no answer: ${line.slice(0, 200)}`));
      this.kill();
      return;
    }
    const waiting = this.waiting.get(answer.id);
    if (waiting === undefined) return;
    this.waiting.delete(answer.id);
    clearTimeout(waiting.timer);
    const error = answer.error === undefined ? undefined : new Error(answer.error);
    if (answer.ended === true) this.fail(error ?? new Error('LibreOffice has ended.'));
    if (error === undefined) waiting.resolve(answer.result as never);
    else waiting.reject(error);
  }

  private fail(error: Error): void {
    this.whyOver ??= error;
    for (const { reject, timer } of this.waiting.values()) {
      clearTimeout(timer);
      reject(error);
    }
    this.waiting.clear();
  }

  private kill(): void {
    killGroup(this.officeProcess);
    // The bridge notices that its stdin is closed, reaps the office and ends; if it is stuck, it is ended too.
    this.child.stdin.end();
    setTimeout(() => killGroup(this.child.pid ?? 0), 2000).unref();
  }
}

function killGroup(group: number): void {
  if (group === 0) return;
  try {
    process.kill(-group, 'SIGKILL');
  } catch {
    // It has gone already.
  }
}
