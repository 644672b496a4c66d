import type { ArgumentDescription, DescribedFunction } from '../functions/described-function.js';
import { requireNumber, requirePositive } from '../functions/require-number.js';
import { numberAt } from './cell-arguments.js';
import { fitDailyUse, type WeatherFit } from './fit-use-to-degree-days.js';
import { twoSidedTQuantile } from './two-sided-t-quantile.js';
import { FIT_COLUMNS, pairedColumns } from './weather-fit-parts.js';

/** A period to carry a fit to. */
export interface TargetPeriod {
  /** Calendar days. */
  days: number;
  /** Its heating degree days, °C·day. */
  degreeDays: number;
  /** Months (or whatever length the fit's periods had) that it is made of: their scatter averages out. */
  periods: number;
}

/** What of a fit decides how surely it predicts. */
export type LineScatter = Pick<
  WeatherFit,
  'residualStandardError' | 'periods' | 'meanDegreeDaysPerDay' | 'degreeDaysSpread'
>;

/** A figure and the range that holds it with the stated confidence. */
export interface UseRange {
  useKwh: number;
  /** Standard error of the use as it would have been metered, kWh. */
  standardError: number;
  lowKwh: number;
  highKwh: number;
}

/**
 * Use at other weather: base × days + slope × degree days, with the range in which a meter would have read.
 * Variance = s² × (days²/n + (degree days − days × mean)²/Sxx + days²/periods): the first two terms are the doubt in
 * the fitted line, the last is the scatter of single months about it.
 * Source: prediction interval of simple linear regression, common textbook, summed over periods of equal length.
 *
 * @param fit the two parts, from {@link fitUseToDegreeDays}
 * @param target days and degree days to carry it to
 * @param confidence how often the range should hold, share 0–1, usually 0.95
 * @returns use and range, kWh
 * @throws InputError when a figure of the target is out of range
 * @example predictUse(fit, { days: 365, degreeDays: 2000, periods: 12 }, 0.95)
 */
export function predictUse(fit: WeatherFit, target: TargetPeriod, confidence: number): UseRange {
  const useKwh = useAtWeather(fit.baseKwhPerDay, fit.kwhPerDegreeDay, target.days, target.degreeDays);
  const standardError = predictionStandardError(fit, target);
  const reach = twoSidedTQuantile(confidence, fit.periods - 2) * standardError;
  return { useKwh, standardError, lowKwh: useKwh - reach, highKwh: useKwh + reach };
}

/**
 * Use at given weather: base × days + slope × degree days.
 * Source: CIBSE TM41 (performance line), from memory.
 *
 * @param baseKwhPerDay weather-independent part, kWh/day
 * @param kwhPerDegreeDay weather-dependent part, kWh per degree day
 * @param days calendar days, at least 0
 * @param degreeDays heating degree days, at least 0
 * @returns use, kWh
 * @throws InputError when days or degree days are negative or a figure is no number
 * @example useAtWeather(8, 5, 31, 300) // 1748
 */
export function useAtWeather(
  baseKwhPerDay: number,
  kwhPerDegreeDay: number,
  days: number,
  degreeDays: number,
): number {
  requireNumber(baseKwhPerDay, 'baseKwhPerDay');
  requireNumber(kwhPerDegreeDay, 'kwhPerDegreeDay');
  requireNumber(days, 'days', 0);
  requireNumber(degreeDays, 'degreeDays', 0);
  return baseKwhPerDay * days + kwhPerDegreeDay * degreeDays;
}

/**
 * Standard error of {@link predictUse}.
 *
 * @param fit the two parts and their scatter
 * @param target days, degree days and number of periods
 * @returns kWh
 * @throws InputError when a figure of the target is out of range
 * @example predictionStandardError(fit, { days: 31, degreeDays: 300, periods: 1 })
 */
