import type { DescribedFunction } from '../functions/described-function.js';
import { numberAt } from './cell-arguments.js';
import { energyForMoney } from './energy-for-money.js';
import { requireEfficiency } from './require-efficiency.js';

/**
 * How much useful heat a sum of money spent on gas delivered, standing charge left out.
 * Source: common practice, no source.
 *
 * @param costPounds what was paid for gas, £, at least 0
 * @param gasRatePence gas unit rate, p/kWh, above 0
 * @param boilerEfficiency share of the gas that becomes useful heat, 0–1
 * @returns heat, kWh
 * @throws InputError when the sum is negative, the rate not above 0 or the efficiency out of range
 * @example heatForGasMoney(157, 7.57, 0.9) // 1866.58…
 */
export function heatForGasMoney(costPounds: number, gasRatePence: number, boilerEfficiency: number): number {
  return energyForMoney(costPounds, gasRatePence) * requireEfficiency(boilerEfficiency, 'boilerEfficiency');
}

const args = [
  {
    name: 'costPounds',
    unit: '£',
    kind: 'number',
    shape: 'cell',
    description: 'What was paid for gas, without standing charge.',
  },
  { name: 'gasRatePence', unit: 'p/kWh', kind: 'number', shape: 'cell', description: 'Gas unit rate.' },
  {
    name: 'boilerEfficiency',
    unit: 'share 0–1',
    kind: 'number',
    shape: 'cell',
    description: 'Share of the gas that the boiler turns into useful heat.',
  },
] as const;

export const heatForGasMoneyDescribed: DescribedFunction = {
  name: 'heatForGasMoney',
  cellName: 'HEAT_FOR_GAS_MONEY',
  category: 'heating',
  summary: 'How much useful heat a sum of money spent on gas delivered.',
  arguments: args,
  result: { unit: 'kWh', shape: 'cell', description: 'Useful heat.' },
  source: 'common practice, no source',
  example: { arguments: [80, 8, 0.9], result: 900 },
  compute: (a) => heatForGasMoney(numberAt(a, args, 0), numberAt(a, args, 1), numberAt(a, args, 2)),
  formula: ([cost, rate, efficiency]) => `${cost}*100/${rate}*${efficiency}`,
};
