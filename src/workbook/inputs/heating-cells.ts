import { HEATING_INPUTS } from '../../heating/comparison/heating-inputs.js';
import { SENSITIVITY_ROWS } from '../../heating/comparison/sensitivity-lines.js';
import type { CellValue } from '../model/sheet-model.js';

/** Stretches of last year's gas that the workbook holds: two years of months. */
export const GAS_ROWS = 24;
/** Sets of heating rates, each from a month on. */
export const HEATING_RATE_ROWS = 8;
/** Months whose degree days can be typed. */
export const DEGREE_DAY_ROWS = 15;
/** Days of outdoor temperature that the workbook holds: some three years. */
export const TEMPERATURE_ROWS = 1_100;

/** Settings of the heating sheets beside those of the comparison itself. */
export const OWN_SETTINGS = [
  'tariff',
  'calorificValueMjPerM3',
  'volumeCorrection',
  'leastCoverageShare',
  'degreeDayMethod',
] as const;
export type OwnSetting = (typeof OWN_SETTINGS)[number];

/** A stretch of last year's gas as its row holds it. */
export interface GasCells {
  /** First and last day, both counted, serial. */
  firstDay: CellValue;
  lastDay: CellValue;
  kwh: CellValue;
  volume: CellValue;
  /** `m3`, `ft3` or `100ft3`; blank is m³. */
  volumeUnit: CellValue;
  calorificValue: CellValue;
  degreeDays: CellValue;
}

/** A set of heating rates as its row holds it. */
export interface HeatingRateCells {
  /** Any day of the month from which they hold, serial. */
  from: CellValue;
  gasRate: CellValue;
  gasStanding: CellValue;
  singleRate: CellValue;
}

/** Degree days of a month as typed. */
export interface MonthDegreeDayCells {
  /** Any day of the month, serial. */
  month: CellValue;
  degreeDays: CellValue;
}

/** Outdoor temperature of a day as its row holds it. */
export interface TemperatureCells {
  /** Serial day. */
  date: CellValue;
  meanC: CellValue;
  maxC: CellValue;
  minC: CellValue;
}

/** Everything that the heating sheets take in, as the cells hold it. */
export interface HeatingCells {
  /** By key of `HEATING_INPUTS` and {@link OWN_SETTINGS}. */
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

export const BLANK_GAS: GasCells = {
  firstDay: null,
  lastDay: null,
  kwh: null,
  volume: null,
  volumeUnit: null,
  calorificValue: null,
  degreeDays: null,
};
export const BLANK_HEATING_RATES: HeatingRateCells = {
  from: null,
  gasRate: null,
  gasStanding: null,
  singleRate: null,
};
export const BLANK_TEMPERATURE: TemperatureCells = { date: null, meanC: null, maxC: null, minC: null };

/** Rows, padded with blank ones to the count that the workbook holds. */
export function padded<Row>(rows: readonly Row[], count: number, blank: Row): Row[] {
  return Array.from({ length: count }, (_, i) => rows[i] ?? { ...blank });
}

/** What the heating sheets of a home hold that has told nothing yet. */
export function blankHeatingCells(): HeatingCells {
  return {
    settings: {
      ...Object.fromEntries(HEATING_INPUTS.map(({ key, initial }) => [key, initial])),
      tariff: null,
      calorificValueMjPerM3: 39.5,
      volumeCorrection: 1.02264,
      leastCoverageShare: 0.98,
      degreeDayMethod: 'daily mean',
    },
    gas: padded([], GAS_ROWS, BLANK_GAS),
    rates: padded([], HEATING_RATE_ROWS, BLANK_HEATING_RATES),
    monthDegreeDays: padded([], DEGREE_DAY_ROWS, { month: null, degreeDays: null }),
    sensitivity: SENSITIVITY_ROWS.map(({ sensitivityValue }) => sensitivityValue),
    temperatures: padded([], TEMPERATURE_ROWS, BLANK_TEMPERATURE),
  };
}
