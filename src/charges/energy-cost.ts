import { cellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription, DescribedFunction } from '../functions/described-function.js';
import { requireSameLength } from '../functions/require-number.js';

/**
 * What energy costs: the sum of kWh × rate.
 * Source: arithmetic.
 *
 * @param kwh energy of each interval, kWh
 * @param unitRatePence rate of each interval, p/kWh, as many as `kwh`
 * @returns £, not rounded, with or without VAT as the rates are
 * @throws InputError when the lengths differ or a value is missing
 * @example energyCost([0.5, 1.2], [13.5, 27.5]) // 0.3975
 */
export function energyCost(kwh: ArrayLike<number>, unitRatePence: ArrayLike<number>): number {
  requireSameLength(kwh, 'kwh', unitRatePence, 'unitRatePence');
  let pence = 0;
  for (let i = 0; i < kwh.length; i++) pence += kwh[i]! * unitRatePence[i]!;
  return pence / 100;
}

const ARGUMENTS: readonly ArgumentDescription[] = [
  { name: 'kwh', unit: 'kWh', kind: 'number', shape: 'column', description: 'Energy of each interval.' },
  {
    name: 'unitRatePence',
    unit: 'p/kWh',
    kind: 'number',
    shape: 'column',
    description: 'Rate of each interval, as many rows.',
  },
];

export const energyCostFunction: DescribedFunction = {
  name: 'energyCost',
  cellName: 'ENERGY_COST',
  category: 'charges',
  summary: 'Adds up what energy costs when each interval has its own rate.',
  arguments: ARGUMENTS,
  result: { unit: '£', shape: 'cell', description: 'Not rounded; with or without VAT as the rates are.' },
  source: 'arithmetic',
  example: {
    arguments: [
      [[0.5], [1.2]],
      [[13.5], [27.5]],
    ],
    result: 0.3975,
  },
  compute: (args) => {
    const read = cellReader(args, ARGUMENTS);
    return energyCost(read.numbers('kwh'), read.numbers('unitRatePence'));
  },
  formula: ([kwh, rate]) => `SUMPRODUCT(${kwh}*${rate})/100`,
};
