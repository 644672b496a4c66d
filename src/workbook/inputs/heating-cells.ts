import { SENSITIVITY_ROWS } from '../../heating/comparison/sensitivity-lines.js';
import type { CellValue } from '../fields/cell-value.js';
import type { CellsOf } from '../fields/field.js';
import { GAS_FIELDS, GAS_ROWS } from '../fields/gas-fields.js';
import { DEGREE_DAY_ROWS, HEATING_RATE_ROWS, type HEATING_TABLES } from '../fields/heating-fields.js';
import { SETTINGS } from '../fields/heating-settings.js';
import { blankCells } from '../fields/rule.js';
import { TEMPERATURE_FIELDS, TEMPERATURE_ROWS } from '../fields/temperature-fields.js';

/** A stretch of last year's gas as its row holds it. */
export type GasCells = CellsOf<typeof GAS_FIELDS>[number];

type Tables = CellsOf<typeof HEATING_TABLES>;
/** A set of heating rates as its row holds it; `from` is any day of the month from which they hold. */
export type HeatingRateCells = Tables['rates'][number];
/** Degree days of a month as typed. */
export type MonthDegreeDayCells = Tables['monthDegreeDays'][number];

/** Outdoor temperature of a day as its row holds it. */
export type TemperatureCells = CellsOf<typeof TEMPERATURE_FIELDS>[number];

/** Everything that the heating sheets take in, as the cells hold it. */
export interface HeatingCells {
  /** By key of the settings. */
  settings: Record<string, CellValue>;
  /** One entry a row of the gas sheet. */
  gas: GasCells[];
  rates: HeatingRateCells[];
  monthDegreeDays: MonthDegreeDayCells[];
  /** What the rows of the sensitivity table set the changed figure to. */
  sensitivity: CellValue[];
  /** One entry a row of the temperatures sheet. */
  temperatures: TemperatureCells[];
}

export const BLANK_HEATING_RATES: HeatingRateCells = {
  from: null,
  gasRate: null,
  gasStanding: null,
  singleRate: null,
};

const blankOf = <Row>(fields: readonly Row[]): CellsOf<Row> => {
  const [first] = fields;
  if (first === undefined) throw new RangeError('the table has no row');
  return blankCells(first);
};
/** A row in which nothing stands. */
export const BLANK_GAS: GasCells = blankOf(GAS_FIELDS);
export const BLANK_TEMPERATURE: TemperatureCells = blankOf(TEMPERATURE_FIELDS);

/** Rows, padded with blank ones to the count that the workbook holds. */
export function padded<Row>(rows: readonly Row[], count: number, blank: Row): Row[] {
  return Array.from({ length: count }, (_, i) => rows[i] ?? { ...blank });
}

/** What the heating sheets of a home hold that has told nothing yet. */
export function blankHeatingCells(): HeatingCells {
  return {
    settings: Object.fromEntries(SETTINGS.map(({ input: { key, initial } }) => [key, initial])),
    gas: padded([], GAS_ROWS, BLANK_GAS),
    rates: padded([], HEATING_RATE_ROWS, BLANK_HEATING_RATES),
    monthDegreeDays: padded([], DEGREE_DAY_ROWS, { month: null, degreeDays: null }),
    sensitivity: SENSITIVITY_ROWS.map(({ sensitivityValue }) => sensitivityValue),
    temperatures: padded([], TEMPERATURE_ROWS, BLANK_TEMPERATURE),
  };
}
