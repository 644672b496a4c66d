import type { Channel } from '../../readings/channels.js';
import type { CellValue } from '../fields/cell-value.js';
import type { CellsOf } from '../fields/field.js';
import type { HOME_FIELDS } from '../fields/home-fields.js';
import type { TariffFields } from '../fields/tariff-fields.js';
import type { BatteryCells, StoredBatteryResults } from './battery-cells.js';
import type { BillsCells } from './bill-cells.js';
import type { HeatingCells } from './heating-cells.js';
import type { StoredTimerResults } from './stored-timers.js';
import type { TimerCells } from './timer-cells.js';

/** A column of the tariffs sheet as it stands, right or wrong: times are fractions of a day, the first set has no date. */
export type TariffCells = CellsOf<TariffFields>;

/** The rows of the readings sheet as they stand; every array has one entry a row of the sheet. */
export interface ReadingRows {
  /** Rows up to and including the last that is not blank. */
  count: number;
  /** Local start, spreadsheet serial; NaN where the cell holds no number. */
  startSerial: Float64Array;
  /** 1 where the start cell holds something that is not a number. */
  startIsText: Uint8Array;
  /** Offset from UTC in hours; NaN where blank. */
  offsetHours: Float64Array;
  /** NaN where the cell holds no number. */
  values: Record<Channel, Float64Array>;
  /** How many value cells of the row hold something that is not a number. */
  textValues: Uint8Array;
  /** 1 where the row is marked as estimated. */
  estimated: Uint8Array;
}

/** The clock changes of the home's zone as *Rates* lists them. */
export interface ClockRows {
  /** Wall-clock time from which the new offset can hold, serial; ascending; the first row starts time. */
  fromLocalSerial: Float64Array;
  offsetBeforeHours: Float64Array;
  offsetAfterHours: Float64Array;
  /** Minutes that the day gains (autumn) or loses (spring). */
  minutesGained: Float64Array;
  /** Local day that the change interrupts, serial. */
  daySerial: Float64Array;
  /** First and last local day that the table covers, serial. */
  coversFrom: number;
  coversUntil: number;
}

/** General inputs, on *Tariffs* and *Readings*. */
export type HomeCells = CellsOf<typeof HOME_FIELDS>;

/** Everything that the user can change, as the cells hold it. */
export interface WorkbookInputs {
  home: HomeCells;
  todaysTariff: CellValue;
  fromMonth: CellValue;
  toMonth: CellValue;
  /** Which rates price the period. */
  ratesUsed: CellValue;
  tariffs: TariffCells[];
  battery: BatteryCells;
  /** What an earlier fill worked out beside the formulas. */
  storedBattery: StoredBatteryResults;
  heating: HeatingCells;
  bills: BillsCells;
  timers: TimerCells;
  /** What an earlier fill worked out of the timers beside the battery. */
  storedTimers: StoredTimerResults;
  readings: ReadingRows;
  clock: ClockRows;
  /** Zone that the clock changes were listed for. */
  clockTimeZone: CellValue;
}

/** The number in a cell, 0 where there is none: what `N()` gives. */
export function numberIn(cell: CellValue): number {
  return typeof cell === 'number' ? cell : 0;
}

/** Whether a cell says yes. */
export function saysYes(cell: CellValue): boolean {
  return typeof cell === 'string' && cell.toLowerCase() === 'yes';
}

/** Whether a cell holds a name. */
export function hasName(cell: CellValue): boolean {
  return cell !== null && cell !== '';
}
