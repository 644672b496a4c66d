import { InputError } from '../errors.js';
import type {
  ArgumentDescription,
  CellArgument,
  DescribedFunction,
} from '../functions/described-function.js';
import { columnAt } from './cell-arguments.js';
import { fitDailyUse } from './fit-use-to-degree-days.js';

/** The two columns from which every part of a fit is read. */
export const FIT_COLUMNS: readonly ArgumentDescription[] = [
  {
    name: 'useKwhPerDay',
    unit: 'kWh/day',
    kind: 'number',
    shape: 'column',
    description: 'Use ÷ days of each period; blank where unknown.',
  },
  {
    name: 'degreeDaysPerDay',
    unit: '°C',
    kind: 'number',
    shape: 'column',
    description: 'Degree days ÷ days of each period; blank in the same rows as the use.',
  },
];

/**
 * The two columns out of a cell function's arguments, without the rows in which both are blank.
 *
 * @throws InputError when only one of a row's two cells is blank: spreadsheet functions disagree on such rows
 */
export function pairedColumns(
  args: readonly CellArgument[],
  described: readonly ArgumentDescription[],
): { useKwhPerDay: number[]; degreeDaysPerDay: number[] } {
  const use = columnAt(args, described, 0);
  const degreeDays = columnAt(args, described, 1);
  const odd = use.findIndex((y, i) => Number.isNaN(y) !== Number.isNaN(degreeDays[i] ?? Number.NaN));
  if (odd >= 0 || use.length !== degreeDays.length) {
    throw new InputError(
      'useKwhPerDay and degreeDaysPerDay do not pair',
      'Give both in a row or neither.',
      odd >= 0 ? { line: `row ${odd + 1} of the range` } : {},
    );
  }
  return {
    useKwhPerDay: use.filter((y) => !Number.isNaN(y)),
    degreeDaysPerDay: degreeDays.filter((x) => !Number.isNaN(x)),
  };
}

/**
 * Weather-independent part of a fuel a day: the intercept.
 * Source: simple linear regression, common textbook; CIBSE TM41 (performance line), from memory.
 *
 * @param useKwhPerDay use ÷ days of each period, kWh/day
 * @param degreeDaysPerDay degree days ÷ days of each period, °C
 * @returns kWh/day
 * @throws InputError as `fitUseToDegreeDays`
 * @example baseUsePerDay([8, 24, 40], [0, 5, 10]) // 8
 */
export function baseUsePerDay(useKwhPerDay: readonly number[], degreeDaysPerDay: readonly number[]): number {
  return fitDailyUse(degreeDaysPerDay, useKwhPerDay).baseKwhPerDay;
}

/**
 * Weather-dependent part of a fuel for each degree day: the slope.
 * Source: simple linear regression, common textbook; CIBSE TM41 (performance line), from memory.
 *
 * @param useKwhPerDay use ÷ days of each period, kWh/day
 * @param degreeDaysPerDay degree days ÷ days of each period, °C
 * @returns kWh per degree day
 * @throws InputError as `fitUseToDegreeDays`
 * @example usePerDegreeDay([8, 24, 40], [0, 5, 10]) // 3.2
 */
export function usePerDegreeDay(
  useKwhPerDay: readonly number[],
  degreeDaysPerDay: readonly number[],
): number {
  return fitDailyUse(degreeDaysPerDay, useKwhPerDay).kwhPerDegreeDay;
}

/**
 * Standard error of the weather-independent part.
 * Source: simple linear regression, common textbook; CIBSE TM41 (performance line), from memory.
 *
 * @param useKwhPerDay use ÷ days of each period, kWh/day
 * @param degreeDaysPerDay degree days ÷ days of each period, °C
 * @returns kWh/day
 * @throws InputError as `fitUseToDegreeDays`
 * @example baseUseStandardError([8, 24, 40], [0, 5, 10]) // 0
 */
export function baseUseStandardError(
  useKwhPerDay: readonly number[],
  degreeDaysPerDay: readonly number[],
): number {
  return fitDailyUse(degreeDaysPerDay, useKwhPerDay).baseStandardError;
}

/**
 * Standard error of the weather-dependent part.
 * Source: simple linear regression, common textbook; CIBSE TM41 (performance line), from memory.
 *
 * @param useKwhPerDay use ÷ days of each period, kWh/day
 * @param degreeDaysPerDay degree days ÷ days of each period, °C
 * @returns kWh per degree day
 * @throws InputError as `fitUseToDegreeDays`
 * @example usePerDegreeDayStandardError([8, 24, 40], [0, 5, 10]) // 0
 */
