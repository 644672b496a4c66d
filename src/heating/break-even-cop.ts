import type { DescribedFunction } from '../functions/described-function.js';
import { requireNumber, requirePositive } from '../functions/require-number.js';
import { numberAt } from './cell-arguments.js';
import { requireEfficiency } from './require-efficiency.js';

/**
 * The COP above which a heat pump's heat costs less than a boiler's:
 * electricity rate ÷ gas rate × boiler efficiency. Standing charges are left out.
 * Source: common practice, no source.
 *
 * @param electricityRatePence electricity, p/kWh, at least 0
 * @param gasRatePence gas, p/kWh, above 0
 * @param boilerEfficiency share of the gas that becomes useful heat, 0–1
 * @returns COP, kWh of heat a kWh of electricity
 * @throws InputError when a rate is negative, the gas rate 0 or the efficiency out of range
 * @example breakEvenCop(28.71, 7.57, 0.9) // 3.413…
 */
export function breakEvenCop(
  electricityRatePence: number,
  gasRatePence: number,
  boilerEfficiency: number,
): number {
  requireNumber(electricityRatePence, 'electricityRatePence', 0);
  requirePositive(gasRatePence, 'gasRatePence');
  requireEfficiency(boilerEfficiency, 'boilerEfficiency');
  return (electricityRatePence / gasRatePence) * boilerEfficiency;
}

const args = [
  {
    name: 'electricityRatePence',
    unit: 'p/kWh',
    kind: 'number',
    shape: 'cell',
    description: 'What a kWh of electricity costs: a unit rate, or the average that the heat pump paid.',
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

export const breakEvenCopDescribed: DescribedFunction = {
  name: 'breakEvenCop',
  cellName: 'BREAK_EVEN_COP',
  category: 'break-even',
  summary: 'COP above which a heat pump is cheaper to run than the boiler, standing charges left out.',
  arguments: args,
  result: { unit: 'kWh heat/kWh electricity', shape: 'cell', description: 'Break-even COP.' },
  source: 'common practice, no source',
  example: { arguments: [30, 7.5, 0.9], result: 3.6 },
  compute: (a) => breakEvenCop(numberAt(a, args, 0), numberAt(a, args, 1), numberAt(a, args, 2)),
  formula: ([electricity, gas, efficiency]) => `${electricity}/${gas}*${efficiency}`,
};
