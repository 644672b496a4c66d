import ExcelJS from 'exceljs';
import { unzipSync, zipSync } from 'fflate';
import { addCharts } from '../charts/add-charts.js';
import { evaluateWorkbook } from '../evaluate/evaluate-workbook.js';
import { cachedValuesOf } from '../fill/cached-values.js';
import { blankReadings } from '../inputs/blank-readings.js';
import { SHEETS } from '../layout.js';
import { clockTable } from '../model/clock-table.js';
import { LAYOUT_CELL, LAYOUT_NAME } from '../model/notes-sheet.js';
import type { SheetModel } from '../model/sheet-model.js';
import { workbookCharts } from '../model/workbook-charts.js';
import { type StartingInputs, workbookModel } from '../model/workbook-model.js';
import { extendColumns } from './extend-columns.js';
import { setBaseFont } from './set-base-font.js';
import { BASE_FONT } from './styles.js';
import { isLong, writeSheet } from './write-sheet.js';

/** Building twice gives the same bytes: every date in the file is this one. */
const BUILD_DATE = new Date(Date.UTC(2026, 0, 1));
/** The time of a zip entry is local time without a zone, so it is given as local midnight. */
const ZIP_DATE = new Date(2026, 0, 1);

/**
 * Builds an empty workbook, ready for readings.
 *
 * @param start what its inputs hold
 * @returns bytes of the .xlsx file; the same inputs give the same bytes
 */
export async function buildWorkbook(start: StartingInputs): Promise<Uint8Array> {
  const model = workbookModel(start);
  const results = evaluateWorkbook({
    ...start,
    readings: blankReadings(),
    clock: clockTable(String(start.clockTimeZone)),
  });
  const workbook = new ExcelJS.Workbook();
  workbook.created = BUILD_DATE;
  workbook.modified = BUILD_DATE;
  workbook.creator = 'home tariff workbook';
  workbook.lastModifiedBy = 'home tariff workbook';
  for (const sheet of model) writeSheet(workbook, sheet, results);
  workbook.definedNames.add(`${SHEETS.notes}!$${LAYOUT_CELL.replace(/(\d+)/, '$$$1')}`, LAYOUT_NAME);
  const charts = workbookCharts({
    currency: String(start.home.currency ?? ''),
    minorUnit: String(start.home.minorUnit ?? ''),
  });
  // Charts go in while the sheets are still small; the long columns come last.
  const plain = new Uint8Array(await workbook.xlsx.writeBuffer());
  const entries = unzipSync(addCharts(plain, charts, cachedValuesOf(model, results)));
  setBaseFont(entries, BASE_FONT.name, BASE_FONT.size);
  model.forEach((sheet, index) => {
    const part = `xl/worksheets/sheet${index + 1}.xml`;
    const long = longColumns(sheet);
    if (long.length > 0) entries[part] = extendColumns(entries[part]!, long, results);
  });
  return zipSync(entries, { level: 9, mtime: ZIP_DATE });
}

function longColumns(sheet: SheetModel): SheetModel['formulaColumns'] {
  return sheet.formulaColumns.filter(isLong);
}
