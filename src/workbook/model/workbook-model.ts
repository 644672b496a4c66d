import type { WorkbookInputs } from '../inputs/workbook-inputs.js';
import { answerSheet } from './answer-sheet.js';
import { batteryDaysSheet } from './battery/battery-days-sheet.js';
import { batteryHalfHoursSheet } from './battery/battery-half-hours-sheet.js';
import { batteryMonthsSheet } from './battery/battery-months-sheet.js';
import { batterySheet } from './battery/battery-sheet.js';
import { profileSheet } from './battery/profile-sheet.js';
import { chartDataSheet } from './chart-data-sheet.js';
import { checksSheet } from './checks-sheet.js';
import { clockSheet } from './clock-sheet.js';
import { daysSheet } from './days-sheet.js';
import { halfHoursSheet } from './half-hours-sheet.js';
import { gasSheet } from './heating/gas-sheet.js';
import { heatingDaysSheet } from './heating/heating-days-sheet.js';
import { heatingFiguresSheet } from './heating/heating-figures-sheet.js';
import { heatingInputsSheet } from './heating/heating-inputs-sheet.js';
import { heatingMonthsSheet } from './heating/heating-months-sheet.js';
import { heatingSheet } from './heating/heating-sheet.js';
import { temperaturesSheet } from './heating/temperatures-sheet.js';
import { homeSheet } from './home-sheet.js';
import { monthsSheet } from './months-sheet.js';
import { notesSheet } from './notes-sheet.js';
import { ratesSheet } from './rates-sheet.js';
import { readingsSheet } from './readings-sheet.js';
import type { SheetModel } from './sheet-model.js';
import { startSheet } from './start-sheet.js';
import { tariffsSheet } from './tariffs-sheet.js';
import { windowsSheet } from './windows-sheet.js';

/** What the inputs of a new workbook hold. */
export type StartingInputs = Pick<
  WorkbookInputs,
  | 'home'
  | 'battery'
  | 'storedBattery'
  | 'heating'
  | 'todaysTariff'
  | 'fromMonth'
  | 'toMonth'
  | 'tariffs'
  | 'clockTimeZone'
>;

/**
 * The whole workbook, sheet by sheet: labels, inputs, and every line item with its formula and the library's value.
 *
 * @param start what the inputs of a new workbook hold; formulas and values do not depend on it
 * @returns the sheets in the order of their tabs
 */
export function workbookModel(start: StartingInputs): SheetModel[] {
  return [
    startSheet(),
    answerSheet(start.fromMonth, start.toMonth),
    tariffsSheet(start.tariffs, start.todaysTariff),
    homeSheet(start.home),
    batterySheet(start.battery, start.storedBattery),
    heatingSheet(),
    heatingInputsSheet(start.heating),
    gasSheet(start.heating),
    temperaturesSheet(),
    readingsSheet(),
    checksSheet(),
    monthsSheet(),
    daysSheet(),
    halfHoursSheet(),
    batteryMonthsSheet(),
    batteryDaysSheet(),
    batteryHalfHoursSheet(),
    profileSheet(),
    heatingFiguresSheet(),
    heatingMonthsSheet(),
    heatingDaysSheet(),
    chartDataSheet(),
    windowsSheet(),
    ratesSheet(),
    clockSheet(String(start.clockTimeZone)),
    notesSheet(),
  ];
}
