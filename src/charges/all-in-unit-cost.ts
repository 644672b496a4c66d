import { cellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription, DescribedFunction } from '../functions/described-function.js';
import { requireNumber, requirePositive } from '../functions/require-number.js';

/**
 * What a kWh costs with the standing charge spread over it.
 * Source: arithmetic.
 *
 * @param energyPounds £
 * @param standingPounds £, over the same period and both with or both without VAT
 * @param kwh energy used in that period
 * @returns p/kWh
 * @throws InputError when nothing was used or an amount is no number
 * @example allInUnitCost(80, 15.5, 350) // 27.285714285714285
 */
export function allInUnitCost(energyPounds: number, standingPounds: number, kwh: number): number {
  const pounds =
    requireNumber(energyPounds, 'energyPounds') + requireNumber(standingPounds, 'standingPounds');
  return (pounds * 100) / requirePositive(kwh, 'kwh');
}

const ARGUMENTS: readonly ArgumentDescription[] = [
  {
    name: 'energyPounds',
    unit: '£',
    kind: 'number',
    shape: 'cell',
    description: 'Energy cost of the period.',
  },
  {
    name: 'standingPounds',
    unit: '£',
    kind: 'number',
    shape: 'cell',
    description: 'Standing charge of the same period, with VAT if the energy is.',
  },
  { name: 'kwh', unit: 'kWh', kind: 'number', shape: 'cell', description: 'Energy used in the period.' },
];

export const allInUnitCostFunction: DescribedFunction = {
  name: 'allInUnitCost',
  cellName: 'ALL_IN_UNIT_COST',
  category: 'charges',
  summary: 'Says what a kWh costs with the standing charge spread over it.',
  arguments: ARGUMENTS,
  result: { unit: 'p/kWh', shape: 'cell', description: 'All-in cost of a kWh.' },
  source: 'arithmetic',
  example: { arguments: [80, 15.5, 350], result: 27.285714285714285 },
  compute: (args) => {
    const read = cellReader(args, ARGUMENTS);
    return allInUnitCost(read.number('energyPounds'), read.number('standingPounds'), read.number('kwh'));
  },
  formula: ([energy, standing, kwh]) => `(${energy}+${standing})*100/${kwh}`,
};