export function predictionStandardError(fit: LineScatter, target: TargetPeriod): number {
  const days = requireNumber(target.days, 'days', 0);
  const degreeDays = requireNumber(target.degreeDays, 'degreeDays', 0);
  const periods = requirePositive(target.periods, 'periods');
  const away = degreeDays - days * fit.meanDegreeDaysPerDay;
  return (
    fit.residualStandardError *
    Math.sqrt(days ** 2 / fit.periods + away ** 2 / fit.degreeDaysSpread + days ** 2 / periods)
  );
}

const useArgs = [
  {
    name: 'baseKwhPerDay',
    unit: 'kWh/day',
    kind: 'number',
    shape: 'cell',
    description: 'Weather-independent part.',
  },
  {
    name: 'kwhPerDegreeDay',
    unit: 'kWh/(°C·day)',
    kind: 'number',
    shape: 'cell',
    description: 'Weather-dependent part.',
  },
  { name: 'days', unit: 'days', kind: 'number', shape: 'cell', description: 'Calendar days.' },
  {
    name: 'degreeDays',
    unit: '°C·day',
    kind: 'number',
    shape: 'cell',
    description: 'Heating degree days of those days.',
  },
] as const;

export const useAtWeatherDescribed: DescribedFunction = {
  name: 'useAtWeather',
  cellName: 'USE_AT_WEATHER',
  category: 'heating',
  summary: 'Use at given weather from its weather-independent and weather-dependent parts.',
  arguments: useArgs,
  result: { unit: 'kWh', shape: 'cell', description: 'Use.' },
  source: 'CIBSE TM41 (performance line), from memory',
  example: { arguments: [8, 5, 31, 300], result: 1748 },
  compute: (a) =>
    useAtWeather(
      numberAt(a, useArgs, 0),
      numberAt(a, useArgs, 1),
      numberAt(a, useArgs, 2),
      numberAt(a, useArgs, 3),
    ),
  formula: ([base, slope, days, degreeDays]) => `${base}*${days}+${slope}*${degreeDays}`,
};

const errorArgs: readonly ArgumentDescription[] = [
  ...FIT_COLUMNS,
  {
    name: 'days',
    unit: 'days',
    kind: 'number',
    shape: 'cell',
    description: 'Calendar days to carry it to.',
  },
  {
    name: 'degreeDays',
    unit: '°C·day',
    kind: 'number',
    shape: 'cell',
    description: 'Heating degree days of those days.',
  },
  {
    name: 'periods',
    unit: 'count',
    kind: 'number',
    shape: 'cell',
    description: 'Months in those days: 1 for a month, 12 for a year.',
  },
];

export const predictionStandardErrorDescribed: DescribedFunction = {
  name: 'predictionStandardError',
  cellName: 'USE_PREDICTION_STANDARD_ERROR',
  category: 'heating',
  summary: 'Standard error of a use carried to other weather, scatter of single months included.',
  arguments: errorArgs,
  result: { unit: 'kWh', shape: 'cell', description: 'Standard error of the use.' },
  source: 'prediction interval of simple linear regression, common textbook',
  example: {
    arguments: [[[1], [0], [1], [2]], [[0], [2], [2], [4]], 4, 8, 1],
    result: Math.sqrt(0.75) * Math.sqrt(4 + 0 + 16),
  },
  compute: (a) => {
    const { useKwhPerDay, degreeDaysPerDay } = pairedColumns(a, errorArgs);
    return predictionStandardError(fitDailyUse(degreeDaysPerDay, useKwhPerDay), {
      days: numberAt(a, errorArgs, 2),
      degreeDays: numberAt(a, errorArgs, 3),
      periods: numberAt(a, errorArgs, 4),
    });
  },
  formula: ([y, x, days, degreeDays, periods]) =>
    `STEYX(${y},${x})*SQRT(${days}^2/COUNT(${x})+(${degreeDays}-${days}*AVERAGE(${x}))^2/DEVSQ(${x})+${days}^2/${periods})`,
};
