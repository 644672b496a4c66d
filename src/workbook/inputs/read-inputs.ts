import { InputError } from '../../errors.js';
import { MAX_RATE_PERIODS, MAX_WINDOWS } from '../../tariffs/tariff.js';
import { BATTERY_FIELDS } from '../fields/battery-fields.js';
import { readFields } from '../fields/rule.js';
import { CLOCK_ROWS, FIRST_ROW, SHEETS, TARIFF_COUNT } from '../layout.js';
import { CELL, CLOCK, CLOCK_COVERS } from '../model/columns.js';
import { DAYS_CELL, LAYOUT_CELL, LAYOUT_NAME, LAYOUT_VERSION } from '../model/notes-sheet.js';
import type { CellValue } from '../model/sheet-model.js';
import {
  ratePeriodRows,
  TARIFF_ROW,
  TODAYS_TARIFF_CELL,
  tariffLetters,
  windowRows,
} from '../model/tariff-rows.js';
import type { WorkbookPackage } from '../package/index.js';
import { type Shape, shapeOf } from '../sheets/shape.js';
import { readStoredBatteryResults } from './read-battery.js';
import { inputValue, readCells } from './read-cells.js';
import { readHeating } from './read-heating.js';
import { readReadings } from './read-readings.js';
import type { ClockRows, TariffCells, WorkbookInputs } from './workbook-inputs.js';

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
  for (const sheet of Object.values(SHEETS)) {
    if (!workbook.hasSheet(sheet)) {
      throw new InputError(
        `the sheet "${sheet}" is missing`,
        'Give it its name back, or start from a fresh template.',
        place,
      );
    }
  }
  const found = readCells(workbook, SHEETS.notes).get(LAYOUT_CELL);
  if (found !== LAYOUT_VERSION) {
    throw new InputError(
      `the workbook has layout ${String(found ?? 'unknown')}, this version writes layout ${LAYOUT_VERSION}`,
      'Build a fresh workbook and fill the readings into it.',
      place,
    );
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
 * @throws InputError when a cell holds an error value or a formula without a result
 */
export function readInputs(workbook: WorkbookPackage, shape: Shape): WorkbookInputs {
  const sheet = (name: string): ((at: string) => CellValue) => {
    const cells = readCells(workbook, name);
    return (at) => inputValue(cells, at, { file: workbook.fileName, sheet: name });
  };
  const home = sheet(SHEETS.home);
  const answer = sheet(SHEETS.answer);
  const tariffs = sheet(SHEETS.tariffs);
  const battery = sheet(SHEETS.battery);
  const clock = sheet(SHEETS.clock);
  const at = (reference: string): string => reference.replace(/^.*!/, '').replaceAll('$', '');
  return {
    home: {
      timeZone: home(at(CELL.timeZone)),
      vatShare: home(at(CELL.vatShare)),
      currency: home(at(CELL.currency)),
      minorUnit: home(at(CELL.minorUnit)),
      largestHalfHourKwh: home(at(CELL.largestHalfHour)),
      batteryRan: home(at(CELL.batteryRan)),
    },
    todaysTariff: tariffs(TODAYS_TARIFF_CELL),
    fromMonth: answer(at(CELL.fromMonth)),
    toMonth: answer(at(CELL.toMonth)),
    tariffs: Array.from({ length: TARIFF_COUNT }, (_, t) => readTariff(tariffs, tariffLetters(t))),
    battery: readFields(BATTERY_FIELDS, battery),
    storedBattery: readStoredBatteryResults(battery, shape),
    heating: readHeating(workbook),
    readings: readReadings(workbook, shape.readingRows),
    clock: readClock(clock),
    clockTimeZone: clock('B3'),
  };
}

function readTariff(cell: (at: string) => CellValue, letters: string): TariffCells {
  const value = (row: number): CellValue => cell(`${letters}${row}`);
  return {
    name: value(TARIFF_ROW.name),
    clock: value(TARIFF_ROW.clock),
    includesVat: value(TARIFF_ROW.includesVat),
    halfHourlyPriced: value(TARIFF_ROW.halfHourlyPriced),
    exitFee: value(TARIFF_ROW.exitFee),
    windows: Array.from({ length: MAX_WINDOWS }, (_, k) => {
      const rows = windowRows(k);
      return { from: value(rows.from), to: value(rows.to), days: value(rows.days) };
    }),
    periods: Array.from({ length: MAX_RATE_PERIODS }, (_, p) => {
      const rows = ratePeriodRows(p);
      return {
        validFrom: p === 0 ? null : value(rows.validFrom),
        standing: value(rows.standing),
        base: value(rows.base),
        windowRates: rows.windowRates.map(value),
        exportRate: value(rows.exportRate),
      };
    }),
  };
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
