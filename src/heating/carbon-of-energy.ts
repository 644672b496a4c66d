import type { DescribedFunction } from '../functions/described-function.js';
import { requireNumber } from '../functions/require-number.js';
import { numberAt } from './cell-arguments.js';

/**
 * Carbon dioxide equivalent of an amount of energy, from a factor that the user enters (published factors
 * change each year and differ by country, so none is built in).
 * Source: arithmetic.
 *
 * @param energyKwh gas burnt or electricity taken, kWh, at least 0
 * @param factorKgPerKwh kg CO₂e/kWh, at least 0
 * @returns kg CO₂e
 * @throws InputError when a figure is negative
 * @example carbonOfEnergy(1000, 0.18) // 180
 */
export function carbonOfEnergy(energyKwh: number, factorKgPerKwh: number): number {
  requireNumber(energyKwh, 'energyKwh', 0);
  requireNumber(factorKgPerKwh, 'factorKgPerKwh', 0);
  return energyKwh * factorKgPerKwh;
}

const args = [
  {
    name: 'energyKwh',
    unit: 'kWh',
    kind: 'number',
    shape: 'cell',
    description: 'Gas burnt or electricity taken.',
  },
  {
    name: 'factorKgPerKwh',
    unit: 'kg CO₂e/kWh',
    kind: 'number',
    shape: 'cell',
    description: 'Emission factor of that energy, from a published list for the country and year.',
  },
] as const;

export const carbonOfEnergyDescribed: DescribedFunction = {
  name: 'carbonOfEnergy',
  cellName: 'CARBON_OF_ENERGY',
  category: 'heating',
  summary: 'Carbon dioxide equivalent of gas or electricity, from a factor that the user enters.',
  arguments: args,
  result: { unit: 'kg CO₂e', shape: 'cell', description: 'Emissions.' },
  source: 'arithmetic',
  example: { arguments: [1000, 0.25], result: 250 },
  compute: (a) => carbonOfEnergy(numberAt(a, args, 0), numberAt(a, args, 1)),
  formula: ([energy, factor]) => `${energy}*${factor}`,
};
