import { buildWorkbook } from '../build/build-workbook.js';
import { checkStart } from '../build/check-start.js';
import { columnNumber } from '../cell-address.js';
import { TOLD, TOLD_KEYS } from '../fields/told-places.js';
import { blankStart } from '../fill/blank-start.js';
import { fillWorkbook } from '../fill/fill-workbook.js';
import { checkTimeZone } from '../inputs/check-inputs.js';
import { FIRST_ROW, SHEETS } from '../layout.js';
import { declareBook } from '../model/book.js';
import { READING } from '../model/columns.js';
import { TEMPERATURE } from '../model/heating/heating-rows.js';
import { workbookModel } from '../model/workbook-model.js';
import { cellName, type InputColumn, openWorkbookPackage } from '../package/index.js';
import type { WorkbookValues } from '../workbook-values.js';
import { READING_KEYS, TEMPERATURE_KEYS } from './earlier-layout.js';
import { type NotCarriedStretch, stretchesOf } from './not-carried.js';
import { openEarlier } from './open-earlier.js';
import { ownParts } from './own-parts.js';
import { projectNames } from './project-names.js';
import { type Columns, readTyped } from './read-typed.js';
import { roomFor } from './room.js';
import { todaysLayout } from './todays-layout.js';
import { writeOwn } from './write-own.js';

/** How to carry a workbook over. */
export interface CarryOptions {
  /** Days that the new workbook holds; by default as many as the old one, or as the readings need. */
  days?: number;
  /** Marks what is worked out beside the formulas; by default the time of the computer. */
  now?: Date;
  /** Told what is being done, for progress. */
  onStep?: (step: string) => void;
}

/** What was carried over. */
export interface Carried {
  /** The new workbook as a file. */
  bytes: Uint8Array;
  /** What it holds. */
  values: WorkbookValues;
  /** Layout of the old workbook. */
  layout: number;
  /** Days that the old workbook holds, and the new one. */
  daysBefore: number;
  days: number;
  /** Rows with a time. */
  readings: number;
  gasRows: number;
  temperatureDays: number;
  /** The user's sheets, by their names in the new workbook. */
  ownSheets: string[];
  /** The user's cells on sheets of the project. */
  ownCells: number;
  comments: number;
  notCarried: NotCarriedStretch[];
}

/**
 * Carries a workbook of an earlier layout, or of today's, over into a fresh one: every input, readings, gas,
 * temperatures, the period, the user's cells, comments and sheets. Every value of the new one is worked out anew.
 *
 * @param oldBytes the old workbook; it is not changed
 * @param file its name, for messages
 * @param options days, progress
 * @returns the new workbook and what is not in it
 * @throws InputError when the workbook is none of ours, of a newer layout, something was moved in it, an input can't be
 *   worked with, or its readings need more days than asked for or possible
 */
export async function carryWorkbook(
  oldBytes: Uint8Array,
  file: string,
  options: CarryOptions = {},
): Promise<Carried> {
  const step = options.onStep ?? (() => {});
  step('reading the old workbook');
  const old = openEarlier(oldBytes, file);
  const { workbook } = old;
  const places = old.layoutFor(old.days).inputs;
  const { start, readings, temperatures, told, notCarried } = readTyped(workbook, places);
  checkTimeZone(start.home.timeZone, file);
  const { days } = roomFor(readings.start, old.days, options.days, {
    file,
    cellOf: (row) =>
      `${places.readings.sheet}!${places.readings.letters.start}${places.readings.firstRow + row}`,
  });
  const book = declareBook(days);
  checkStart(start, file);

  const model = workbookModel(blankStart(), book);
  const names = new Set(projectNames(model).map((name) => name.toLowerCase()));
  const today = todaysLayout(book, model, names, model);
  const own = ownParts(old, old.layoutFor(days), today, names);

  step('building the new one');
  const built = await buildWorkbook(start, days, {
    sheets: own.sheets.map(({ name }) => name),
    comments: own.comments.map(({ sheet, row, column, text }) => ({
      sheet,
      at: cellName(row, column),
      text,
    })),
  });
  const fresh = openWorkbookPackage(writeOwn(built, workbook, own), file);
  fresh.editSheet(SHEETS.readings, { inputs: columnsOf(readings, READING_KEYS, READING, FIRST_ROW) });
  fresh.editSheet(SHEETS.temperatures, {
    inputs: columnsOf(temperatures, TEMPERATURE_KEYS, TEMPERATURE, FIRST_ROW),
  });
  if (told !== undefined) {
    fresh.editSheet(TOLD.sheet, { inputs: columnsOf(told, TOLD_KEYS, TOLD.letters, TOLD.firstRow) });
  }
  const { bytes, values, altered } = fillWorkbook(fresh.toBytes(), file, undefined, {
    ...(options.now === undefined ? {} : { now: options.now }),
    onStep: step,
  });
  if (altered.length > 0) {
    throw new Error(`${altered.length} formulas of the new workbook are not as built: ${altered[0]?.cell}`);
  }
  return {
    bytes,
    values,
    layout: old.version,
    daysBefore: old.days,
    days,
    readings: readings.start.filter((value) => value !== null).length,
    gasRows: start.heating.gas.filter(({ firstDay }) => firstDay !== null).length,
    temperatureDays: temperatures.date.filter((value) => value !== null).length,
    ownSheets: own.sheets.map(({ name }) => name),
    ownCells: own.beside.reduce((sum, { cells }) => sum + cells.length, 0),
    comments: own.comments.length,
    notCarried: stretchesOf([...notCarried, ...own.notCarried]),
  };
}

function columnsOf<Key extends string>(
  columns: Columns<Key>,
  keys: readonly Key[],
  letters: Readonly<Record<Key, string>>,
  firstRow: number,
): InputColumn[] {
  return keys
    .filter((key) => columns[key].some((value) => value !== null))
    .map((key) => ({
      column: columnNumber(letters[key]),
      firstRow,
      // A blank cell is left as it is built.
      values: columns[key].map((value) => value ?? undefined),
    }));
}
