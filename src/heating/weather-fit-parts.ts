import { InputError } from '../errors.js';
import type {
  ArgumentDescription,
  CellArgument,
  DescribedFunction,
} from '../functions/described-function.js';
import { columnAt } from './cell-arguments.js';
import { fitDailyUse, type WeatherFit } from './fit-use-to-degree-days.js';

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
 * Fits two cell columns, leaving out the rows in which both are blank.
 *
 * @throws InputError when only one of a row's two cells is blank: spreadsheet functions disagree on such rows
 */
export function fitCellColumns(
  args: readonly CellArgument[],
  described: readonly ArgumentDescription[],
  useIndex = 0,
  degreeDaysIndex = 1,
): WeatherFit {
  const use = columnAt(args, described, useIndex);
  const degreeDays = columnAt(args, described, degreeDaysIndex);
  const odd = use.findIndex((y, i) => Number.isNaN(y) !== Number.isNaN(degreeDays[i] ?? Number.NaN));
  if (odd >= 0 || use.length !== degreeDays.length) {
    throw new InputError(
      'use and degree days do not pair',
      'Give both in a row or neither.',
      odd >= 0 ? { line: `row ${odd + 1} of the range` } : {},
    );
  }
  return fitDailyUse(
    degreeDays.filter((x) => !Number.isNaN(x)),
    use.filter((y) => !Number.isNaN(y)),
  );
}

function part(
  name: keyof WeatherFit,
  cellName: string,
  unit: string,
  summary: string,
  exampleResult: number,
  formula: (use: string, degreeDays: string) => string,
): DescribedFunction {
  return {
    name,
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
    compute: (args) => fitCellColumns(args, FIT_COLUMNS)[name],
    formula: ([use, degreeDays]) => formula(use!, degreeDays!),
  };
}

/** Each figure of a {@link WeatherFit} as a cell function on the two daily columns. */
export const weatherFitPartsDescribed: readonly DescribedFunction[] = [
  part(
    'baseKwhPerDay',
    'BASE_USE_PER_DAY',
    'kWh/day',
    'Weather-independent part of a fuel a day: hot water, cooking.',
    8,
    (y, x) => `INTERCEPT(${y},${x})`,
  ),
  part(
    'kwhPerDegreeDay',
    'USE_PER_DEGREE_DAY',
    'kWh/(°C·day)',
    'Weather-dependent part of a fuel for each degree day.',
    3.2,
    (y, x) => `SLOPE(${y},${x})`,
  ),
  part(
    'baseStandardError',
    'BASE_USE_STANDARD_ERROR',
    'kWh/day',
    'Standard error of the weather-independent part.',
    0,
    (y, x) => `STEYX(${y},${x})*SQRT(1/COUNT(${x})+AVERAGE(${x})^2/DEVSQ(${x}))`,
  ),
  part(
    'slopeStandardError',
    'USE_PER_DEGREE_DAY_STANDARD_ERROR',
    'kWh/(°C·day)',
    'Standard error of the weather-dependent part.',
    0,
    (y, x) => `STEYX(${y},${x})/SQRT(DEVSQ(${x}))`,
  ),
  part(
    'residualStandardError',
    'USE_RESIDUAL_STANDARD_ERROR',
    'kWh/day',
    'Scatter of daily use about the fitted line.',
    0,
    (y, x) => `STEYX(${y},${x})`,
  ),
  part(
    'rSquared',
    'USE_R_SQUARED',
    'share 0–1',
    'Share of the variance of daily use that degree days explain.',
    1,
    (y, x) => `RSQ(${y},${x})`,
  ),
];
