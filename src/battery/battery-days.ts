import { type Battery, type BatteryInput, HALF_HOUR_HOURS } from './battery.js';
import { SERVE_ALWAYS, TOLERANCE } from './battery-constants.js';

/** What the rule knows of one local day before it starts. */
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

/**
 * The day-level facts of the battery rule.
 *
 * As columns of a sheet with one row a day, `rates` being the rates of the whole day (`dayRatesPence` where given, else the
 * day's slice of the rates that the rule decides by):
 *
 *     halfHoursToFill = MIN(COUNT(rates), MAX(1, ROUNDUP(MAX(0, usable - reserve) / chargeEff / (chargeKw/2) - 1E-9, 0)))
 *     chargeUpTo      = SMALL(rates, halfHoursToFill)
 *     dear            = LARGE(rates, halfHoursToFill)
 *     worthwhileBelow = (dear - wear) * chargeEff * dischargeEff
 *     chargeBelow     = MIN(chargeUpTo + 1E-9, worthwhileBelow - 1E-9)
 *     serveFrom       = IF(AND(chargeFromGrid, MIN(rates) < worthwhileBelow - 1E-9),
 *                          MIN(chargeUpTo / (chargeEff * dischargeEff) + wear, dear), -1E9)
 *     highest         = MAX(rates)
 *
 * A battery of 0 kWh needs one half-hour, so that no sheet divides by a power of 0.
 *
 * @param input half-hours with their unit rates, p/kWh, and days
 * @param battery units as in {@link Battery}
 * @returns one entry a day, in order
 * @example batteryDays(input, battery)[0].chargeUpToRatePence // 7.5
 */
export function batteryDays(input: BatteryInput, battery: Battery): BatteryDay[] {
  const { chargeEfficiency, dischargeEfficiency, wearPencePerKwh } = battery;
  const toFill = halfHoursToFill(battery);
  const ruleRates = input.ruleRatePence ?? input.unitRatePence;
  const days: BatteryDay[] = [];
  const count = input.dayIndex.length;
  for (let first = 0; first < count; ) {
    let end = first + 1;
    while (end < count && input.dayIndex[end] === input.dayIndex[first]) end++;
    const rates = (input.dayRatesPence?.[days.length] ?? ruleRates.slice(first, end)).slice().sort();
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

/**
 * Half-hours at full power that fill the battery from its reserve.
 *
 * @param battery units as in {@link Battery}
 * @returns whole half-hours, 0 where nothing fits above the reserve
 * @example halfHoursToFill({ ...battery, usableKwh: 10, reserveKwh: 1, chargeKw: 5, chargeEfficiency: 0.9 }) // 4
 */
export function halfHoursToFill(battery: Battery): number {
  const room = Math.max(0, battery.usableKwh - battery.reserveKwh);
  if (room === 0) return 0;
  return Math.ceil(room / battery.chargeEfficiency / (battery.chargeKw * HALF_HOUR_HOURS) - TOLERANCE);
}
