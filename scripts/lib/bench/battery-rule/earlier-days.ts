import { type Battery, type BatteryInput, HALF_HOUR_HOURS } from '../../../../src/battery/battery.js';
import { TOLERANCE } from '../../../../src/battery/battery-constants.js';

/** A rate below all others, p/kWh. */
export const SERVE_ALWAYS = -1e9;

/** What the rule knew of one local day before it starts. */
export interface BatteryDay {
  halfHours: number;
  /** Half-hours needed to fill the battery from the reserve, 1 to all of the day's. */
  halfHoursToFill: number;
  /** Dearest rate at which the day needs charging, p/kWh. */
  chargeUpToRatePence: number;
  /** Lowest of as many dearest rates, p/kWh. */
  dearRatePence: number;
  /** Charging below this rate beats losses and wear at the dear rate, p/kWh. */
  worthwhileBelowRatePence: number;
  /** Where it may charge from the grid, it does below this rate, p/kWh: the day needs it and it is worthwhile. */
  chargeBelowRatePence: number;
  /** The battery serves the house from this rate up, p/kWh; {@link SERVE_ALWAYS} on a day without grid charging. */
  serveFromRatePence: number;
  /** Highest rate of the day, p/kWh; it sells only where the export rate reaches it. */
  highestRatePence: number;
}

/** Thresholds of each day, as the rule before the two levels had them. */
export function batteryDays(input: BatteryInput, battery: Battery): BatteryDay[] {
  const { chargeEfficiency, dischargeEfficiency, wearPencePerKwh } = battery;
  const toFill = halfHoursToFill(battery);
  const ruleRates = input.ruleRatePence ?? input.unitRatePence;
  const days: BatteryDay[] = [];
  const count = input.dayIndex.length;
  for (let first = 0; first < count; ) {
    let end = first + 1;
    while (end < count && input.dayIndex[end] === input.dayIndex[first]) end++;
    const rates = ruleRates.slice(first, end).sort();
    const n = Math.min(rates.length, Math.max(1, toFill));
    const chargeUpToRatePence = rates[n - 1]!;
    const dearRatePence = rates[rates.length - n]!;
    const worthwhileBelowRatePence =
      (dearRatePence - wearPencePerKwh) * chargeEfficiency * dischargeEfficiency;
    const charges = battery.chargeFromGrid && rates[0]! < worthwhileBelowRatePence - TOLERANCE;
    days.push({
      halfHours: rates.length,
      halfHoursToFill: n,
      chargeUpToRatePence,
      dearRatePence,
      worthwhileBelowRatePence,
      chargeBelowRatePence: Math.min(chargeUpToRatePence + TOLERANCE, worthwhileBelowRatePence - TOLERANCE),
      serveFromRatePence: charges
        ? Math.min(
            chargeUpToRatePence / (chargeEfficiency * dischargeEfficiency) + wearPencePerKwh,
            dearRatePence,
          )
        : SERVE_ALWAYS,
      highestRatePence: rates[rates.length - 1]!,
    });
    first = end;
  }
  return days;
}

function halfHoursToFill(battery: Battery): number {
  const room = Math.max(0, battery.usableKwh - battery.reserveKwh);
  if (room === 0) return 0;
  return Math.ceil(room / battery.chargeEfficiency / (battery.chargeKw * HALF_HOUR_HOURS) - TOLERANCE);
}
