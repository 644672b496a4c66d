import type { DescribedFunction } from '../functions/described-function.js';
import { requireNumber } from '../functions/require-number.js';
import { numberAt } from './cell-arguments.js';

/**
 * How far apart two estimates of the same cost are: their difference as a share of their mean.
 * Source: arithmetic.
 *
 * @param firstPounds one estimate, £, at least 0
 * @param secondPounds the other, £, at least 0
 * @returns share, 0 (equal) to 2; 0 where both are 0
 * @throws InputError when an estimate is negative
 * @example estimatesApart(110, 90) // 0.2
 */
export function estimatesApart(firstPounds: number, secondPounds: number): number {
  requireNumber(firstPounds, 'firstPounds', 0);
  requireNumber(secondPounds, 'secondPounds', 0);
  const mean = (firstPounds + secondPounds) / 2;
  return mean === 0 ? 0 : Math.abs(firstPounds - secondPounds) / mean;
}

const args = [
  { name: 'firstPounds', unit: '£', kind: 'number', shape: 'cell', description: 'One estimate.' },
  { name: 'secondPounds', unit: '£', kind: 'number', shape: 'cell', description: 'The other.' },
] as const;

export const estimatesApartDescribed: DescribedFunction = {
  name: 'estimatesApart',
  cellName: 'ESTIMATES_APART',
  category: 'heating',
  summary: 'How far apart two estimates of the same cost are, as a share of their mean.',
  arguments: args,
  result: { unit: 'share', shape: 'cell', description: '0 where they are equal.' },
  source: 'arithmetic',
  example: { arguments: [125, 75], result: 0.5 },
  compute: (a) => estimatesApart(numberAt(a, args, 0), numberAt(a, args, 1)),
  formula: ([first, second]) => `IF(${first}+${second}=0,0,ABS(${first}-${second})/((${first}+${second})/2))`,
};
