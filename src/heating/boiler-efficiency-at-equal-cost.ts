import type { DescribedFunction } from '../functions/described-function.js';
import { requireNumber } from '../functions/require-number.js';
import { numberAt } from './cell-arguments.js';

/** What a cell says where no boiler could cost as little. */
export const NO_EFFICIENCY = 'none';

/**
 * The boiler efficiency at which both would have cost the same:
 * heat × gas rate ÷ (heat pump's cost − what the boiler's side pays besides burning gas).
 * A boiler better than this would have been cheaper. Above 1: no real boiler could have been.
 * Source: arithmetic, from the two costs being equal.
 *
 * @param heatKwh heat that the boiler would have delivered, kWh, at least 0
 * @param gasRatePence gas unit rate, p/kWh, at least 0
 * @param heatPumpCostPounds what the heat pump's side cost, £
 * @param fixedBoilerCostPounds standing charge and the like on the boiler's side, £
 * @returns share 0–1 or above; `null` where the fixed part alone costs as much as the heat pump
 * @throws InputError when the heat or the rate is negative or a figure is no number
 * @example boilerEfficiencyAtEqualCost(1867, 7.57, 144, 0) // 0.981…
 */
export function boilerEfficiencyAtEqualCost(
  heatKwh: number,
  gasRatePence: number,
  heatPumpCostPounds: number,
  fixedBoilerCostPounds: number,
): number | null {
  requireNumber(heatKwh, 'heatKwh', 0);
  requireNumber(gasRatePence, 'gasRatePence', 0);
  requireNumber(heatPumpCostPounds, 'heatPumpCostPounds');
  requireNumber(fixedBoilerCostPounds, 'fixedBoilerCostPounds');
  const leftForGas = heatPumpCostPounds - fixedBoilerCostPounds;
  return leftForGas > 0 ? (heatKwh * gasRatePence) / 100 / leftForGas : null;
}

const args = [
  {
    name: 'heatKwh',
    unit: 'kWh',
    kind: 'number',
    shape: 'cell',
    description: 'Heat that the boiler would have delivered.',
  },
  { name: 'gasRatePence', unit: 'p/kWh', kind: 'number', shape: 'cell', description: 'Gas unit rate.' },
  {
    name: 'heatPumpCostPounds',
    unit: '£',
    kind: 'number',
    shape: 'cell',
    description: "What the heat pump's side cost.",
  },
  {
    name: 'fixedBoilerCostPounds',
    unit: '£',
    kind: 'number',
    shape: 'cell',
    description: "What the boiler's side pays besides burning gas, such as the standing charge.",
  },
] as const;

export const boilerEfficiencyAtEqualCostDescribed: DescribedFunction = {
  name: 'boilerEfficiencyAtEqualCost',
  cellName: 'BOILER_EFFICIENCY_AT_EQUAL_COST',
  category: 'break-even',
  summary: 'Boiler efficiency at which boiler and heat pump would have cost the same.',
  arguments: args,
  result: {
    unit: 'share 0–1',
    shape: 'cell',
    description: 'Efficiency, or "none" where the fixed part alone costs as much as the heat pump.',
  },
  source: 'arithmetic',
  example: { arguments: [1800, 8, 165, 5], result: 0.9 },
  compute: (a) =>
    boilerEfficiencyAtEqualCost(
      numberAt(a, args, 0),
      numberAt(a, args, 1),
      numberAt(a, args, 2),
      numberAt(a, args, 3),
    ) ?? NO_EFFICIENCY,
  formula: ([heat, rate, cost, fixed]) =>
    `IF(${cost}-${fixed}>0,${heat}*${rate}/100/(${cost}-${fixed}),"${NO_EFFICIENCY}")`,
};
