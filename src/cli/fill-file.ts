import {
  type FilesReport,
  formatImportReport,
  type ImportOptions,
  type InputFile,
  importFiles,
  importGasFiles,
  importTemperatureFiles,
  readImportFiles,
} from '../readings/index.js';
import { assertTimeZone } from '../time/zone-clock.js';
import { type FillResult, fillWorkbook, workbookTimeZone } from '../workbook/fill/fill-workbook.js';
import { saveBeside } from '../workbook/package/index.js';
import type { Progress } from './progress.js';
import { readUserFile } from './read-file.js';

/** What to fill, from where, to where. */
export interface FillFileOptions {
  files: readonly string[];
  /** Files of gas and of outdoor temperature. */
  gasFiles?: readonly string[];
  temperatureFiles?: readonly string[];
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
  const reports: string[] = [];
  const read = async <Imported extends { report: FilesReport }>(
    paths: readonly string[] | undefined,
    importer: (files: InputFile[], importOptions: ImportOptions) => Imported,
  ): Promise<Imported | undefined> => {
    if (paths === undefined || paths.length === 0) return undefined;
    progress.begin('reading the files');
    const imported = importer(await readImportFiles([...paths]), { ...options.importOptions, timeZone });
    reports.push(formatImportReport(imported.report));
    return imported;
  };
  const imported = await read(options.files, importFiles);
  const gas = await read(options.gasFiles, importGasFiles);
  const temperature = await read(options.temperatureFiles, importTemperatureFiles);
  const result = fillWorkbook(bytes, options.workbook, imported, {
    timeZone,
    ...(gas === undefined ? {} : { gas: gas.periods }),
    ...(temperature === undefined ? {} : { temperature }),
    onConflict: options.importOptions.onConflict ?? 'refuse',
    onStep: (step) => progress.begin(step),
  });
  const written = result.bytes !== bytes || options.out !== options.workbook;
  if (written) {
    progress.begin('saving');
    await (options.save ?? saveBeside)(options.out, result.bytes);
  }
  progress.end();
  return { result, report: reports.join('\n'), written };
}
