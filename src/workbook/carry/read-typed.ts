import { InputError } from '../../errors.js';
import { columnNumber } from '../cell-address.js';
import type { CellValue } from '../fields/cell-value.js';
import { GAS_ROWS } from '../fields/gas-fields.js';
import { TOLD_KEYS, type ToldKey } from '../fields/told-places.js';
import { blankStoredBatteryResults } from '../inputs/battery-cells.js';
import { blankBillsCells } from '../inputs/bill-cells.js';
import { BLANK_GAS, blankHeatingCells, padded } from '../inputs/heating-cells.js';
import { inputValue, readCells } from '../inputs/read-cells.js';
import { blankStoredTimerResults } from '../inputs/stored-timers.js';
import { blankTariffCells } from '../inputs/tariff-cells.js';
import { blankTimerCells } from '../inputs/timer-cells.js';
import type { HomeCells } from '../inputs/workbook-inputs.js';
import { RATES_USED, TARIFF_COUNT } from '../layout.js';
import type { StartingInputs } from '../model/workbook-model.js';
import { CellError, type WorkbookPackage } from '../package/index.js';
import {
  addressesIn,
  GAS_KEYS,
  type InputPlaces,
  READING_KEYS,
  readPlaces,
  type TablePlaces,
  TEMPERATURE_KEYS,
} from './earlier-layout.js';
import type { NotCarried } from './not-carried.js';

/** A table as its cells hold it: a list a column, from the first row on. */
export type Columns<Key extends string> = Record<Key, CellValue[]>;

/** Everything that was typed, pasted or filled in. */
export interface TypedInputs {
  /** The inputs that a workbook is built with; gas among them. */
  start: StartingInputs;
  readings: Columns<(typeof READING_KEYS)[number]>;
  temperatures: Columns<(typeof TEMPERATURE_KEYS)[number]>;
  /** What files were told; undefined where the layout keeps none. */
  told: Columns<ToldKey> | undefined;
  /** Formulas in input cells, whose values are carried, and errors, which are not. */
  notCarried: NotCarried[];
}

/**
 * Reads what was typed into a workbook of some layout, right or wrong.
 *
 * @param workbook the workbook
 * @param places where its layout has the inputs
 * @throws InputError when a cell holds a formula without a result, or one of the single inputs an error
 */
