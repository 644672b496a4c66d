import type { DescribedFunction } from '../functions/described-function.js';
import { requireNumber } from '../functions/require-number.js';
import { numberAt } from './cell-arguments.js';
import { requireEfficiency } from './require-efficiency.js';

/** What a boiler needs to deliver heat, and at which price. */
export interface GasHeat {
  /** Useful heat, kWh. */
  heatKwh: number;
  /** Share of the gas that becomes useful heat, 0–1. */
  boilerEfficiency: number;
  /** Gas unit rate, p/kWh. */
  gasRatePence: number;
  /** Gas standing charge, p/day; 0 leaves it out. */
  standingChargePencePerDay: number;
  /** Calendar days of the period. */
  days: number;
}

/**
 * What a gas boiler's heat costs: heat ÷ efficiency × unit rate + standing charge × days.
 * Give the standing charge as 0 where the home pays it either way (gas kept, for a hob for example): then it is
 * no part of the difference. Where the supply was given up, it is part of what the boiler would have cost.
 * Source: arithmetic.
 *
 * @param heat the heat and its price; see {@link GasHeat}
 * @returns cost, £, not rounded: it is an estimate, not a bill
 * @throws InputError when a figure is negative or the efficiency out of range
 * @example gasCostOfHeat({ heatKwh: 1867, boilerEfficiency: 0.9, gasRatePence: 7.57, standingChargePencePerDay: 0, days: 31 }) // 157.04 (£)
 */
export function gasCostOfHeat(heat: GasHeat): number {
  requireNumber(heat.heatKwh, 'heatKwh', 0);
  requireEfficiency(heat.boilerEfficiency, 'boilerEfficiency');
  requireNumber(heat.gasRatePence, 'gasRatePence', 0);
  requireNumber(heat.standingChargePencePerDay, 'standingChargePencePerDay', 0);
  requireNumber(heat.days, 'days', 0);
  return (
    ((heat.heatKwh / heat.boilerEfficiency) * heat.gasRatePence +
      heat.standingChargePencePerDay * heat.days) /
    100
  );
}

const args = [
  {
    name: 'heatKwh',
    unit: 'kWh',
    kind: 'number',
    shape: 'cell',
    description: 'Useful heat to deliver.',
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
    name: 'standingChargePencePerDay',
    unit: 'p/day',
    kind: 'number',
    shape: 'cell',
    description: 'Gas standing charge; 0 leaves it out.',
  },
  { name: 'days', unit: 'days', kind: 'number', shape: 'cell', description: 'Calendar days of the period.' },
] as const;

export const gasCostOfHeatDescribed: DescribedFunction = {
  name: 'gasCostOfHeat',
  cellName: 'GAS_COST_OF_HEAT',
  category: 'heating',
  summary: 'What a gas boiler would cost to deliver a given heat, with its standing charge or without.',
  arguments: args,
  result: { unit: '£', shape: 'cell', description: 'Cost of the gas and its standing charge.' },
  source: 'arithmetic',
  example: { arguments: [900, 0.9, 8, 30, 30], result: 89 },
  compute: (a) =>
    gasCostOfHeat({
      heatKwh: numberAt(a, args, 0),
      boilerEfficiency: numberAt(a, args, 1),
      gasRatePence: numberAt(a, args, 2),
      standingChargePencePerDay: numberAt(a, args, 3),
      days: numberAt(a, args, 4),
    }),
  formula: ([heat, efficiency, rate, standing, days]) =>
    `(${heat}/${efficiency}*${rate}+${standing}*${days})/100`,
};
