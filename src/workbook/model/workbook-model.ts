import type { WorkbookInputs } from '../inputs/workbook-inputs.js';
import { USUAL_DAYS } from '../layout.js';
import { answerSheet } from './answer-sheet.js';
import { batterySheet } from './battery/battery-sheet.js';
import { batterySpanSheet } from './battery/battery-span-sheet.js';
import { profileSheet } from './battery/profile-sheet.js';
import { billsSheet } from './bills/bills-sheet.js';
import { type Book, declareBook } from './book.js';
import { chartDataSheet } from './chart-data-sheet.js';
import { checksSheet } from './checks-sheet.js';
import { clockSheet } from './clock-sheet.js';
import { withPlainTop } from './column-headers.js';
import { gasSheet } from './heating/gas-sheet.js';
import { heatingDaysSheet } from './heating/heating-days-sheet.js';
import { heatingFiguresSheet } from './heating/heating-figures-sheet.js';
import { heatingInputsSheet } from './heating/heating-inputs-sheet.js';
import { heatingMonthsSheet } from './heating/heating-months-sheet.js';
import { heatingSheet } from './heating/heating-sheet.js';
import { temperaturesSheet } from './heating/temperatures-sheet.js';
import { withNamedColumns } from './named-columns.js';
import { notesSheet } from './notes-sheet.js';
import { yearAheadSheet } from './outlook/year-ahead-sheet.js';
import { withProtectionSaid } from './protection-words.js';
import { readingsSheet } from './readings-sheet.js';
import { withFittingRows } from './row-heights.js';
import type { SheetModel } from './sheet-model.js';
import { sideBySide } from './side-by-side.js';
import { tariffsSheet } from './tariffs-sheet.js';
import { timersSheet } from './timers/timers-sheet.js';
import { whenSheet } from './when-sheet.js';
import { workingsSheets } from './workings-sheets.js';

/** What the inputs of a new workbook hold. */
export type StartingInputs = Pick<
  WorkbookInputs,
  | 'home'
  | 'battery'
  | 'storedBattery'
  | 'heating'
  | 'bills'
  | 'timers'
  | 'storedTimers'
  | 'todaysTariff'
  | 'fromMonth'
  | 'toMonth'
  | 'ratesUsed'
  | 'tariffs'
  | 'clockTimeZone'
> &
  // The usual years of the zone where nothing else is given.
  Partial<Pick<WorkbookInputs, 'clock'>>;

/**
 * The whole workbook, sheet by sheet: labels, inputs, and every line item with its formula.
 *
 * @param start what the inputs of a new workbook hold; formulas do not depend on it
 * @param book the workings, which say how many days the workbook holds
 * @returns the sheets in the order of their tabs
 */
export function workbookModel(start: StartingInputs, book: Book = declareBook(USUAL_DAYS)): SheetModel[] {
  return sheetsAsDeclared(start, book)
    .map((sheet) => withNamedColumns(sheet, book.shape.days))
    .map(withFittingRows);
}

/**
 * The same before long columns stand under names, as workbooks up to layout 6 had it.
 *
 * @param start what the inputs of a new workbook hold
 * @param book the workings
 * @returns the sheets in the order of their tabs
 */
export function sheetsAsDeclared(start: StartingInputs, book: Book): SheetModel[] {
  const parts = [
    answerSheet(book, start),
    tariffsSheet(book, start),
    readingsSheet(book, start.home),
    whenSheet(book),
    batterySheet(book, start.battery, start.storedBattery),
    heatingSheet(book),
    heatingInputsSheet(book, start.heating),
    gasSheet(book, start.heating),
    temperaturesSheet(book),
    billsSheet(book, start.bills),
    timersSheet(book, start.timers, start.storedTimers),
    checksSheet(book),
    notesSheet(book),
    ...workingsSheets(book.workings),
    clockSheet(book, String(start.clockTimeZone), start.clock),
    heatingMonthsSheet(book),
    heatingDaysSheet(book),
    chartDataSheet(book),
    profileSheet(book),
    batterySpanSheet(book),
    heatingFiguresSheet(book),
    yearAheadSheet(book),
  ];
  return sideBySide(parts).map(withProtectionSaid).map(withPlainTop);
}
