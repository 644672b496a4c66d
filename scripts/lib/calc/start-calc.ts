import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { findCalc } from './find-calc.js';
import { SheetValues } from './sheet-values.js';

export interface CalcOptions {
  /** What a load does with the values that the file carries: recalculate all of them, or trust them. */
  recalculateOnLoad?: 'always' | 'never';
  /** Limit of one request, start included. Default 120 s. */
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

/** One cell by its place or by its defined name. A date is its serial number; null clears the cell. */
export type CellSetting = ({ sheet: string; cell: string } | { name: string }) & {
  value: number | string | boolean | null;
};

export interface CalcSheet {
  name: string;
  visible: boolean;
  /** Used rows and columns, counted from A1. */
  rows: number;
  columns: number;
}

export interface CalcChart {
  name: string;
  title: string;
  alternativeText: string;
  types: string[];
  axisTitles: string[];
  /** Ranges in LibreOffice's writing: `$Sheet.$B$2:$B$5`. */
  series: { values: string; categories: string; label: string; labelText: string }[];
}

export interface RenderArea {
  sheet: string;
  pdfPath: string;
  firstPage?: number;
  lastPage?: number;
  /** Instead of printed pages: one page with the cells that a window of this size shows at 100 %, in pixels. */
  screen?: { width: number; height: number };
}

const HUNDREDTHS_OF_MM_PER_PIXEL = 2540 / 96;
const bridgeScript = fileURLToPath(new URL('./calc_bridge.py', import.meta.url));

/**
 * Starts a headless LibreOffice with a profile of its own; several may run side by side.
 * Stop it when done; it also ends by itself when this process does, however that happens.
 * @throws Error that says what is not installed, or what LibreOffice printed when it did not start
 */
export async function startCalc(options: CalcOptions = {}): Promise<Calc> {
  const programs = findCalc();
  if ('missing' in programs) throw new Error(programs.missing);
  const folder = mkdtempSync(join(tmpdir(), 'calc-'));
  const timeoutMs = options.timeoutMs ?? 120_000;
  const child = spawn(
    programs.python,
    [
      bridgeScript,
      programs.soffice,
      folder,
      options.recalculateOnLoad ?? 'always',
      String(timeoutMs / 1000),
      ...(options.extensions ?? []),
    ],
    { stdio: ['pipe', 'pipe', 'pipe'], detached: true, env: options.environment ?? process.env },
  );
  const calc = new Calc(child, folder, timeoutMs);
  await calc.started;
  return calc;
}

interface Waiting {
  resolve: (result: never) => void;
  reject: (error: Error) => void;
  timer: NodeJS.Timeout;
}

/** A running LibreOffice Calc. */
export class Calc {
  /** Settles when LibreOffice answers. */
  readonly started: Promise<void>;
  private readonly waiting = new Map<number, Waiting>();
  private readonly ended: Promise<void>;
  private nextId = 1;
  /** Process group of the office. */
  officeProcess = 0;
  private stderr = '';
  private over = false;