export function usePerDegreeDayStandardError(
  useKwhPerDay: readonly number[],
  degreeDaysPerDay: readonly number[],
): number {
  return fitDailyUse(degreeDaysPerDay, useKwhPerDay).slopeStandardError;
}

/**
 * Scatter of daily use about the fitted line.
 * Source: simple linear regression, common textbook; CIBSE TM41 (performance line), from memory.
 *
 * @param useKwhPerDay use ÷ days of each period, kWh/day
 * @param degreeDaysPerDay degree days ÷ days of each period, °C
 * @returns kWh/day
 * @throws InputError as `fitUseToDegreeDays`
 * @example useResidualStandardError([8, 24, 40], [0, 5, 10]) // 0
 */
export function useResidualStandardError(
  useKwhPerDay: readonly number[],
  degreeDaysPerDay: readonly number[],
): number {
  return fitDailyUse(degreeDaysPerDay, useKwhPerDay).residualStandardError;
}

/**
 * Share of the variance of daily use that degree days explain.
 * Source: simple linear regression, common textbook; CIBSE TM41 (performance line), from memory.
 *
 * @param useKwhPerDay use ÷ days of each period, kWh/day
 * @param degreeDaysPerDay degree days ÷ days of each period, °C
 * @returns share 0–1
 * @throws InputError as `fitUseToDegreeDays`
 * @example useRSquared([8, 24, 40], [0, 5, 10]) // 1
 */
export function useRSquared(useKwhPerDay: readonly number[], degreeDaysPerDay: readonly number[]): number {
  return fitDailyUse(degreeDaysPerDay, useKwhPerDay).rSquared;
}

function part(
  compute: (useKwhPerDay: readonly number[], degreeDaysPerDay: readonly number[]) => number,
  cellName: string,
  unit: string,
  summary: string,
  exampleResult: number,
  formula: (use: string, degreeDays: string) => string,
): DescribedFunction {
  return {
    name: compute.name,
    cellName,
    category: 'heating',
    summary,
    arguments: FIT_COLUMNS,
    result: { unit, shape: 'cell', description: summary },
    source: 'simple linear regression, common textbook; CIBSE TM41 (performance line), from memory',
    example: {
      arguments: [
        [[8], [24], [40]],
        [[0], [5], [10]],
      ],
      result: exampleResult,
    },
    compute: (args) => {
      const { useKwhPerDay, degreeDaysPerDay } = pairedColumns(args, FIT_COLUMNS);
      return compute(useKwhPerDay, degreeDaysPerDay);
    },
    formula: ([use, degreeDays]) => formula(use!, degreeDays!),
  };
}

/** Each figure of a {@link WeatherFit} as a cell function on the two daily columns. */
export const weatherFitPartsDescribed: readonly DescribedFunction[] = [
  part(
    baseUsePerDay,
    'BASE_USE_PER_DAY',
    'kWh/day',
    'Weather-independent part of a fuel a day: hot water, cooking.',
    8,
    (y, x) => `INTERCEPT(${y},${x})`,
  ),
  part(
    usePerDegreeDay,
    'USE_PER_DEGREE_DAY',
    'kWh/(°C·day)',
    'Weather-dependent part of a fuel for each degree day.',
    3.2,
    (y, x) => `SLOPE(${y},${x})`,
  ),
  part(
    baseUseStandardError,
    'BASE_USE_STANDARD_ERROR',
    'kWh/day',
    'Standard error of the weather-independent part.',
    0,
    (y, x) => `STEYX(${y},${x})*SQRT(1/COUNT(${x})+AVERAGE(${x})^2/DEVSQ(${x}))`,
  ),
  part(
    usePerDegreeDayStandardError,
    'USE_PER_DEGREE_DAY_STANDARD_ERROR',
    'kWh/(°C·day)',
    'Standard error of the weather-dependent part.',
    0,
    (y, x) => `STEYX(${y},${x})/SQRT(DEVSQ(${x}))`,
  ),
  part(
    useResidualStandardError,
    'USE_RESIDUAL_STANDARD_ERROR',
    'kWh/day',
    'Scatter of daily use about the fitted line.',
    0,
    (y, x) => `STEYX(${y},${x})`,
  ),
  part(
    useRSquared,
    'USE_R_SQUARED',
    'share 0–1',
    'Share of the variance of daily use that degree days explain.',
    1,
    (y, x) => `RSQ(${y},${x})`,
  ),
];
