import type { DescribedFunction } from '../functions/described-function.js';
import { requireNumber, requirePositive } from '../functions/require-number.js';
import { numberAt } from './cell-arguments.js';
import { gasCostOfHeat } from './gas-cost-of-heat.js';

/** What decides whether a heat pump or a boiler delivers the same heat for less. */
export interface SameHeat {
  /** Heat that both deliver, kWh. */
  heatKwh: number;
  /** COP of the heat pump. */
  cop: number;
  /** What the heat pump pays on average, p/kWh. */
  electricityRatePence: number;
  /** Share of the gas that becomes useful heat, 0–1. */
  boilerEfficiency: number;
  /** Gas unit rate, p/kWh. */
  gasRatePence: number;
  /** Costs on the boiler's side only (standing charge that was saved), £. */
  boilerFixedPounds: number;
}

/**
 * Heat pump's cost less boiler's cost for the same heat; negative: the heat pump is cheaper.
 * Source: arithmetic.
 *
 * @param heat see {@link SameHeat}
 * @returns difference, £
 * @throws InputError when a figure is out of range
 * @example heatingCostDifference({ heatKwh: 1867, cop: 3.7, electricityRatePence: 28.71, boilerEfficiency: 0.9, gasRatePence: 7.57, boilerFixedPounds: 0 }) // -12.17
 */
export function heatingCostDifference(heat: SameHeat): number {
  requirePositive(heat.cop, 'cop');
  requireNumber(heat.electricityRatePence, 'electricityRatePence', 0);
  requireNumber(heat.boilerFixedPounds, 'boilerFixedPounds');
  const boiler = gasCostOfHeat({ ...heat, standingChargePencePerDay: 0, days: 0 }) + heat.boilerFixedPounds;
  return ((heat.heatKwh / heat.cop) * heat.electricityRatePence) / 100 - boiler;
}

const args = [
  { name: 'heatKwh', unit: 'kWh', kind: 'number', shape: 'cell', description: 'Heat that both deliver.' },
  {
    name: 'cop',
    unit: 'kWh heat/kWh electricity',
    kind: 'number',
    shape: 'cell',
    description: 'COP of the heat pump.',
  },
  {
    name: 'electricityRatePence',
    unit: 'p/kWh',
    kind: 'number',
    shape: 'cell',
    description: 'What the heat pump pays on average.',
  },
  {
    name: 'boilerEfficiency',
    unit: 'share 0–1',
    kind: 'number',
    shape: 'cell',
    description: 'Share of the gas that the boiler turns into useful heat.',
  },
  { name: 'gasRatePence', unit: 'p/kWh', kind: 'number', shape: 'cell', description: 'Gas unit rate.' },
  {
    name: 'boilerFixedPounds',
    unit: '£',
    kind: 'number',
    shape: 'cell',
    description: "Costs on the boiler's side only, such as a standing charge that was saved.",
  },
] as const;

export const heatingCostDifferenceDescribed: DescribedFunction = {
  name: 'heatingCostDifference',
  cellName: 'HEATING_COST_DIFFERENCE',
  category: 'heating',
  summary: "Heat pump's cost less boiler's cost for the same heat; negative: the heat pump is cheaper.",
  arguments: args,
  result: { unit: '£', shape: 'cell', description: 'Difference.' },
  source: 'arithmetic',
  example: { arguments: [1800, 3.6, 28, 0.9, 8, 10], result: -30 },
  compute: (a) =>
    heatingCostDifference({
      heatKwh: numberAt(a, args, 0),
      cop: numberAt(a, args, 1),
      electricityRatePence: numberAt(a, args, 2),
      boilerEfficiency: numberAt(a, args, 3),
      gasRatePence: numberAt(a, args, 4),
      boilerFixedPounds: numberAt(a, args, 5),
    }),
  formula: ([heat, cop, electricity, efficiency, gas, fixed]) =>
    `${heat}/${cop}*${electricity}/100-(${heat}/${efficiency}*${gas}/100+${fixed})`,
};
