import { type Battery, type BatteryInput, startLevelKwh } from './battery.js';

/** Flows of a span with a battery, from which its totals follow. */
interface BatteryFlows {
  importKwh: Float64Array;
  exportKwh: Float64Array;
  /** AC kWh the battery gives. */
  deliveredKwh: Float64Array;
  /** Stored kWh after the last half-hour. */
  endLevelKwh: number;
}

/** Totals of a span with a battery. */
export interface BatteryTotals {
  /** Import at the unit rates, p. */
  energyCostPence: number;
  /** Export at the export rates, p. */
  exportCreditPence: number;
  /** AC kWh that the battery gave. */
  deliveredKwh: number;
  wearPence: number;
  /** Delivered AC kWh ÷ usable kWh; 0 without a battery. */
  cycles: number;
  startLevelKwh: number;
  endLevelKwh: number;
  /** p per stored kWh. */
  endValuePencePerKwh: number;
  /** Energy cost − export credit + wear − value of the level gained, p. */
  netCostPence: number;
}

/**
 * What a stored kWh left at the end is worth by default: what it costs to put it there on an average day, at the lowest
 * unit rate of the day; nothing where that is below 0. One half-hour of a negative price is not what refilling costs.
 *
 * @param unitRatePence p/kWh of each half-hour
 * @param chargeEfficiency stored kWh per AC kWh
 * @param dayIndex number of the day of each half-hour
 * @returns p per stored kWh; 0 over no half-hours
 * @example defaultEndValuePencePerKwh(Float64Array.of(9, 30, 18, 30), 0.9, Int32Array.of(0, 0, 1, 1)) // 15
 */
export function defaultEndValuePencePerKwh(
  unitRatePence: Float64Array,
  chargeEfficiency: number,
  dayIndex: Int32Array,
): number {
  const lowest = new Map<number, number>();
  unitRatePence.forEach((rate, i) => {
    const day = dayIndex[i] ?? 0;
    lowest.set(day, Math.min(lowest.get(day) ?? Number.POSITIVE_INFINITY, rate));
  });
  if (lowest.size === 0) return 0;
  const sum = [...lowest.values()].reduce((all, rate) => all + rate, 0);
  return Math.max(0, sum / lowest.size) / chargeEfficiency;
}

/**
 * Sums a span with a battery. The level at the end is valued, not lost.
 *
 * @param input half-hours, units as in {@link BatteryInput}
 * @param battery units as in {@link Battery}
 * @param flows kWh of each half-hour with the battery
 * @param endValuePencePerKwh p per stored kWh; by default {@link defaultEndValuePencePerKwh}
 * @returns kWh and pence
 * @example batteryTotals(input, battery, flows).netCostPence
 */
export function batteryTotals(
  input: BatteryInput,
  battery: Battery,
  flows: BatteryFlows,
  endValuePencePerKwh = defaultEndValuePencePerKwh(
    input.unitRatePence,
    battery.chargeEfficiency,
    input.dayIndex,
  ),
): BatteryTotals {
  const energyCostPence = sumOfProducts(flows.importKwh, input.unitRatePence);
  const exportCreditPence = sumOfProducts(flows.exportKwh, input.exportRatePence);
  let deliveredKwh = 0;
  for (const kwh of flows.deliveredKwh) deliveredKwh += kwh;
  const wearPence = deliveredKwh * battery.wearPencePerKwh;
  const start = startLevelKwh(battery);
  return {
    energyCostPence,
    exportCreditPence,
    deliveredKwh,
    wearPence,
    cycles: battery.usableKwh > 0 ? deliveredKwh / battery.usableKwh : 0,
    startLevelKwh: start,
    endLevelKwh: flows.endLevelKwh,
    endValuePencePerKwh,
    netCostPence:
      energyCostPence - exportCreditPence + wearPence - endValuePencePerKwh * (flows.endLevelKwh - start),
  };
}

function sumOfProducts(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
