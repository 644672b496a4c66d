import type { DescribedFunction } from '../functions/described-function.js';
import { requireNumber, requirePositive } from '../functions/require-number.js';
import { numberAt } from './cell-arguments.js';

/**
 * How much energy a sum of money bought, standing charges left out.
 * Source: arithmetic.
 *
 * @param costPounds what was paid for energy, £, at least 0
 * @param unitRatePence unit rate, p/kWh, above 0
 * @returns energy, kWh
 * @throws InputError when the sum is negative or the rate not above 0
 * @example energyForMoney(144, 28.71) // 501.56…
 */
export function energyForMoney(costPounds: number, unitRatePence: number): number {
  requireNumber(costPounds, 'costPounds', 0);
  requirePositive(unitRatePence, 'unitRatePence');
  return (costPounds * 100) / unitRatePence;
}

const args = [
  {
    name: 'costPounds',
    unit: '£',
    kind: 'number',
    shape: 'cell',
    description: 'What was paid for the energy, without standing charge.',
  },
  { name: 'unitRatePence', unit: 'p/kWh', kind: 'number', shape: 'cell', description: 'Unit rate.' },
] as const;

export const energyForMoneyDescribed: DescribedFunction = {
  name: 'energyForMoney',
  cellName: 'ENERGY_FOR_MONEY',
  category: 'heating',
  summary: 'How much energy a sum of money bought at a unit rate.',
  arguments: args,
  result: { unit: 'kWh', shape: 'cell', description: 'Energy.' },
  source: 'arithmetic',
  example: { arguments: [144, 24], result: 600 },
  compute: (a) => energyForMoney(numberAt(a, args, 0), numberAt(a, args, 1)),
  formula: ([cost, rate]) => `${cost}*100/${rate}`,
};
