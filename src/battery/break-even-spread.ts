import { cellReader } from '../functions/cell-reader.js';
import type { DescribedFunction } from '../functions/described-function.js';
import { deliveredUnitCost, ROUND_TRIP_ARGUMENTS } from './delivered-unit-cost.js';

/**
 * How far the dear rate must be above the cheap one before charging from the grid pays: losses and wear.
 * Source: common practice, no source.
 *
 * @param chargeRatePence rate at which the battery charges, p/kWh
 * @param roundTripEfficiency AC kWh out per AC kWh in, above 0, at most 1
 * @param wearPencePerKwh wear, p per kWh delivered
 * @returns p/kWh
 * @throws InputError when a figure can't be used
 * @example breakEvenSpread(9, 0.9, 2) // 3: from 9 p it pays above 12 p
 */
export function breakEvenSpread(
  chargeRatePence: number,
  roundTripEfficiency: number,
  wearPencePerKwh = 0,
): number {
  return deliveredUnitCost(chargeRatePence, roundTripEfficiency, wearPencePerKwh) - chargeRatePence;
}

export const breakEvenSpreadFunction: DescribedFunction = {
  name: 'breakEvenSpread',
  cellName: 'BREAK_EVEN_SPREAD',
  category: 'battery',
  summary: 'Says how far the dear rate must be above the cheap one before charging from the grid pays.',
  arguments: ROUND_TRIP_ARGUMENTS,
  result: { unit: 'p/kWh', shape: 'cell', description: 'Least difference of the two rates.' },
  source: 'common practice, no source',
  example: { arguments: [9, 0.9, 2], result: 3 },
  compute: (args) => {
    const read = cellReader(args, ROUND_TRIP_ARGUMENTS);
    return breakEvenSpread(
      read.number('chargeRatePence'),
      read.number('roundTripEfficiency'),
      read.numberOr('wearPencePerKwh', 0),
    );
  },
  formula: ([rate, efficiency, wear = '0']) => `${rate}/${efficiency}+${wear}-${rate}`,
};
