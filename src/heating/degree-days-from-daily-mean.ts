import type { DescribedFunction } from '../functions/described-function.js';
import { requireNumber } from '../functions/require-number.js';
import { numberAt } from './cell-arguments.js';

/** Base temperature of heating degree days in the UK, °C (CIBSE TM41). */
export const UK_BASE_C = 15.5;

/**
 * Heating degree days of a day from its mean temperature: base − mean where the mean is below the base, else 0.
 * Source: NOAA / CIBSE TM41, from memory. Misses the cold hours of a day whose mean is above the base.
 *
 * @param meanC mean temperature of the day, °C
 * @param baseC base temperature, °C
 * @returns heating degree days, °C·day
 * @throws InputError when a temperature is no number
 * @example degreeDaysFromDailyMean(5, 15.5) // 10.5
 */
export function degreeDaysFromDailyMean(meanC: number, baseC: number): number {
  requireNumber(meanC, 'meanC');
  requireNumber(baseC, 'baseC');
  return Math.max(0, baseC - meanC);
}

const args = [
  { name: 'meanC', unit: '°C', kind: 'number', shape: 'cell', description: 'Mean temperature of the day.' },
  {
    name: 'baseC',
    unit: '°C',
    kind: 'number',
    shape: 'cell',
    description: 'Base temperature: 15.5 °C in the UK, 18.3 °C (65 °F) in the US.',
  },
] as const;

export const degreeDaysFromDailyMeanDescribed: DescribedFunction = {
  name: 'degreeDaysFromDailyMean',
  cellName: 'DEGREE_DAYS_FROM_DAILY_MEAN',
  category: 'heating',
  summary: 'Heating degree days of one day from its mean temperature.',
  arguments: args,
  result: { unit: '°C·day', shape: 'cell', description: 'Heating degree days.' },
  source: 'NOAA and CIBSE TM41, from memory',
  example: { arguments: [5, 15.5], result: 10.5 },
  compute: (a) => degreeDaysFromDailyMean(numberAt(a, args, 0), numberAt(a, args, 1)),
  formula: ([mean, base]) => `MAX(0,${base}-${mean})`,
};
