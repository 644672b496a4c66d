import type { BATTERY_FIELDS } from '../fields/battery-fields.js';
import type { BILLS } from '../fields/bill-fields.js';
import type { CellValue } from '../fields/cell-value.js';
import type { Arranged } from '../fields/field.js';
import type { HEATING_TABLES } from '../fields/heating-fields.js';
import type { SETTING_FIELDS } from '../fields/heating-settings.js';
import type { HOME_FIELDS, PERIOD_FIELDS } from '../fields/home-fields.js';
import type { TariffFields } from '../fields/tariff-fields.js';
import type { TIMER_FIELDS } from '../fields/timer-fields.js';
import type { ToldKey } from '../fields/told-places.js';
import { type CellRange, parseRangeRef } from '../package/index.js';

/** Cells of inputs in their arrangement; null where the layout has no such cell. */
export type PlacesOf<T> = Arranged<T, string, null>;

/** Columns of one sheet with a row a reading, a stretch of gas or a day. */
export interface TablePlaces<Key extends string> {
  readonly sheet: string;
  readonly firstRow: number;
  /** Last row that is read: what stands below is not of the table. */
  readonly lastRow: number;
  readonly letters: Readonly<Record<Key, string>>;
}

export const GAS_KEYS = [
  'firstDay',
  'lastDay',
  'kwh',
  'volume',
  'volumeUnit',
  'calorificValue',
  'degreeDays',
] as const;
export const TEMPERATURE_KEYS = ['date', 'meanC', 'maxC', 'minC'] as const;
export const READING_KEYS = [
  'start',
  'offset',
  'importKwh',
  'exportKwh',
  'solarKwh',
  'batteryInKwh',
  'batteryOutKwh',
  'heatPumpKwh',
  'heatOutputKwh',
  'carKwh',
  'outdoorC',
  'pricePence',
  'mark',
] as const;

/** Where the inputs of a layout stand. */
export interface InputPlaces {
  /** On one sheet or several. */
  readonly home: readonly { sheet: string; cells: Partial<PlacesOf<typeof HOME_FIELDS>> }[];
  readonly period: { sheet: string; cells: Partial<PlacesOf<typeof PERIOD_FIELDS>> };
  readonly tariffs: { sheet: string; todays: string; columns: readonly PlacesOf<TariffFields>[] };
  readonly battery: { sheet: string; cells: PlacesOf<typeof BATTERY_FIELDS> };
  readonly heating: {
    sheet: string;
    settings: Partial<PlacesOf<typeof SETTING_FIELDS>>;
    tables: PlacesOf<typeof HEATING_TABLES>;
  };
  /** Not there in a layout without bills. */
  readonly bills?: { sheet: string; cells: PlacesOf<typeof BILLS> };
  /** Not there in a layout without timers. */
  readonly timers?: { sheet: string; cells: PlacesOf<typeof TIMER_FIELDS> };
  readonly gas: TablePlaces<(typeof GAS_KEYS)[number]>;
  readonly temperatures: TablePlaces<(typeof TEMPERATURE_KEYS)[number]>;
  readonly readings: TablePlaces<(typeof READING_KEYS)[number]>;
  /** What files were told; undefined where the layout keeps none. */
  readonly told?: TablePlaces<ToldKey>;
}

/** A sheet of a layout: which of its cells are the project's. Every other is the user's. */
export interface LaidSheet {
  readonly name: string;
  /** Its name in the layout that is carried to, where its cells stand in the same places of a sheet of another name. */
  readonly nowCalled?: string;
  readonly ours: readonly CellRange[];
  /** Of these, the cells that hold formulas. */
  readonly formulas: readonly CellRange[];
  /** Cells in which the same thing stands in the layout and size that is carried to. */
  readonly stays: readonly CellRange[];
  /** Cells with a comment of the project. */
  readonly comments: readonly CellRange[];
  /** Charts of the project. */
  readonly charts: number;
}

/** A layout that can be carried, as a table. */
export interface EarlierLayout {
  readonly version: number;
  /** Days that the workbook holds. */
  readonly days: number;
  readonly sheets: readonly LaidSheet[];
  readonly inputs: InputPlaces;
  /** Defined names of the project. */
  readonly names: ReadonlySet<string>;
}

/** Ranges from their text, as `A1:B3 C7`. */
export function rangesOf(text: string): CellRange[] {
  return text === '' ? [] : text.split(' ').map(parseRangeRef);
}

/** Whether a cell lies in one of some ranges. */
export function isIn(ranges: readonly CellRange[], row: number, column: number): boolean {
  return ranges.some(
    (range) =>
      row >= range.firstRow &&
      row <= range.lastRow &&
      column >= range.firstColumn &&
      column <= range.lastColumn,
  );
}

/** Whether one range lies within one of others. */
export function isWithin(ranges: readonly CellRange[], inner: CellRange): boolean {
  return ranges.some(
    (range) =>
      inner.firstRow >= range.firstRow &&
      inner.lastRow <= range.lastRow &&
      inner.firstColumn >= range.firstColumn &&
      inner.lastColumn <= range.lastColumn,
  );
}

/** Whether a range touches one of others. */
export function touches(ranges: readonly CellRange[], other: CellRange): boolean {
  return ranges.some(
    (range) =>
      other.firstRow <= range.lastRow &&
      other.lastRow >= range.firstRow &&
      other.firstColumn <= range.lastColumn &&
      other.lastColumn >= range.firstColumn,
  );
}

/** What stands in cells, in the arrangement of their addresses. */
export type ReadPlaces<Places> = Places extends string | null | undefined
  ? CellValue
  : Places extends readonly (infer Item)[]
    ? ReadPlaces<Item>[]
    : { -readonly [Key in keyof Places]: ReadPlaces<Places[Key]> };

/**
 * What stands in some cells, in their arrangement.
 *
 * @param places addresses; null where there is no cell
 * @param read what stands at an address
 */
export function readPlaces<Places>(places: Places, read: (at: string) => CellValue): ReadPlaces<Places> {
  const walk = (part: unknown): unknown => {
    if (part === null || part === undefined) return null;
    if (typeof part === 'string') return read(part);
    if (Array.isArray(part)) return part.map(walk);
    return Object.fromEntries(Object.entries(part).map(([key, value]) => [key, walk(value)]));
  };
  return walk(places) as ReadPlaces<Places>;
}

/** Every address of an arrangement. */
export function addressesIn(places: unknown): string[] {
  if (typeof places === 'string') return [places];
  return places === null || typeof places !== 'object' ? [] : Object.values(places).flatMap(addressesIn);
}
