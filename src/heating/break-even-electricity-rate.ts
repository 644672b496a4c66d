import type { DescribedFunction } from '../functions/described-function.js';
import { requireNumber, requirePositive } from '../functions/require-number.js';
import { numberAt } from './cell-arguments.js';
import { requireEfficiency } from './require-efficiency.js';

/**
 * The electricity rate below which a heat pump's heat costs less than a boiler's:
 * gas rate ÷ boiler efficiency × COP. Standing charges are left out.
 * Source: common practice, no source.
 *
 * @param gasRatePence gas, p/kWh, at least 0
 * @param boilerEfficiency share of the gas that becomes useful heat, 0–1
 * @param cop kWh of heat a kWh of electricity, above 0
 * @returns electricity rate, p/kWh
 * @throws InputError when the gas rate is negative, the COP not above 0 or the efficiency out of range
 * @example breakEvenElectricityRate(7.57, 0.9, 3.7) // 31.12…
 */
export function breakEvenElectricityRate(
  gasRatePence: number,
  boilerEfficiency: number,
  cop: number,
): number {
  requireNumber(gasRatePence, 'gasRatePence', 0);
  requireEfficiency(boilerEfficiency, 'boilerEfficiency');
  requirePositive(cop, 'cop');
  return (gasRatePence / boilerEfficiency) * cop;
}

const args = [
  { name: 'gasRatePence', unit: 'p/kWh', kind: 'number', shape: 'cell', description: 'Gas unit rate.' },
  {
    name: 'boilerEfficiency',
    unit: 'share 0–1',
    kind: 'number',
    shape: 'cell',
    description: 'Share of the gas that the boiler turns into useful heat.',
  },
  {
    name: 'cop',
    unit: 'kWh heat/kWh electricity',
    kind: 'number',
    shape: 'cell',
    description: 'COP of the heat pump over the period.',
  },
] as const;

export const breakEvenElectricityRateDescribed: DescribedFunction = {
  name: 'breakEvenElectricityRate',
  cellName: 'BREAK_EVEN_ELECTRICITY_RATE',
  category: 'break-even',
  summary: 'Electricity rate below which the heat pump is cheaper to run than the boiler.',
  arguments: args,
  result: { unit: 'p/kWh', shape: 'cell', description: 'Break-even electricity rate.' },
  source: 'common practice, no source',
  example: { arguments: [7.2, 0.9, 3.5], result: 28 },
  compute: (a) => breakEvenElectricityRate(numberAt(a, args, 0), numberAt(a, args, 1), numberAt(a, args, 2)),
  formula: ([gas, efficiency, cop]) => `${gas}/${efficiency}*${cop}`,
};
