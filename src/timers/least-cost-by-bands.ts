import { InputError } from '../errors.js';
import { requireNumber } from '../functions/require-number.js';
import { NO_KWH } from './timer.js';

/** What may be had at one rate. */
export interface RateBand {
  ratePence: number;
  /** Most kWh at this rate: its half-hours × power ÷ 2. */
  capacityKwh: number;
}

/**
 * The least that so many kWh cost where each rate holds only so many: filled in order of rate. A session of a tariff with
 * few rates needs no look at its half-hours. Source of the method: the fractional knapsack.
 *
 * @param energyKwh kWh to be had, 0 or more
 * @param bands rate in p/kWh and capacity in kWh, 0 or more, one a rate, in any order
 * @returns cost, p
 * @throws InputError when a number is missing, an energy is negative, or the kWh do not fit
 * @example leastCostByBands(10, [{ ratePence: 30, capacityKwh: 20 }, { ratePence: 7, capacityKwh: 8 }]) // 116
 */
export function leastCostByBands(energyKwh: number, bands: readonly RateBand[]): number {
  let leftKwh = requireNumber(energyKwh, 'energyKwh', 0);
  let pence = 0;
  for (const { ratePence, capacityKwh } of bands) {
    requireNumber(ratePence, 'ratePence');
    requireNumber(capacityKwh, 'capacityKwh', 0);
  }
  for (const { ratePence, capacityKwh } of bands.toSorted((a, b) => a.ratePence - b.ratePence)) {
    const kwh = Math.min(leftKwh, capacityKwh);
    pence += kwh * ratePence;
    leftKwh -= kwh;
  }
  if (leftKwh <= NO_KWH) return pence;
  throw new InputError(
    `${leftKwh} of ${energyKwh} kWh do not fit into the hours`,
    'Allow more half-hours, a higher power, or less energy.',
  );
}
