import { InputError } from '../errors.js';
import { requireNumber, requirePositive } from '../functions/require-number.js';

/** One period of metered use, usually a month. */
export interface MeteredPeriod {
  /** Calendar days, above 0. */
  days: number;
  /** Fuel metered over those days, kWh. */
  useKwh: number;
  /** Heating degree days of those days, °C·day. */
  degreeDays: number;
}

/** The two parts of a fuel's use, and how surely they are known. */
export interface WeatherFit {
  /** Weather-independent part (hot water, cooking), kWh/day: the intercept. */
  baseKwhPerDay: number;
  /** Weather-dependent part, kWh per degree day: the slope. */
  kwhPerDegreeDay: number;
  /** Standard error of the intercept, kWh/day. */
  baseStandardError: number;
  /** Standard error of the slope, kWh per degree day. */
  slopeStandardError: number;
  /** Scatter of a period's daily use about the line, kWh/day, with n − 2 degrees of freedom. */
  residualStandardError: number;
  /** Share of the variance of daily use that degree days explain, 0–1. */
  rSquared: number;
  /** Periods fitted. */
  periods: number;
  /** Mean of the periods' degree days a day, °C. */
  meanDegreeDaysPerDay: number;
  /** Sum of squared deviations of degree days a day from their mean, °C². */
  degreeDaysSpread: number;
}

/** Fewest periods of a fit: two figures are fitted and one more is needed to see the scatter. */
export const MIN_FIT_PERIODS = 3;

/** Least difference between the coldest and the mildest month of a fit worth showing, degree days a day, °C. */
export const MIN_WEATHER_SPAN_C = 0.5;

/**
 * How many months a fit can rest on.
 *
 * @param degreeDaysPerDay degree days ÷ days of each month, °C
 * @returns their count; 0 where there are fewer than three, or all had about the same weather
 * @example monthsToFit([0, 0, 0]) // 0
 */
export function monthsToFit(degreeDaysPerDay: readonly number[]): number {
  const months = degreeDaysPerDay.length;
  const span = Math.max(...degreeDaysPerDay) - Math.min(...degreeDaysPerDay);
  return months >= MIN_FIT_PERIODS && span >= MIN_WEATHER_SPAN_C ? months : 0;
}

/** The cell formula of {@link monthsToFit}, given a reference to the column. */
export function monthsToFitFormula(column: string): string {
  return `IF(AND(COUNT(${column})>=${MIN_FIT_PERIODS},MAX(${column})-MIN(${column})>=${MIN_WEATHER_SPAN_C}),COUNT(${column}),0)`;
}

/**
 * Splits a fuel's use into a weather-independent part a day and a weather-dependent part a degree day, by ordinary
 * least squares of daily use on daily degree days: use ÷ days = base + slope × (degree days ÷ days).
 * Dividing by days makes months of 28 and 31 days comparable; periods are weighted alike, so give periods of about
 * the same length. The figures are those of a spreadsheet's INTERCEPT, SLOPE and STEYX on the two daily columns.
 * Source: CIBSE TM41 (performance line); standard errors of simple linear regression, common textbook.
 *
 * @param periods metered periods, at least three, not all with the same degree days a day
 * @returns both parts with their standard errors
 * @throws InputError when there are too few periods, a figure is out of range, or the weather never varied
 * @example fitUseToDegreeDays([{ days: 31, useKwh: 1860, degreeDays: 310 }, …]).kwhPerDegreeDay
 */
export function fitUseToDegreeDays(periods: readonly MeteredPeriod[]): WeatherFit {
  return fitDailyUse(
    periods.map((p) => p.degreeDays / requirePositive(p.days, 'days')),
    periods.map((p) => p.useKwh / p.days),
  );
}

/**
 * The fit of {@link fitUseToDegreeDays} on the two columns that it makes.
 *
 * @param degreeDaysPerDay degree days ÷ days of each period, °C
 * @param useKwhPerDay use ÷ days of each period, kWh/day
 * @returns both parts with their standard errors
 * @throws InputError as {@link fitUseToDegreeDays}
 * @example fitDailyUse([0, 5, 10], [8, 23, 38]).kwhPerDegreeDay // 3
 */
export function fitDailyUse(
  degreeDaysPerDay: readonly number[],
  useKwhPerDay: readonly number[],
): WeatherFit {
  const n = degreeDaysPerDay.length;
  if (n !== useKwhPerDay.length) {
    throw new InputError(`there are ${n} degree days and ${useKwhPerDay.length} uses`, 'Give one of each.');
  }
  if (n < MIN_FIT_PERIODS) {
    throw new InputError(
      `there ${n === 1 ? 'is 1 period' : `are ${n} periods`}`,
      `A fit needs at least ${MIN_FIT_PERIODS} periods with both use and degree days.`,
    );
  }
  for (const x of degreeDaysPerDay) requireNumber(x, 'degreeDays', 0);
  for (const y of useKwhPerDay) requireNumber(y, 'useKwh', 0);

  const meanX = sum(degreeDaysPerDay) / n;
  const meanY = sum(useKwhPerDay) / n;
  const sxx = sum(degreeDaysPerDay.map((x) => (x - meanX) ** 2));
  const syy = sum(useKwhPerDay.map((y) => (y - meanY) ** 2));
  const sxy = sum(degreeDaysPerDay.map((x, i) => (x - meanX) * (useKwhPerDay[i]! - meanY)));
  // Equal values leave rounding dust in sxx, of the order of n·(ε·mean)².
  if (sxx <= n * (1e-12 * meanX) ** 2) {
    throw new InputError(
      'every period has the same degree days a day',
      'Add periods of other weather: the weather-dependent part can not be told from one kind of weather.',
    );
  }
  const slope = sxy / sxx;
  const intercept = meanY - slope * meanX;
  const residuals = useKwhPerDay.map((y, i) => y - intercept - slope * degreeDaysPerDay[i]!);
  const residualSquares = sum(residuals.map((r) => r * r));
  const scatter = Math.sqrt(residualSquares / (n - 2));
  return {
    baseKwhPerDay: intercept,
    kwhPerDegreeDay: slope,
    baseStandardError: scatter * Math.sqrt(1 / n + meanX ** 2 / sxx),
    slopeStandardError: scatter / Math.sqrt(sxx),
    residualStandardError: scatter,
    rSquared: syy === 0 ? 0 : (sxy * sxy) / (sxx * syy),
    periods: n,
    meanDegreeDaysPerDay: meanX,
    degreeDaysSpread: sxx,
  };
}

function sum(values: readonly number[]): number {
  let total = 0;
  for (const value of values) total += value;
  return total;
}
