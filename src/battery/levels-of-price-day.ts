import { AVERAGE_DAY_SLOTS, type AverageDay } from './average-day.js';
import { type Battery, HALF_HOUR_HOURS } from './battery.js';
import { TOLERANCE } from './battery-constants.js';

/** Demand of the dear half-hours against the average day's mean: they are the busy ones, and days differ. */
export const DEAR_DEMAND_FACTOR = 2.5;
/** Share of a half-hour's charging that is counted on where energy kept now might be bought later. */
export const REFILL_SHARE = 0.5;

/**
 * The two levels of each half-hour of a day whose prices are known from its start, as of a day-ahead market.
 *
 * With `threshold = price / (chargeEff * dischargeEff) + wear`, `mean` the average day's demand ÷ 48, `sunLeft` its sun after this
 * half-hour, `step = chargeKw/2 * chargeEff`, and counts over the rest of the day:
 *
 *     dear = COUNTIFS(price, ">" threshold)
 *     fill = DEAR_DEMAND_FACTOR * mean * dear - sunLeft - step * COUNTIFS(price, "<=" this price)
 *     keep = DEAR_DEMAND_FACTOR * mean * COUNTIFS(price, ">" this price) - sunLeft
 *            - REFILL_SHARE * step * COUNTIFS(price, "<" (this price - wear) * chargeEff * dischargeEff)
 *     fill up to MAX(0, MIN(usable, reserve + fill)) where it may charge from the grid;
 *     keep MIN(usable, reserve + MAX(0, keep))
 *
 * Source: common practice, no source.
 *
 * @param pricesPence price of each half-hour of the day, p/kWh
 * @param halfHours which half-hour of the day each is, from 0
 * @param day the average day of the month, stored kWh
 * @param battery units as in {@link Battery}
 * @returns stored kWh of each half-hour
 * @example levelsOfPriceDay(prices, halfHours, day, battery).keepKwh[0] // 2.1
 */
export function levelsOfPriceDay(
  pricesPence: Float64Array,
  halfHours: Int32Array,
  day: AverageDay,
  battery: Battery,
): { fillUpToKwh: Float64Array; keepKwh: Float64Array } {
  const { usableKwh, reserveKwh, wearPencePerKwh } = battery;
  const roundTrip = battery.chargeEfficiency * battery.dischargeEfficiency;
  const step = battery.chargeKw * HALF_HOUR_HOURS * battery.chargeEfficiency;
  const dearKwh = (DEAR_DEMAND_FACTOR * day.demandKwh.reduce((sum, kwh) => sum + kwh, 0)) / AVERAGE_DAY_SLOTS;
  const fillUpToKwh = new Float64Array(pricesPence.length);
  const keepKwh = new Float64Array(pricesPence.length);
  pricesPence.forEach((price, i) => {
    const later = pricesPence.subarray(i + 1);
    const count = (willDo: (other: number) => boolean): number =>
      later.reduce((sum, other) => sum + (willDo(other) ? 1 : 0), 0);
    const sunLeft = day.sunKwh.reduce((sum, kwh, at) => sum + (at > halfHours[i]! ? kwh : 0), 0);
    const dear = count((other) => other > price / roundTrip + wearPencePerKwh + TOLERANCE);
    const asCheap = count((other) => other <= price + TOLERANCE);
    const dearer = count((other) => other > price + TOLERANCE);
    const refills = count((other) => other < (price - wearPencePerKwh) * roundTrip - TOLERANCE);
    const fill = dearKwh * dear - sunLeft - step * asCheap;
    const keep = dearKwh * dearer - sunLeft - REFILL_SHARE * step * refills;
    fillUpToKwh[i] = battery.chargeFromGrid ? Math.max(0, Math.min(usableKwh, reserveKwh + fill)) : 0;
    keepKwh[i] = Math.min(usableKwh, reserveKwh + Math.max(0, keep));
  });
  return { fillUpToKwh, keepKwh };
}
