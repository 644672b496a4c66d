import type { DescribedFunction } from '../functions/described-function.js';
import { requireNumber, requirePositive } from '../functions/require-number.js';
import { numberAt } from './cell-arguments.js';

/**
 * Coefficient of performance: heat out ÷ electricity in, over one and the same period.
 * Source: definition (EN 14825 calls the figure of a season SCOP; from memory).
 *
 * @param heatKwh heat delivered in the period, kWh
 * @param electricityKwh electricity taken in the same period, kWh, above 0
 * @returns kWh of heat a kWh of electricity
 * @throws InputError when the electricity is not above 0 or the heat is negative
 * @example coefficientOfPerformance(1867, 502) // 3.719…
 */
export function coefficientOfPerformance(heatKwh: number, electricityKwh: number): number {
  requireNumber(heatKwh, 'heatKwh', 0);
  requirePositive(electricityKwh, 'electricityKwh');
  return heatKwh / electricityKwh;
}

const args = [
  {
    name: 'heatKwh',
    unit: 'kWh',
    kind: 'number',
    shape: 'cell',
    description: 'Heat delivered in the period.',
  },
  {
    name: 'electricityKwh',
    unit: 'kWh',
    kind: 'number',
    shape: 'cell',
    description: 'Electricity that the heat pump took in the same period.',
  },
] as const;

export const coefficientOfPerformanceDescribed: DescribedFunction = {
  name: 'coefficientOfPerformance',
  cellName: 'COEFFICIENT_OF_PERFORMANCE',
  category: 'heating',
  summary: 'Heat delivered for each unit of electricity over the same period (COP).',
  arguments: args,
  result: { unit: 'kWh heat/kWh electricity', shape: 'cell', description: 'The COP of the period.' },
  source: 'definition; common practice, no source',
  example: { arguments: [1850, 500], result: 3.7 },
  compute: (a) => coefficientOfPerformance(numberAt(a, args, 0), numberAt(a, args, 1)),
  formula: ([heat, electricity]) => `${heat}/${electricity}`,
};
