import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { CalcProcess } from './calc-process.js';
import { SheetValues } from './sheet-values.js';

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

/**
 * One open workbook. Times are milliseconds inside LibreOffice. It is gone with the process that it was opened in: after a
 * time-out every request is refused with an error that says so.
 */
export class CalcDocument {
  private readonly transferPath: string;

  constructor(
    private readonly process: CalcProcess,
    private readonly document: number,
    readonly loadMs: number,
  ) {
    this.transferPath = join(process.folder, `values-${document}.bin`);
  }

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

  /**
   * Changes inputs as a user would; returns how long the change and what depends on it took.
   * @param cells what to type, all at once
   * @param settle works out all that waits to be; without it, as after a key press, only what is asked for next
   * @throws RangeError for a number that is not finite: no cell can hold one
   */
  async setCells(cells: readonly CellSetting[], { settle = true } = {}): Promise<number> {
    for (const { value, ...place } of cells) {
      if (typeof value === 'number' && !Number.isFinite(value)) {
        throw new RangeError(`${JSON.stringify(place)} can't be set to ${value}`);
      }
    }
    return (await this.call<{ milliseconds: number }>('set_cells', { cells, settle })).milliseconds;
  }

  /** Inserts blank columns or rows before one, counted from 1, as a user would. */
  async insert(sheet: string, what: 'column' | 'row', at: number, count: number): Promise<void> {
    await this.call('insert', { sheet, what, at, count });
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
    return this.process.call<Result>(method, { document: this.document, ...parameters });
  }
}
