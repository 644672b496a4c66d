import { type Fault, InputError, refuse } from '../../errors.js';
import { BATTERY_FIELDS } from '../fields/battery-fields.js';
import { BILLS } from '../fields/bill-fields.js';
import { type Field, ofFields } from '../fields/field.js';
import { HOME_FIELDS, PERIOD_FIELDS } from '../fields/home-fields.js';
import { readFields } from '../fields/rule.js';
import { TARIFF_FIELDS, TODAYS_TARIFF } from '../fields/tariff-fields.js';
import { TIMER_FIELDS } from '../fields/timer-fields.js';
import { CLOCK_ROWS, FIRST_ROW, SHEETS } from '../layout.js';
import { CLOCK, CLOCK_COVERS, CLOCK_ZONE } from '../model/columns.js';
import { DAYS_CELL, LAYOUT_CELL, LAYOUT_NAME, LAYOUT_VERSION } from '../model/notes-sheet.js';
import type { CellValue } from '../model/sheet-model.js';
import { openWorkbookPackage, type WorkbookPackage } from '../package/index.js';
import { type Shape, shapeOf } from '../sheets/shape.js';
import { carryCall } from './carry-call.js';
import { readStoredBatteryResults } from './read-battery.js';
import { inputValue, readCells } from './read-cells.js';
import { readHeating } from './read-heating.js';
import { readReadings } from './read-readings.js';
import { readStoredTimerResults } from './read-timers.js';
import type { ClockRows, HomeCells, WorkbookInputs } from './workbook-inputs.js';

/**
 * Makes sure that a workbook is one that this project built, of the layout that this version knows.
 *
 * @param workbook an open workbook
 * @throws InputError when it is not
 */
export function assertOurWorkbook(workbook: WorkbookPackage): void {
  const place = { file: workbook.fileName };
  if (workbook.definedName(LAYOUT_NAME) === undefined) {
    throw new InputError(
      'this is a spreadsheet, but not a home tariff workbook',
      'Start from workbook-template/home-tariff-workbook.xlsx.',
      place,
    );
  }
  const assertSheet = (sheet: string): void => {
    if (workbook.hasSheet(sheet)) return;
    throw new InputError(
      `the sheet "${sheet}" is missing`,
      'Give it its name back, or start from a fresh template.',
      place,
    );
  };
  // The layout says which sheets there are.
  assertSheet(SHEETS.notes);
  const found = readCells(workbook, SHEETS.notes).get(LAYOUT_CELL);
  if (found !== LAYOUT_VERSION) {
    throw new InputError(
      `the workbook has layout ${String(found ?? 'unknown')}, this version writes layout ${LAYOUT_VERSION}`,
      typeof found === 'number' && found > LAYOUT_VERSION
        ? 'Use the newer version of this program.'
        : `Carry it over into a new one: ${carryCall(workbook.fileName)}.`,
      place,
    );
  }
  for (const sheet of Object.values(SHEETS)) assertSheet(sheet);
}

/**
 * Whether a file is a workbook that this project built, of whatever layout.
 *
 * @param bytes the file
 * @param file its name
 * @returns false for any other file
 * @example isOurWorkbook(Buffer.from('a letter'), 'letter.txt') // false
 */
export function isOurWorkbook(bytes: Uint8Array, file: string): boolean {
  try {
    return openWorkbookPackage(bytes, file).definedName(LAYOUT_NAME) !== undefined;
  } catch (error) {
    if (error instanceof InputError) return false;
    throw error;
  }
}

/**
 * How much a workbook of ours holds.
 *
 * @param workbook an open workbook of ours
 * @returns its shape, from the days that its notes state
 * @throws InputError when they state none
 */
export function shapeOfWorkbook(workbook: WorkbookPackage): Shape {
  const days = readCells(workbook, SHEETS.notes).get(DAYS_CELL);
  if (typeof days === 'number' && Number.isInteger(days) && days > 0) return shapeOf(days);
  throw new InputError(
    `the workbook does not say how many days it holds (found ${JSON.stringify(days ?? null)})`,
    'Give the cell its number back, or start from a fresh template.',
    { file: workbook.fileName, line: `${SHEETS.notes}!${DAYS_CELL}` },
  );
}

/**
 * Reads every input of a workbook, as the cells hold it.
 *
 * @param workbook an open workbook of ours
 * @param shape how much it holds
 * @returns the inputs, right or wrong
 * @throws InputError when a cell holds an error value or a formula without a result, or there are rows below the last; InputErrors where
 *   several cells do
 */
export function readInputs(workbook: WorkbookPackage, shape: Shape): WorkbookInputs {
  const unreadable: Fault[] = [];
  const sheet = (name: string): ((at: string) => CellValue) => {
    const cells = readCells(workbook, name);
    return (at) => inputValue(cells, at, { file: workbook.fileName, sheet: name }, unreadable);
  };
  const answer = sheet(SHEETS.answer);
  const tariffs = sheet(SHEETS.tariffs);
  const battery = sheet(SHEETS.battery);
  const clock = sheet(SHEETS.clock);
  const timers = sheet(SHEETS.timers);
  const inputs: WorkbookInputs = {
    home: readHome(workbook, unreadable),
    todaysTariff: tariffs(TODAYS_TARIFF.at),
    ...readFields(PERIOD_FIELDS, answer),
    tariffs: readFields(TARIFF_FIELDS, tariffs),
    battery: readFields(BATTERY_FIELDS, battery),
    storedBattery: readStoredBatteryResults(battery, shape),
    heating: readHeating(workbook, unreadable),
    bills: readFields(BILLS, sheet(SHEETS.bills)),
    timers: readFields(TIMER_FIELDS, timers),
    storedTimers: readStoredTimerResults(timers),
    readings: readReadings(workbook, shape.readingRows, unreadable),
    clock: readClock(clock),
    clockTimeZone: clock(CLOCK_ZONE),
  };
  refuse(unreadable);
  return inputs;
}

/** The facts of the home, from above the tariffs and the readings. */
function readHome(workbook: WorkbookPackage, unreadable: Fault[]): HomeCells {
  return ofFields(HOME_FIELDS, (field) => homeFact(workbook, field, unreadable), null as CellValue);
}

/**
 * One of the facts of the home, as its cell holds it.
 *
 * @param workbook an open workbook of ours
 * @param field which
 * @param unreadable where it is noted that the cell holds an error value or a formula without a result; without it, that is thrown
 * @throws InputError when the cell can't be read, and there is nowhere to note it
 */
export function homeFact(workbook: WorkbookPackage, { cell, at }: Field, unreadable?: Fault[]): CellValue {
  const { sheet, row } = cell.place;
  const place = { file: workbook.fileName, sheet };
  return inputValue(readCells(workbook, sheet, row), at, place, unreadable);
}

function readClock(cell: (at: string) => CellValue): ClockRows {
  const column = (letters: string): Float64Array =>
    Float64Array.from({ length: CLOCK_ROWS }, (_, i) => Number(cell(`${letters}${FIRST_ROW + i}`) ?? 0));
  return {
    fromLocalSerial: column(CLOCK.from),
    offsetBeforeHours: column(CLOCK.before),
    offsetAfterHours: column(CLOCK.after),
    minutesGained: column(CLOCK.gained),
    daySerial: column(CLOCK.day),
    coversFrom: Number(cell(CLOCK_COVERS.from) ?? 0),
    coversUntil: Number(cell(CLOCK_COVERS.until) ?? 0),
  };
}
