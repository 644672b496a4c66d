import type { BatteryReferences } from '../../../battery/battery-formulas.js';
import { absolute, absoluteColumn, columnLetters, sheetPrefix } from '../../cell-address.js';
import {
  FIRST_ROW,
  LAST_DAY_ROW,
  LAST_MONTH_ROW,
  LAST_READING_ROW,
  SEED_ROW,
  SHEETS,
  TARIFF_COUNT,
} from '../../layout.js';
import { PERIOD_ROW } from '../columns.js';
import { chooseTariff } from '../tariff-rows.js';

/** Letters of the battery half-hours' columns; the functions take a tariff from 0. */
export const BATTERY_HALF_HOUR = {
  start: 'A',
  day: 'B',
  slot: 'C',
  servable: 'D',
  house: 'E',
  heatPumpKwh: 'F',
  carKwh: 'G',
  carGrid: 'H',
  carSunPence: 'I',
  stock: 'J',
  shared: 'K',
  steps: (tariff: number) => block(12, 0, tariff),
  battery: (tariff: number) => block(12, 1, tariff),
  level: (tariff: number) => block(12, 2, tariff),
  importWith: (tariff: number) => block(12, 3, tariff),
} as const;

/** Letters of the battery days' columns. */
export const BATTERY_DAY = {
  date: 'A',
  firstRow: 'B',
  apart: 'C',
  halfHours: 'D',
  halfHoursToFill: 'E',
  chargeUpTo: (tariff: number) => block(6, 0, tariff),
  dear: (tariff: number) => block(6, 1, tariff),
  chargeBelow: (tariff: number) => block(6, 2, tariff),
  serveFrom: (tariff: number) => block(6, 3, tariff),
  refill: (tariff: number) => block(6, 4, tariff),
  lowest: (tariff: number) => block(6, 5, tariff),
  exportRate: (tariff: number) => block(6, 6, tariff),
  exportCredit: (tariff: number) => block(6, 7, tariff),
  level: (tariff: number) => block(6, 8, tariff),
  sells: (tariff: number) => block(6, 9, tariff),
  toCharging: (tariff: number) => block(6, 10, tariff),
} as const;

/** Letters of the battery months' columns. */
export const BATTERY_MONTH = {
  start: 'A',
  houseKwh: 'B',
  heatPumpKwh: 'C',
  carKwh: 'D',
  total: 'E',
  heatPumpPence: 'F',
  carPence: 'G',
  energyPence: (tariff: number) => block(8, 0, tariff),
  exportCreditPence: (tariff: number) => block(8, 1, tariff),
  energy: (tariff: number) => block(8, 2, tariff),
  exportCredit: (tariff: number) => block(8, 3, tariff),
  totalPounds: (tariff: number) => block(8, 4, tariff),
  deliveredKwh: (tariff: number) => block(8, 5, tariff),
  firstRow: block(8, 6, 0),
} as const;

/** Rows under the battery months, with a figure a tariff in the columns of the first block. */
export const BATTERY_SPAN_ROW = {
  heading: PERIOD_ROW + 2,
  levelBefore: PERIOD_ROW + 3,
  levelAfter: PERIOD_ROW + 4,
  storedValue: PERIOD_ROW + 5,
  wear: PERIOD_ROW + 6,
  netCost: PERIOD_ROW + 7,
  fingerprint: PERIOD_ROW + 8,
  homeFingerprint: PERIOD_ROW + 9,
  outOfBounds: PERIOD_ROW + 10,
  unbalanced: PERIOD_ROW + 11,
  unrounded: PERIOD_ROW + 12,
  impossible: PERIOD_ROW + 13,
} as const;

/** Letters of the row of facts at the top of the battery days. */
export const FACT_LETTERS = {
  faults: 'A',
  usableKwh: 'B',
  chargeKw: 'C',
  dischargeKw: 'D',
  chargeEfficiency: 'E',
  dischargeEfficiency: 'F',
  reserveKwh: 'G',
  startKwh: 'H',
  wearPencePerKwh: 'I',
  chargeFromGrid: 'J',
  mayFeedCar: 'K',
  mayExport: 'L',
  daysApart: 'M',
  chosen: 'N',
  firstDay: 'O',
  lastDay: 'P',
  halfHours: 'Q',
} as const;
export const FACT_ROW = 4;

/** Reference to a fact. */
export function fact(key: keyof typeof FACT_LETTERS): string {
  return absolute(SHEETS.batteryDays, FACT_LETTERS[key], FACT_ROW);
}

/** The battery as it is worked with, for the formulas of the rule; flags are 1 or 0. */
export const BATTERY_REFERENCES: BatteryReferences = {
  usableKwh: fact('usableKwh'),
  chargeKw: fact('chargeKw'),
  dischargeKw: fact('dischargeKw'),
  chargeEfficiency: fact('chargeEfficiency'),
  dischargeEfficiency: fact('dischargeEfficiency'),
  reserveKwh: fact('reserveKwh'),
  startKwh: fact('startKwh'),
  wearPencePerKwh: fact('wearPencePerKwh'),
  chargeFromGrid: fact('chargeFromGrid'),
  mayFeedCar: fact('mayFeedCar'),
  mayExport: fact('mayExport'),
};

function block(firstColumn: number, item: number, tariff: number): string {
  return columnLetters(firstColumn + item * TARIFF_COUNT + tariff);
}

/** Whole data columns, as absolute references. */
export const batteryHalfHourColumn = (letters: string): string =>
  absoluteColumn(SHEETS.batteryHalfHours, letters, FIRST_ROW, LAST_READING_ROW);
export const batteryDayColumn = (letters: string, firstRow: number = FIRST_ROW): string =>
  absoluteColumn(SHEETS.batteryDays, letters, firstRow, LAST_DAY_ROW);
/** A day column with the row of start values above it. */
export const batteryDayColumnFromSeed = (letters: string): string => batteryDayColumn(letters, SEED_ROW);
export const batteryMonthColumn = (letters: string): string =>
  absoluteColumn(SHEETS.batteryMonths, letters, FIRST_ROW, LAST_MONTH_ROW);

/** The columns of all tariffs for one item. */
export function tariffColumns(
  sheet: string,
  letters: (tariff: number) => string,
  firstRow: number,
  lastRow: number,
): string {
  return `${sheetPrefix(sheet)}$${letters(0)}$${firstRow}:$${letters(TARIFF_COUNT - 1)}$${lastRow}`;
}

/** The cell of the tariff looked at, in a row that holds one cell a tariff; CHOOSE reads single cells, which is quick to follow. */
export function ofChosen(letters: (tariff: number) => string, row: number, sheet?: string): string {
  const prefix = sheet === undefined ? '' : sheetPrefix(sheet);
  return byChosenTariff((tariff) => `${prefix}$${letters(tariff)}${row}`);
}

/** A formula of each tariff, that of the tariff looked at. */
export const byChosenTariff = (formulaOf: (tariff: number) => string): string =>
  chooseTariff(fact('chosen'), formulaOf);
