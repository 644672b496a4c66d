import ExcelJS from 'exceljs';
import { unzipSync, zipSync } from 'fflate';
import type { Area } from '../../formula/nodes.js';
import { workbookNames } from '../calculate.js';
import { calculateWorkbook } from '../calculate-inputs.js';
import { columnNumber, parseCell } from '../cell-address.js';
import { addCharts } from '../charts/add-charts.js';
import { cachedValuesOf } from '../fill/cached-values.js';
import { blankReadings } from '../inputs/blank-readings.js';
import { SHEETS, USUAL_DAYS } from '../layout.js';
import { BASE_FONT } from '../look/styles.js';
import { declareBook } from '../model/book.js';
import { clockTable } from '../model/clock-table.js';
import { LAYOUT_CELL, LAYOUT_NAME } from '../model/notes-sheet.js';
import { workbookCharts } from '../model/workbook-charts.js';
import { type StartingInputs, workbookModel } from '../model/workbook-model.js';
import { ZIP_DATE } from '../package/zip-date.js';
import { defineNames } from './define-names.js';
import { extendColumns, hasLongColumns } from './extend-columns.js';
import { setBaseFont } from './set-base-font.js';
import { writeSheet } from './write-sheet.js';

/** Building twice gives the same bytes: every date in the file is this one. */
const BUILD_DATE = new Date(Date.UTC(2026, 0, 1));

/** What of the user's own a workbook is built with. */
export interface OwnAdditions {
  /** Names of empty sheets after the project's. */
  sheets: readonly string[];
  /** Comments at cells of any sheet that have none of the project's. */
  comments: readonly { sheet: string; at: string; text: string }[];
}

/**
 * Builds an empty workbook, ready for readings.
 *
 * @param start what its inputs hold
 * @param days calendar days that it holds
 * @param own what of the user's own it has; by default nothing
 * @returns bytes of the .xlsx file; the same inputs give the same bytes
 */
export async function buildWorkbook(
  start: StartingInputs,
  days: number = USUAL_DAYS,
  own: OwnAdditions = { sheets: [], comments: [] },
): Promise<Uint8Array> {
  const book = declareBook(days);
  const model = workbookModel(start, book);
  const inputs = {
    ...start,
    readings: blankReadings(book.shape.readingRows),
    clock: clockTable(String(start.clockTimeZone)),
  };
  const calculated = calculateWorkbook(model, book, inputs);
  const workbook = new ExcelJS.Workbook();
  workbook.created = BUILD_DATE;
  workbook.modified = BUILD_DATE;
  workbook.creator = 'home tariff workbook';
  workbook.lastModifiedBy = 'home tariff workbook';
  workbook.title = 'Home tariff workbook';
  for (const sheet of model) writeSheet(workbook, sheet, calculated);
  for (const name of own.sheets) workbook.addWorksheet(name);
  for (const { sheet, at, text } of own.comments) {
    const target = workbook.getWorksheet(sheet)?.getCell(at);
    if (target !== undefined) target.note = text;
  }
  const charts = workbookCharts(book, {
    currency: String(start.home.currency ?? ''),
    minorUnit: String(start.home.minorUnit ?? ''),
  });
  // Charts go in while the sheets are still small; the long columns come last.
  const plain = new Uint8Array(await workbook.xlsx.writeBuffer());
  const entries = unzipSync(addCharts(plain, charts, cachedValuesOf(model, calculated)));
  setBaseFont(entries, BASE_FONT.name, BASE_FONT.size);
  const { row, column } = parseCell(LAYOUT_CELL);
  const layoutCell = {
    sheet: SHEETS.notes,
    firstRow: row,
    lastRow: row,
    firstColumn: column,
    lastColumn: column,
  };
  entries['xl/workbook.xml'] = defineNames(
    partOf(entries, 'xl/workbook.xml'),
    new Map<string, Area | readonly Area[] | string>([
      ...workbookNames(model),
      [LAYOUT_NAME, layoutCell],
      ...model.flatMap(({ name, selections = {} }) =>
        Object.entries(selections).map(([selected, ranges]): [string, Area[]] => [
          selected,
          ranges.map((range) => areaOf(name, range)),
        ]),
      ),
    ]),
  );
  model.forEach((sheet, index) => {
    if (!hasLongColumns(sheet)) return;
    const part = `xl/worksheets/sheet${index + 1}.xml`;
    entries[part] = extendColumns(partOf(entries, part), sheet, ({ letters, firstRow, rows }) =>
      calculated.column({ sheet: sheet.name, column: columnNumber(letters), firstRow, rows }),
    );
  });
  return zipSync(entries, { level: 9, mtime: ZIP_DATE });
}

/** A range of a sheet, such as `C5` or `C22:C25`. */
function areaOf(sheet: string, range: string): Area {
  const [from = '', to = from] = range.split(':');
  const [first, last] = [parseCell(from), parseCell(to)];
  return {
    sheet,
    firstRow: first.row,
    lastRow: last.row,
    firstColumn: first.column,
    lastColumn: last.column,
  };
}

function partOf(entries: Record<string, Uint8Array<ArrayBuffer>>, name: string): Uint8Array<ArrayBuffer> {
  const part = entries[name];
  if (part === undefined) throw new Error(`the built workbook has no ${name}`);
  return part;
}
