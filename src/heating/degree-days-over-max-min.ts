import { InputError } from '../errors.js';
import type { DescribedFunction } from '../functions/described-function.js';
import { columnAt, numberAt } from './cell-arguments.js';
import { degreeDaysFromMaxMin } from './degree-days-from-max-min.js';

/**
 * Heating degree days of a period from each day's maximum and minimum.
 * Days without both temperatures count nothing: show how many there are beside the result.
 * Source: Met Office equations as given in CIBSE TM41, from memory.
 *
 * @param maxC highest temperature of each day, °C, NaN where missing
 * @param minC lowest temperature of each day, °C, NaN where missing
 * @param baseC base temperature, °C
 * @returns heating degree days of the days that have both, °C·day
 * @throws InputError when the lists differ in length, no day has both, or a maximum is below its minimum
 * @example degreeDaysOverMaxMin([18, 10], [9, 4], 15.5) // 11.125
 */
export function degreeDaysOverMaxMin(
  maxC: ArrayLike<number>,
  minC: ArrayLike<number>,
  baseC: number,
): number {
  if (maxC.length !== minC.length) {
    throw new InputError(
      `maxC has ${maxC.length} rows and minC has ${minC.length}`,
      'Give one of each for every day.',
    );
  }
  let sum = 0;
  let known = 0;
  for (let i = 0; i < maxC.length; i++) {
    if (Number.isNaN(maxC[i]!) || Number.isNaN(minC[i]!)) continue;
    sum += degreeDaysFromMaxMin(maxC[i]!, minC[i]!, baseC);
    known++;
  }
  if (known === 0) throw new InputError('no day has both temperatures', 'Give at least one day.');
  return sum;
}

const args = [
  {
    name: 'maxC',
    unit: '°C',
    kind: 'number',
    shape: 'column',
    description: 'Highest temperature of each day.',
  },
  {
    name: 'minC',
    unit: '°C',
    kind: 'number',
    shape: 'column',
    description: 'Lowest temperature of each day, same rows.',
  },
  { name: 'baseC', unit: '°C', kind: 'number', shape: 'cell', description: 'Base temperature.' },
] as const;

export const degreeDaysOverMaxMinDescribed: DescribedFunction = {
  name: 'degreeDaysOverMaxMin',
  cellName: 'DEGREE_DAYS_OVER_MAX_MIN',
  category: 'heating',
  summary: 'Heating degree days of a period from the highest and lowest temperature of each day.',
  arguments: args,
  result: {
    unit: '°C·day',
    shape: 'cell',
    description: 'Heating degree days of the days that have both temperatures.',
  },
  source: 'Met Office equations as given in CIBSE TM41, from memory',
  example: { arguments: [[[18], [10]], [[9], [4]], 15.5], result: 11.125 },
  compute: (a) => degreeDaysOverMaxMin(columnAt(a, args, 0), columnAt(a, args, 1), numberAt(a, args, 2)),
  // The four cases as one sum: each term is switched on by its condition, because SUMPRODUCT with IF inside would
  // need array entry in some programs.
  formula: ([max, min, base]) => {
    const below = `(${max}<=${base})*(${base}-(${max}+${min})/2)`;
    const meanBelow = `(${max}>${base})*(${max}+${min}<2*${base})*((${base}-${min})/2-(${max}-${base})/4)`;
    const meanAbove = `(${min}<${base})*(${max}+${min}>=2*${base})*(${max}>${base})*(${base}-${min})/4`;
    return `SUMPRODUCT((${max}<>"")*(${min}<>"")*(${below}+${meanBelow}+${meanAbove}))`;
  },
};