export function readTyped(workbook: WorkbookPackage, places: InputPlaces): TypedInputs {
  const notCarried: NotCarried[] = [];
  const cellsOf = (sheet: string): ((at: string) => CellValue) => {
    const cells = readCells(workbook, sheet);
    return (at) => inputValue(cells, at, { file: workbook.fileName, sheet });
  };
  const { home, period, tariffs, battery, heating, bills, timers } = places;
  const tariffCell = cellsOf(tariffs.sheet);
  const heatingCell = cellsOf(heating.sheet);
  const blank = blankHeatingCells();
  const gas = readTable(workbook, places.gas, GAS_KEYS, notCarried);
  const homeCells: HomeCells = Object.assign(
    {},
    ...home.map(({ sheet, cells }) => readPlaces(cells, cellsOf(sheet))),
  );
  const columns = tariffs.columns.map((column) => readPlaces(column, tariffCell));
  for (const [sheet, part] of [
    ...home.map(({ sheet, cells }) => [sheet, cells] as const),
    [period.sheet, period.cells],
    [tariffs.sheet, [tariffs.todays, tariffs.columns]],
    [battery.sheet, battery.cells],
    [heating.sheet, [heating.settings, heating.tables]],
    ...(bills === undefined ? [] : [[bills.sheet, bills.cells] as const]),
    ...(timers === undefined ? [] : [[timers.sheet, timers.cells] as const]),
  ] as const) {
    notCarried.push(...typedFormulas(workbook, sheet, new Set(addressesIn(part))));
  }
  return {
    start: {
      home: homeCells,
      fromMonth: null,
      toMonth: null,
      ratesUsed: RATES_USED.asTheyWere,
      ...readPlaces(period.cells, cellsOf(period.sheet)),
      todaysTariff: tariffCell(tariffs.todays),
      tariffs: Array.from({ length: TARIFF_COUNT }, (_, t) => columns[t] ?? blankTariffCells()),
      battery: readPlaces(battery.cells, cellsOf(battery.sheet)),
      storedBattery: blankStoredBatteryResults(),
      heating: {
        ...blank,
        settings: { ...blank.settings, ...readPlaces(heating.settings, heatingCell) },
        ...readPlaces(heating.tables, heatingCell),
        gas: padded(
          gas.firstDay.map((_, i) => ({
            ...BLANK_GAS,
            ...Object.fromEntries(GAS_KEYS.map((key) => [key, gas[key][i] ?? null])),
          })),
          GAS_ROWS,
          BLANK_GAS,
        ),
      },
      bills: bills === undefined ? blankBillsCells() : readPlaces(bills.cells, cellsOf(bills.sheet)),
      timers: timers === undefined ? blankTimerCells() : readPlaces(timers.cells, cellsOf(timers.sheet)),
      storedTimers: blankStoredTimerResults(),
      clockTimeZone: homeCells.timeZone,
    },
    readings: readTable(workbook, places.readings, READING_KEYS, notCarried),
    temperatures: readTable(workbook, places.temperatures, TEMPERATURE_KEYS, notCarried),
    told: places.told === undefined ? undefined : readTable(workbook, places.told, TOLD_KEYS, notCarried),
    notCarried,
  };
}

function typedFormulas(workbook: WorkbookPackage, sheet: string, inputs: ReadonlySet<string>): NotCarried[] {
  const found: NotCarried[] = [];
  const reader = workbook.readSheet(sheet);
  while (reader.next()) {
    if (!reader.hasFormula || !inputs.has(reader.name)) continue;
    found.push(typedFormula(sheet, reader.row, reader.column, reader.formula ?? ''));
  }
  return found;
}

const typedFormula = (sheet: string, row: number, column: number, formula: string): NotCarried => ({
  sheet,
  row,
  column,
  found: `=${formula}`,
  why: 'a formula in an input cell: its value was carried',
});

function readTable<Key extends string>(
  workbook: WorkbookPackage,
  { sheet, firstRow, lastRow, letters }: TablePlaces<Key>,
  keys: readonly Key[],
  notCarried: NotCarried[],
): Columns<Key> {
  const columns = Object.fromEntries(keys.map((key) => [key, [] as CellValue[]])) as Columns<Key>;
  const byNumber = new Map(keys.map((key) => [columnNumber(letters[key]), columns[key]]));
  let count = 0;
  const reader = workbook.readSheet(sheet);
  while (reader.next()) {
    const { row, column } = reader;
    if (row > lastRow) break;
    const values = row < firstRow ? undefined : byNumber.get(column);
    if (values === undefined) continue;
    if (reader.hasFormula) {
      if (!reader.hasValue) refuseUncalculated(workbook.fileName, `${sheet}!${reader.name}`);
      notCarried.push(typedFormula(sheet, row, column, reader.formula ?? ''));
    }
    const { value } = reader;
    if (value === null || value === '') continue;
    if (value instanceof CellError) {
      notCarried.push({ sheet, row, column, found: value.code, why: 'an error is no input' });
      continue;
    }
    values[row - firstRow] = value;
    count = Math.max(count, row - firstRow + 1);
  }
  for (const values of Object.values<CellValue[]>(columns)) {
    for (let i = 0; i < count; i++) values[i] ??= null;
  }
  return columns;
}

function refuseUncalculated(file: string, line: string): never {
  throw new InputError(
    'the cell holds a formula without a result',
    'Open the workbook in a spreadsheet program and save it, or type the value.',
    { file, line },
  );
}
