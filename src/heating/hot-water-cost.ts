import type { DescribedFunction } from '../functions/described-function.js';
import { requireNumber, requirePositive } from '../functions/require-number.js';
import { numberAt } from './cell-arguments.js';

/** Hot water of a period and what heats it. */
export interface HotWater {
  /** Heat into the hot water, kWh/day. */
  heatKwhPerDay: number;
  /** Calendar days. */
  days: number;
  /** Rate of the energy that heats it, p/kWh: a boiler's gas rate, or an immersion heater's off-peak rate. */
  ratePence: number;
  /** Heat for each kWh paid: boiler efficiency, 1 for an immersion heater, COP for a heat pump. */
  heatPerKwhPaid: number;
}

/**
 * What hot water costs: kWh a day × days ÷ (heat for each kWh paid) × rate.
 * Which rate it is paid at is the usual slip: an immersion heater on an off-peak timer does not pay the day rate.
 * Source: common practice, no source.
 *
 * @param hotWater see {@link HotWater}
 * @returns cost, £
 * @throws InputError when a figure is negative or the heat for each kWh is not above 0
 * @example hotWaterCost({ heatKwhPerDay: 4, days: 31, ratePence: 9, heatPerKwhPaid: 1 }) // 11.16
 */
export function hotWaterCost(hotWater: HotWater): number {
  requireNumber(hotWater.heatKwhPerDay, 'heatKwhPerDay', 0);
  requireNumber(hotWater.days, 'days', 0);
  requireNumber(hotWater.ratePence, 'ratePence', 0);
  requirePositive(hotWater.heatPerKwhPaid, 'heatPerKwhPaid');
  return (((hotWater.heatKwhPerDay * hotWater.days) / hotWater.heatPerKwhPaid) * hotWater.ratePence) / 100;
}

const args = [
  {
    name: 'heatKwhPerDay',
    unit: 'kWh/day',
    kind: 'number',
    shape: 'cell',
    description: 'Heat into hot water.',
  },
  { name: 'days', unit: 'days', kind: 'number', shape: 'cell', description: 'Calendar days.' },
  {
    name: 'ratePence',
    unit: 'p/kWh',
    kind: 'number',
    shape: 'cell',
    description:
      'Rate of the energy that heats it: gas for a boiler; for an immersion heater the rate of its hours.',
  },
  {
    name: 'heatPerKwhPaid',
    unit: 'kWh heat/kWh paid',
    kind: 'number',
    shape: 'cell',
    description: 'Boiler efficiency, 1 for an immersion heater, COP for a heat pump.',
  },
] as const;

export const hotWaterCostDescribed: DescribedFunction = {
  name: 'hotWaterCost',
  cellName: 'HOT_WATER_COST',
  category: 'heating',
  summary: 'What hot water costs by boiler, immersion heater or heat pump, at the rate given.',
  arguments: args,
  result: { unit: '£', shape: 'cell', description: 'Cost of the energy for hot water.' },
  source: 'common practice, no source',
  example: { arguments: [4, 30, 10, 1], result: 12 },
  compute: (a) =>
    hotWaterCost({
      heatKwhPerDay: numberAt(a, args, 0),
      days: numberAt(a, args, 1),
      ratePence: numberAt(a, args, 2),
      heatPerKwhPaid: numberAt(a, args, 3),
    }),
  formula: ([heat, days, rate, each]) => `${heat}*${days}/${each}*${rate}/100`,
};
