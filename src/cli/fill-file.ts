import { formatImportReport, type ImportOptions, importFiles, readImportFiles } from '../readings/index.js';
import { assertTimeZone } from '../time/zone-clock.js';
import { type FillResult, fillWorkbook, workbookTimeZone } from '../workbook/fill/fill-workbook.js';
import { saveBeside } from '../workbook/package/index.js';
import type { Progress } from './progress.js';
import { readUserFile } from './read-file.js';

/** What to fill, from where, to where. */
export interface FillFileOptions {
  files: readonly string[];
  workbook: string;
  out: string;
  timeZone?: string;
  importOptions: Omit<ImportOptions, 'timeZone'>;
  /** How the workbook is saved; beside the old one and renamed, where nothing else is said. */
  save?: (path: string, bytes: Uint8Array) => Promise<void>;
}

/** What a fill of a file did. */
export interface FilledFile {
  result: FillResult;
  /** What was understood and found in the files, as text; empty without files. */
  report: string;
  /** Whether the file was written. */
  written: boolean;
}

/**
 * Fills files of readings into a workbook file; the old file is whole until the new one is.
 *
 * @param options paths, zone and what the user says about the files
 * @param progress told what is being done
 * @returns what was done
 * @throws InputError when anything is wrong; then nothing is written
 */
export async function fillFile(options: FillFileOptions, progress: Progress): Promise<FilledFile> {
  if (options.timeZone !== undefined) assertTimeZone(options.timeZone, { line: '--time-zone' });
  const bytes = await readUserFile(options.workbook, 'Build one with: npm run build.');
  const timeZone = options.timeZone ?? workbookTimeZone(bytes, options.workbook);
  let report = '';
  let imported: ReturnType<typeof importFiles> | undefined;
  if (options.files.length > 0) {
    progress.begin('reading the files');
    imported = importFiles(await readImportFiles([...options.files]), { ...options.importOptions, timeZone });
    report = formatImportReport(imported.report);
  }
  const result = fillWorkbook(bytes, options.workbook, imported, {
    timeZone,
    onConflict: options.importOptions.onConflict ?? 'refuse',
    onStep: (step) => progress.begin(step),
  });
  const written = result.bytes !== bytes || options.out !== options.workbook;
  if (written) {
    progress.begin('saving');
    await (options.save ?? saveBeside)(options.out, result.bytes);
  }
  progress.end();
  return { result, report, written };
}