  constructor(
    private readonly child: ChildProcessWithoutNullStreams,
    /** Holds the profile; removed by `stop`. */
    readonly folder: string,
    /** Limit of one request. */
    public timeoutMs: number,
  ) {
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      this.stderr = (this.stderr + text).slice(-4000);
    });
    child.stdin.on('error', () => {}); // The exit handler below reports a bridge that has gone.
    createInterface({ input: child.stdout }).on('line', (line) => this.receive(line));
    this.ended = new Promise((resolve) => {
      child.on('error', (error) => this.fail(error));
      child.on('close', (code) => {
        this.fail(new Error(`The LibreOffice bridge ended with code ${code}. ${this.stderr}`));
        resolve();
      });
    });
    this.started = this.wait<{ officeProcess: number }>(0, 'start').then(({ officeProcess }) => {
      this.officeProcess = officeProcess;
    });
  }

  /** Opens a copy of the file in memory; the file itself is never written and gets no lock. */
  async open(path: string): Promise<CalcDocument> {
    const { document, milliseconds } = await this.call<{ document: number; milliseconds: number }>('open', {
      path,
    });
    return new CalcDocument(this, document, milliseconds, join(this.folder, `values-${document}.bin`));
  }

  /** Help of those of the named functions that LibreOffice knows, by name. */
  async functionHelp(names: readonly string[]): Promise<Record<string, CalcFunctionHelp>> {
    const { functions } = await this.call<{ functions: Record<string, CalcFunctionHelp> }>('function_help', {
      names,
    });
    return functions;
  }

  /** Ends LibreOffice and removes its profile. Safe to call twice. */
  async stop(): Promise<void> {
    this.over = true;
    this.child.stdin.end();
    const patience = setTimeout(() => this.kill(), 5000);
    await this.ended;
    clearTimeout(patience);
    rmSync(this.folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 50 });
  }

  /** Sends one request to the bridge; the handles below are the way to use it. */
  call<Result>(method: string, parameters: Record<string, unknown>): Promise<Result> {
    if (this.over) return Promise.reject(new Error('This LibreOffice was stopped.'));
    const id = this.nextId++;
    const result = this.wait<Result>(id, method);
    this.child.stdin.write(`${JSON.stringify({ id, method, parameters })}\n`);
    return result;
  }

  private wait<Result>(id: number, what: string): Promise<Result> {
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => {
        this.fail(
          new Error(
            `LibreOffice gave no answer to "${what}" within ${this.timeoutMs / 1000} s; it was ended.`,
          ),
        );
        this.kill();
      }, this.timeoutMs);
      this.waiting.set(id, { resolve: resolve as (result: never) => void, reject, timer });
    });
  }

  private receive(line: string): void {
    const { id, result, error } = JSON.parse(line) as { id: number; result?: unknown; error?: string };
    const waiting = this.waiting.get(id);
    if (waiting === undefined) return;
    this.waiting.delete(id);
    clearTimeout(waiting.timer);
    if (error === undefined) waiting.resolve(result as never);
    else waiting.reject(new Error(error));
  }

  private fail(error: Error): void {
    this.over = true;
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

/** One open workbook. Times are milliseconds inside LibreOffice. */
export class CalcDocument {
  constructor(
    private readonly calc: Calc,
    private readonly document: number,
    readonly loadMs: number,
    private readonly transferPath: string,
  ) {}

  async sheets(): Promise<CalcSheet[]> {
    return (await this.call<{ sheets: CalcSheet[] }>('sheets')).sheets;
  }

  /** Defined names and what they refer to, in LibreOffice's writing. */
  async names(): Promise<{ name: string; content: string }[]> {
    return (await this.call<{ names: { name: string; content: string }[] }>('names')).names;
  }

  /** Calculates every formula again, whatever is stored; returns how long it took. */
  async recalculateAll(): Promise<number> {
    return (await this.call<{ milliseconds: number }>('recalculate_all')).milliseconds;
  }

  /** Changes inputs as a user would; returns how long the change and what depends on it took. */
  async setCells(cells: readonly CellSetting[]): Promise<number> {
    return (await this.call<{ milliseconds: number }>('set_cells', { cells })).milliseconds;
  }

  /** Values of the whole used area, or of a range such as `A1:D20`. Booleans come as the numbers 0 and 1. */
  async readSheet(sheet: string, options: { range?: string } = {}): Promise<SheetValues> {
    const head = await this.call<{
      sheet: string;
      firstRow: number;
      firstColumn: number;
      rows: number;
      columns: number;
      texts: string[];
      formulas: [number, number, number, number][];
    }>('read_sheet', { sheet, area: options.range ?? null, out: this.transferPath });
    const bytes = readFileSync(this.transferPath);
    rmSync(this.transferPath);
    const count = head.rows * head.columns;
    const kinds = new Uint8Array(bytes.subarray(0, count));
    const slots = new Float64Array(new Uint8Array(bytes.subarray(count, count * 9)).buffer);
    const values = new SheetValues(
      head.sheet,
      head.firstRow,
      head.firstColumn,
      head.rows,
      head.columns,
      kinds,
      slots,
      head.texts,
    );
    for (const [top, left, bottom, right] of head.formulas) {
      values.markFormulas(top + 1, left + 1, bottom + 1, right + 1);
    }
    return values;
  }

  /** Every sheet's values by name. */
  async readAll(): Promise<Map<string, SheetValues>> {
    const result = new Map<string, SheetValues>();
    for (const { name } of await this.sheets()) result.set(name, await this.readSheet(name));
    return result;
  }

  /** Formula texts of a range in LibreOffice's writing: `=SUM(A1:A3;Rates.B2)`. */
  async readFormulas(
    sheet: string,
    range: string,
  ): Promise<{ row: number; column: number; formula: string }[]> {
    const { formulas } = await this.call<{ formulas: [number, number, string][] }>('read_formulas', {
      sheet,
      area: range,
    });
    return formulas.map(([row, column, formula]) => ({ row, column, formula }));
  }

  async charts(sheet: string): Promise<CalcChart[]> {
    return (await this.call<{ charts: CalcChart[] }>('charts', { sheet })).charts;
  }

  async saveAs(path: string, fileType: 'xlsx' | 'ods' | 'pdf'): Promise<void> {
    await this.call('save_as', { path, file_type: fileType });
  }

  /** Prints one sheet, hidden or not, to a PDF; nothing else of the document changes. */
  async render(area: RenderArea): Promise<void> {
    const toHundredths = (pixels: number) => Math.round(pixels * HUNDREDTHS_OF_MM_PER_PIXEL);
    await this.call('render', {
      sheet: area.sheet,
      path: area.pdfPath,
      first_page: area.firstPage ?? 1,
      last_page: area.lastPage ?? 1,
      screen: area.screen
        ? { width: toHundredths(area.screen.width), height: toHundredths(area.screen.height) }
        : null,
    });
  }

  async close(): Promise<void> {
    await this.call('close');
  }

  private call<Result>(method: string, parameters: Record<string, unknown> = {}): Promise<Result> {
    return this.calc.call<Result>(method, { document: this.document, ...parameters });
  }
}
