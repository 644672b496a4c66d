import { resolve } from 'node:path';
import { InputError } from '../errors.js';
import { readUserFile } from '../read-user-file.js';
import {
  answersToRemember,
  type FileKind,
  type FilesReport,
  formatImportReport,
  type ImportOptions,
  type InputFile,
  importFiles,
  importGasFiles,
  importTemperatureFiles,
  type RecalledFile,
  type RememberedAnswers,
  readImportFiles,
  recallAnswers,
  remember,
  withRecalled,
} from '../readings/index.js';
import { assertTimeZone } from '../time/zone-clock.js';
import { clearTariff } from '../workbook/fill/clear-tariff.js';
import { type FillResult, fillWorkbook, workbookTimeZone } from '../workbook/fill/fill-workbook.js';
import { removeLeftovers, type SaveOptions, saveBeside } from '../workbook/package/index.js';
import { adviceForFile, mentionsFileOption } from './file-option.js';
import { generalKind, optionsByKind, type SaidOptions } from './options-by-kind.js';
import { overwritable } from './overwritable.js';
import type { Progress } from './progress.js';
import { rememberedAnswers, rowsOf } from './remembered-rows.js';
import { adviceOnRemembered, notRemembered, rememberedText } from './remembered-words.js';

/** What to fill, from where, to where. */
export interface FillFileOptions {
  files: readonly string[];
  /** Files of gas and of outdoor temperature. */
  gasFiles?: readonly string[];
  temperatureFiles?: readonly string[];
  workbook: string;
  out: string;
  timeZone?: string;
  /** Name of a tariff whose column is emptied first. */
  clearTariff?: string;
  /** What the user says about the files; what is said of all is about the readings, or the only kind of files given. */
  importOptions: SaidOptions;
  /** How a workbook is built, for the message where there is none; `npm run build` where nothing else is said. */
  buildCall?: string;
  /** How the workbook is saved; beside the old one and renamed, where nothing else is said. */
  save?: (path: string, bytes: Uint8Array, options: SaveOptions) => Promise<void>;
}

/** What a fill of a file did. */
export interface FilledFile {
  result: FillResult;
  /** What was understood and found in the files, as text; empty without files. */
  report: string;
  /** Whether the file was written. */
  written: boolean;
  /** Name of the tariff whose column was emptied. */
  clearedTariff?: string;
}

/** The workbook that is filled has readings too, but none to fill in. */
function assertNotAmong(files: readonly string[], workbook: string): void {
  const file = files.find((name) => resolve(name) === resolve(workbook));
  if (file === undefined) return;
  throw new InputError(
    'the workbook that is to be filled stands among the files of readings',
    'Name the files of your meter instead; without files the stored values are worked out anew.',
    { file },
  );
}

/**
 * Fills files of readings into a workbook file; the old file is whole until the new one is.
 *
 * @param options paths, zone and what the user says about the files
 * @param progress told what is being done
 * @returns what was done
 * @throws InputError when anything is wrong, `out` is another file than a workbook of ours, or it was changed meanwhile; then nothing is
 *   written
 */
export async function fillFile(options: FillFileOptions, progress: Progress): Promise<FilledFile> {
  if (options.timeZone !== undefined) assertTimeZone(options.timeZone, { line: '--time-zone' });
  const found = await readUserFile(
    options.workbook,
    `Check its path, or build a workbook (${options.buildCall ?? 'npm run build'}) and copy it there.`,
  );
  const replaces = options.out === options.workbook ? found : await overwritable(options.out);
  await removeLeftovers(options.out);
  const bytes =
    options.clearTariff === undefined ? found : clearTariff(found, options.workbook, options.clearTariff);
  const timeZone = options.timeZone ?? workbookTimeZone(bytes, options.workbook);
  const files: Record<FileKind, readonly string[]> = {
    readings: options.files,
    gas: options.gasFiles ?? [],
    temperature: options.temperatureFiles ?? [],
  };
  assertNotAmong(Object.values(files).flat(), options.workbook);
  const said = optionsByKind(files, options.importOptions);
  const reports: string[] = [];
  const before = rememberedAnswers(bytes, options.workbook);
  const told: RememberedAnswers[] = [];
  const recalledFiles: RecalledFile[] = [];
  const read = async <Imported extends { report: FilesReport }>(
    kind: FileKind,
    importer: (files: InputFile[], importOptions: ImportOptions) => Imported,
  ): Promise<Imported | undefined> => {
    if (files[kind].length === 0) return undefined;
    progress.begin('reading the files');
    const inputs = await readImportFiles([...files[kind]]);
    const isGeneral = kind === generalKind(files);
    const importOptions: ImportOptions = { ...said[kind], timeZone };
    const recalled = asOwnOptions(isGeneral, () => recallAnswers(inputs, importOptions, kind, before));
    const imported = asOwnOptions(isGeneral, () =>
      asRemembered(recalled, () => importer(inputs, withRecalled(importOptions, recalled))),
    );
    if (before.length > 0 || recalled.some(({ stated }) => Object.keys(stated).length > 0)) {
      recalledFiles.push(...recalled);
      told.push(...answersToRemember(inputs, recalled, importOptions, kind));
    }
    for (const file of imported.report.files) {
      const text = rememberedText(recalled.find((one) => one.file === file.file));
      if (text !== undefined) file.remembered = text;
    }
    const report = formatImportReport(imported.report);
    reports.push(isGeneral || !mentionsFileOption(report) ? report : `${report}${adviceForFile()}\n`);
    return imported;
  };
  const imported = await read('readings', importFiles);
  const gas = await read('gas', importGasFiles);
  const temperature = await read('temperature', importTemperatureFiles);
  const { answers, alike } = remember(before, told, recalledFiles);
  const { rows, left } = rowsOf(answers);
  const unkept = notRemembered(alike, left);
  if (unkept !== undefined) reports.push(unkept);
  const result = fillWorkbook(bytes, options.workbook, imported, {
    timeZone,
    ...(gas === undefined ? {} : { gas: gas.periods }),
    ...(temperature === undefined ? {} : { temperature }),
    ...(answers === before ? {} : { told: rows }),
    onConflict: options.importOptions.onConflict ?? 'refuse',
    onStep: (step) => progress.begin(step),
  });
  const written = result.bytes !== found || options.out !== options.workbook;
  if (written) {
    progress.begin('saving');
    await (options.save ?? saveBeside)(options.out, result.bytes, { replaces });
  }
  progress.end();
  return {
    result,
    report: reports.join('\n'),
    written,
    ...(options.clearTariff === undefined ? {} : { clearedTariff: options.clearTariff }),
  };
}

/** What goes wrong in a file that was read as others were told is told with that. */
function asRemembered<Result>(recalled: readonly RecalledFile[], work: () => Result): Result {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const { found, whatToDo, place } = error;
    const used = recalled.find(({ file, from }) => file === place.file && from !== undefined);
    if (used === undefined) throw error;
    throw new InputError(found, `${whatToDo} ${adviceOnRemembered(used)}`, place);
  }
}

/** Where the options for all files are about others, a question about a file says how to answer for it alone. */
function asOwnOptions<Result>(isGeneral: boolean, work: () => Result): Result {
  try {
    return work();
  } catch (error) {
    if (isGeneral || !(error instanceof InputError) || !mentionsFileOption(error.whatToDo)) throw error;
    const { found, whatToDo, place } = error;
    throw new InputError(found, `${whatToDo} ${adviceForFile(place.file)}`, place);
  }
}
