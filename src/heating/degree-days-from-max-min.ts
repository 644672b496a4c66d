import { InputError } from '../errors.js';
import type { DescribedFunction } from '../functions/described-function.js';
import { requireNumber } from '../functions/require-number.js';
import { numberAt } from './cell-arguments.js';

/**
 * Heating degree days of a day from its maximum and minimum: the Met Office equations.
 * max ≤ base: base − (max + min)/2; mean below base < max: (base − min)/2 − (max − base)/4;
 * mean at or above base > min: (base − min)/4; min ≥ base: 0.
 * Source: Met Office equations as given in CIBSE TM41, from memory.
 *
 * @param maxC highest temperature of the day, °C
 * @param minC lowest temperature of the day, °C
 * @param baseC base temperature, °C
 * @returns heating degree days, °C·day
 * @throws InputError when the maximum is below the minimum or a temperature is no number
 * @example degreeDaysFromMaxMin(18, 9, 15.5) // 2.625
 */
export function degreeDaysFromMaxMin(maxC: number, minC: number, baseC: number): number {
  requireNumber(maxC, 'maxC');
  requireNumber(minC, 'minC');
  requireNumber(baseC, 'baseC');
  if (maxC < minC) {
    throw new InputError(
      `the day's maximum ${maxC} °C is below its minimum ${minC} °C`,
      'Check the order of the two columns.',
    );
  }
  if (minC >= baseC) return 0;
  if (maxC <= baseC) return baseC - (maxC + minC) / 2;
  if ((maxC + minC) / 2 < baseC) return (baseC - minC) / 2 - (maxC - baseC) / 4;
  return (baseC - minC) / 4;
}

const args = [
  {
    name: 'maxC',
    unit: '°C',
    kind: 'number',
    shape: 'cell',
    description: 'Highest temperature of the day.',
  },
  { name: 'minC', unit: '°C', kind: 'number', shape: 'cell', description: 'Lowest temperature of the day.' },
  { name: 'baseC', unit: '°C', kind: 'number', shape: 'cell', description: 'Base temperature.' },
] as const;

export const degreeDaysFromMaxMinDescribed: DescribedFunction = {
  name: 'degreeDaysFromMaxMin',
  cellName: 'DEGREE_DAYS_FROM_MAX_MIN',
  category: 'heating',
  summary: 'Heating degree days of one day from its highest and lowest temperature.',
  arguments: args,
  result: { unit: '°C·day', shape: 'cell', description: 'Heating degree days.' },
  source: 'Met Office equations as given in CIBSE TM41, from memory',
  example: { arguments: [18, 9, 15.5], result: 2.625 },
  compute: (a) => degreeDaysFromMaxMin(numberAt(a, args, 0), numberAt(a, args, 1), numberAt(a, args, 2)),
  formula: ([max, min, base]) =>
    `IF(${max}<${min},NA(),IF(${min}>=${base},0,IF(${max}<=${base},${base}-(${max}+${min})/2,` +
    `IF((${max}+${min})/2<${base},(${base}-${min})/2-(${max}-${base})/4,(${base}-${min})/4))))`,
};
