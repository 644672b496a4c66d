import { cellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription, DescribedFunction } from '../functions/described-function.js';
import { requireNumber } from '../functions/require-number.js';
import { splitRoundTrip } from './battery.js';

/**
 * What a kWh out of the battery costs: the rate it was charged at ÷ round-trip efficiency, and wear.
 * Source: common practice, no source.
 *
 * @param chargeRatePence rate at which it was charged, p/kWh
 * @param roundTripEfficiency AC kWh out per AC kWh in, above 0, at most 1
 * @param wearPencePerKwh wear, p per kWh delivered
 * @returns p per AC kWh delivered
 * @throws InputError when a figure can't be used
 * @example deliveredUnitCost(9, 0.9, 2) // 12
 */
export function deliveredUnitCost(
  chargeRatePence: number,
  roundTripEfficiency: number,
  wearPencePerKwh = 0,
): number {
  // Refuses what is no efficiency.
  splitRoundTrip(roundTripEfficiency);
  return (
    requireNumber(chargeRatePence, 'chargeRatePence') / roundTripEfficiency +
    requireNumber(wearPencePerKwh, 'wearPencePerKwh', 0)
  );
}

/** Arguments of what charging and giving back cost. */
export const ROUND_TRIP_ARGUMENTS: readonly ArgumentDescription[] = [
  {
    name: 'chargeRatePence',
    unit: 'p/kWh',
    kind: 'number',
    shape: 'cell',
    description: 'Unit rate at which the battery charges.',
  },
  {
    name: 'roundTripEfficiency',
    unit: 'share 0–1',
    kind: 'number',
    shape: 'cell',
    description: 'AC kWh given per AC kWh taken: charge efficiency × discharge efficiency.',
  },
  {
    name: 'wearPencePerKwh',
    unit: 'p/kWh',
    kind: 'number',
    shape: 'cell',
    optional: true,
    description: 'Wear of the battery per kWh delivered; blank is 0.',
  },
];

export const deliveredUnitCostFunction: DescribedFunction = {
  name: 'deliveredUnitCost',
  cellName: 'DELIVERED_UNIT_COST',
  category: 'battery',
  summary: 'Says what a kWh out of the battery costs, losses and wear included.',
  arguments: ROUND_TRIP_ARGUMENTS,
  result: { unit: 'p/kWh', shape: 'cell', description: 'Cost of one AC kWh delivered.' },
  source: 'common practice, no source',
  example: { arguments: [9, 0.9, 2], result: 12 },
  compute: (args) => {
    const read = cellReader(args, ROUND_TRIP_ARGUMENTS);
    return deliveredUnitCost(
      read.number('chargeRatePence'),
      read.number('roundTripEfficiency'),
      read.numberOr('wearPencePerKwh', 0),
    );
  },
  formula: ([rate, efficiency, wear = '0']) => `${rate}/${efficiency}+${wear}`,
};
