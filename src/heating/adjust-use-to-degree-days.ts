import { InputError } from '../errors.js';
import type { DescribedFunction } from '../functions/described-function.js';
import { requireNumber, requirePositive } from '../functions/require-number.js';
import { numberAt } from './cell-arguments.js';
import type { MeteredPeriod } from './fit-use-to-degree-days.js';

/**
 * One period's metered use carried to another period's weather, where too few periods are known for a fit: the base
 * part is scaled by days, what is left by degree days.
 * Source: CIBSE TM41, from memory; common practice.
 *
 * @param metered the metered period
 * @param baseKwhPerDay weather-independent part, kWh/day, at least 0
 * @param days calendar days of the other period
 * @param degreeDays heating degree days of the other period
 * @returns use at the other period's weather, kWh
 * @throws InputError when the base alone is more than was metered, or the metered period had no degree days to scale by
 * @example adjustUseToDegreeDays({ days: 31, useKwh: 1748, degreeDays: 300 }, 8, 28, 350) // 1974
 */
export function adjustUseToDegreeDays(
  metered: MeteredPeriod,
  baseKwhPerDay: number,
  days: number,
  degreeDays: number,
): number {
  requireNumber(days, 'days', 0);
  requireNumber(degreeDays, 'degreeDays', 0);
  return baseKwhPerDay * days + slopeFromTotals(metered, baseKwhPerDay) * degreeDays;
}

/**
 * Weather-dependent part a degree day of one metered total, given its base part.
 *
 * @param metered the metered period
 * @param baseKwhPerDay weather-independent part, kWh/day
 * @returns kWh per degree day
 * @throws InputError as {@link adjustUseToDegreeDays}
 * @example slopeFromTotals({ days: 31, useKwh: 1748, degreeDays: 300 }, 8) // 5
 */
export function slopeFromTotals(metered: MeteredPeriod, baseKwhPerDay: number): number {
  requirePositive(metered.days, 'days');
  requireNumber(metered.useKwh, 'useKwh', 0);
  requireNumber(baseKwhPerDay, 'baseKwhPerDay', 0);
  requirePositive(metered.degreeDays, 'degreeDays');
  const weatherPart = metered.useKwh - baseKwhPerDay * metered.days;
  if (weatherPart < 0) {
    throw new InputError(
      `a base of ${baseKwhPerDay} kWh/day is more than was metered (${metered.useKwh} kWh in ${metered.days} days)`,
      'Lower the base use a day.',
    );
  }
  return weatherPart / metered.degreeDays;
}

const args = [
  { name: 'useKwh', unit: 'kWh', kind: 'number', shape: 'cell', description: 'Metered use.' },
  { name: 'meteredDays', unit: 'days', kind: 'number', shape: 'cell', description: 'Days it was metered.' },
  {
    name: 'meteredDegreeDays',
    unit: '°C·day',
    kind: 'number',
    shape: 'cell',
    description: 'Heating degree days of the metered days.',
  },
  {
    name: 'baseKwhPerDay',
    unit: 'kWh/day',
    kind: 'number',
    shape: 'cell',
    description: 'Weather-independent part, for example a summer day.',
  },
  {
    name: 'days',
    unit: 'days',
    kind: 'number',
    shape: 'cell',
    description: 'Days of the other period.',
  },
  {
    name: 'degreeDays',
    unit: '°C·day',
    kind: 'number',
    shape: 'cell',
    description: 'Heating degree days of the other period.',
  },
] as const;

export const adjustUseToDegreeDaysDescribed: DescribedFunction = {
  name: 'adjustUseToDegreeDays',
  cellName: 'ADJUST_USE_TO_DEGREE_DAYS',
  category: 'heating',
  summary: "One period's use carried to another's weather: base part by days, the rest by degree days.",
  arguments: args,
  result: { unit: 'kWh', shape: 'cell', description: "Use at the other period's weather." },
  source: 'CIBSE TM41, from memory',
  example: { arguments: [1748, 31, 300, 8, 28, 350], result: 1974 },
  compute: (a) =>
    adjustUseToDegreeDays(
      { useKwh: numberAt(a, args, 0), days: numberAt(a, args, 1), degreeDays: numberAt(a, args, 2) },
      numberAt(a, args, 3),
      numberAt(a, args, 4),
      numberAt(a, args, 5),
    ),
  formula: ([use, meteredDays, meteredDd, base, days, dd]) =>
    `${base}*${days}+(${use}-${base}*${meteredDays})/${meteredDd}*${dd}`,
};
