import type { DescribedFunction } from '../functions/described-function.js';
import { requireNumber } from '../functions/require-number.js';
import { numberAt } from './cell-arguments.js';
import { requireEfficiency } from './require-efficiency.js';

/**
 * Gas that the old boiler would have burnt, estimate (b): heat delivered ÷ boiler efficiency.
 * Source: common practice, no source.
 *
 * @param heatKwh heat delivered, kWh, at least 0
 * @param boilerEfficiency share of the gas that becomes useful heat, 0–1
 * @returns gas, kWh
 * @throws InputError when the heat is negative or the efficiency out of range
 * @example estimateBoilerFromHeat(1800, 0.9) // 2000
 */
export function estimateBoilerFromHeat(heatKwh: number, boilerEfficiency: number): number {
  requireNumber(heatKwh, 'heatKwh', 0);
  return heatKwh / requireEfficiency(boilerEfficiency, 'boilerEfficiency');
}

const args = [
  { name: 'heatKwh', unit: 'kWh', kind: 'number', shape: 'cell', description: 'Heat delivered.' },
  {
    name: 'boilerEfficiency',
    unit: 'share 0–1',
    kind: 'number',
    shape: 'cell',
    description: 'Share of the gas that the boiler turned into useful heat.',
  },
] as const;

export const estimateBoilerFromHeatDescribed: DescribedFunction = {
  name: 'estimateBoilerFromHeat',
  cellName: 'ESTIMATE_BOILER_FROM_HEAT',
  category: 'heating',
  summary: 'Gas that the old boiler would have burnt, from the heat delivered.',
  arguments: args,
  result: { unit: 'kWh', shape: 'cell', description: 'Gas.' },
  source: 'common practice, no source',
  example: { arguments: [1800, 0.9], result: 2000 },
  compute: (a) => estimateBoilerFromHeat(numberAt(a, args, 0), numberAt(a, args, 1)),
  formula: ([heat, efficiency]) => `${heat}/${efficiency}`,
};
