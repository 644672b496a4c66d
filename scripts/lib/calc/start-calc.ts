import { CalcDocument } from './calc-document.js';
import { CalcProcess, type CalcProcessOptions } from './calc-process.js';
import { scaledLimitMs } from './time-limit.js';

export {
  type CalcChart,
  CalcDocument,
  type CalcSheet,
  type CellSetting,
  type RenderArea,
} from './calc-document.js';

export interface CalcOptions {
  /** What a load does with the values that the file carries: recalculate all of them, or trust them. */
  recalculateOnLoad?: 'always' | 'never';
  /** Language and country by which it reads and writes numbers. Default `en-GB`. */
  locale?: string;
  /** Limit of one request, start included. Default 120 s, more where the machine is busy or slow. */
  timeoutMs?: number;
  /** Paths of extensions to install in its profile first. */
  extensions?: readonly string[];
  /** Environment of LibreOffice; by default that of this process. */
  environment?: NodeJS.ProcessEnv;
}

/** What LibreOffice's function wizard shows for one function. */
export interface CalcFunctionHelp {
  description: string;
  arguments: { name: string; description: string; isOptional: boolean }[];
}

const USUAL_LIMIT_MS = 120_000;

/**
 * Starts a headless LibreOffice with a profile of its own; several may run side by side.
 * Stop it when done; it also ends by itself when this process does, however that happens.
 * @throws Error that says what is not installed, or what LibreOffice printed when it did not start
 */
export async function startCalc(options: CalcOptions = {}): Promise<Calc> {
  const limit = { timeoutMs: options.timeoutMs ?? scaledLimitMs(USUAL_LIMIT_MS) };
  const processOptions: CalcProcessOptions = {
    recalculateOnLoad: options.recalculateOnLoad ?? 'always',
    locale: options.locale ?? 'en-GB',
    limitMs: () => limit.timeoutMs,
    extensions: options.extensions ?? [],
    environment: options.environment ?? process.env,
  };
  return new Calc(await CalcProcess.start(processOptions), processOptions, limit);
}

/**
 * A LibreOffice Calc to ask things of. A request that takes too long ends its process and everything that was open in it;
 * the next workbook to be opened gets a new one, so that one slow test doesn't fail those after it.
 */
export class Calc {
  private restarting: Promise<CalcProcess> | undefined;
  private stopped = false;

  constructor(
    private current: CalcProcess,
    private readonly options: CalcProcessOptions,
    private readonly limit: { timeoutMs: number },
  ) {}

  /** Limit of one request, ms. */
  get timeoutMs(): number {
    return this.limit.timeoutMs;
  }

  set timeoutMs(limitMs: number) {
    this.limit.timeoutMs = limitMs;
  }

  /** Holds the profile; removed by `stop`. */
  get folder(): string {
    return this.current.folder;
  }

  /** Process group of the office. */
  get officeProcess(): number {
    return this.current.officeProcess;
  }

  /** Opens a copy of the file in memory; the file itself is never written and gets no lock. */
  async open(path: string): Promise<CalcDocument> {
    const process = await this.running();
    const { document, milliseconds } = await process.call<{ document: number; milliseconds: number }>(
      'open',
      {
        path,
      },
    );
    return new CalcDocument(process, document, milliseconds);
  }

  /** Help of those of the named functions that LibreOffice knows, by name. */
  async functionHelp(names: readonly string[]): Promise<Record<string, CalcFunctionHelp>> {
    const process = await this.running();
    const { functions } = await process.call<{ functions: Record<string, CalcFunctionHelp> }>(
      'function_help',
      { names },
    );
    return functions;
  }

  /** Ends LibreOffice and removes its profile. Safe to call twice. */
  async stop(): Promise<void> {
    this.stopped = true;
    await this.restarting?.catch(() => {});
    await this.current.end();
  }

  /** The process that meets requests: a new one where the last is over. */
  private async running(): Promise<CalcProcess> {
    if (this.stopped) throw new Error('This LibreOffice was stopped.');
    if (!this.current.isOver) return this.current;
    this.restarting ??= this.restart().finally(() => {
      this.restarting = undefined;
    });
    return this.restarting;
  }

  private async restart(): Promise<CalcProcess> {
    // The old one is gone first: two of them want twice the memory.
    await this.current.end();
    this.current = await CalcProcess.start(this.options);
    return this.current;
  }
}
