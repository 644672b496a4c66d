import { execFile } from 'node:child_process';
import { copyFile, mkdir, mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import { type Calc, startCalc } from './calc/start-calc.js';

export interface RenderOptions {
  /** Sheets to render, hidden ones too; default: every visible sheet. */
  sheets?: readonly string[];
  /**
   * `print`: the printed pages. `screen`: the cells that a window of this size shows at 100 %, on one picture.
   * Default `print`.
   */
  view?: 'print' | { widthPixels: number; heightPixels: number };
  /** Printed pages of each sheet, by name or for all; a year of half-hours has hundreds. Default 1. */
  pages?: number | ((sheet: string) => number);
  /** Default 96: one pixel of the picture is one of the screen. */
  dotsPerInch?: number;
  /** A running LibreOffice to use, instead of one of its own. */
  calc?: Calc;
  /** Called before each sheet. */
  onProgress?: (sheet: string, index: number, count: number) => void;
}

export interface SheetPicture {
  sheet: string;
  /** From 1. */
  page: number;
  path: string;
}

/**
 * Renders the sheets of a workbook to PNG files named after them, through LibreOffice's PDF export and `pdftoppm`.
 * A sheet's first page is `Answer.png`, its second `Answer-2.png`. The workbook is calculated afresh and not changed.
 *
 * @param workbookPath the .xlsx or .ods
 * @param outFolder where the pictures go; it is made if need be
 * @returns the pictures in the order of the sheets; a sheet with nothing to print has none
 * @throws Error where LibreOffice or `pdftoppm` is not installed, or the workbook cannot be loaded
 */
export async function renderSheets(
  workbookPath: string,
  outFolder: string,
  options: RenderOptions = {},
): Promise<SheetPicture[]> {
  const { view = 'print', pages = 1, dotsPerInch = 96, onProgress } = options;
  await mkdir(outFolder, { recursive: true });
  const work = await mkdtemp(join(tmpdir(), 'render-'));
  const calc = options.calc ?? (await startCalc());
  try {
    const document = await calc.open(resolve(workbookPath));
    const sheets =
      options.sheets ?? (await document.sheets()).filter((sheet) => sheet.visible).map(({ name }) => name);
    const pictures: SheetPicture[] = [];
    for (const [index, sheet] of sheets.entries()) {
      onProgress?.(sheet, index, sheets.length);
      const pdfPath = join(work, `${index}.pdf`);
      await document.render({
        sheet,
        pdfPath,
        lastPage: view !== 'print' ? 1 : typeof pages === 'number' ? pages : pages(sheet),
        ...(view === 'print' ? {} : { screen: { width: view.widthPixels, height: view.heightPixels } }),
      });
      for (const [page, from] of (await toPictures(pdfPath, dotsPerInch)).entries()) {
        const path = join(outFolder, `${fileName(sheet)}${page === 0 ? '' : `-${page + 1}`}.png`);
        await copyFile(from, path);
        pictures.push({ sheet, page: page + 1, path });
      }
    }
    await document.close();
    return pictures;
  } finally {
    if (options.calc === undefined) await calc.stop();
    await rm(work, { recursive: true, force: true });
  }
}

/** Pictures of a PDF's pages, in order. */
async function toPictures(pdfPath: string, dotsPerInch: number): Promise<string[]> {
  const folder = `${pdfPath}.pages`;
  await mkdir(folder);
  try {
    await promisify(execFile)('pdftoppm', ['-png', '-r', String(dotsPerInch), pdfPath, join(folder, 'page')]);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
    throw new Error('pdftoppm is not installed (Debian: poppler-utils)');
  }
  // pdftoppm pads the numbers to one width, so that they sort as texts.
  return (await readdir(folder)).sort().map((name) => join(folder, name));
}

/** The sheet's name as a file name; spaces become hyphens. */
function fileName(sheet: string): string {
  return sheet
    .replace(/[\\/:*?"<>|&']+/g, '')
    .trim()
    .replace(/\s+/g, '-');
}
