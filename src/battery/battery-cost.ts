import type { Battery, BatteryInput } from './battery.js';
import { runBatteryRule } from './battery-rule.js';
import { leastCostSchedule } from './least-cost-schedule.js';

/**
 * What half-hours cost with a battery that follows the stated rule.
 *
 * @param input half-hours, units as in {@link BatteryInput}
 * @param battery units as in {@link Battery}
 * @returns p: import less export credit, with wear, less the value of the level gained
 * @throws InputError when a figure can't be used
 * @example batteryCost(input, battery) // 30
 */
export function batteryCost(input: BatteryInput, battery: Battery): number {
  return runBatteryRule(input, battery).totals.netCostPence;
}

/**
 * The least that half-hours could cost with a battery, whatever its schedule.
 *
 * @param input half-hours, units as in {@link BatteryInput}
 * @param battery units as in {@link Battery}
 * @returns p, counted as in {@link batteryCost}
 * @throws InputError when a figure can't be used
 * @example leastBatteryCost(input, battery) // 30
 */
export function leastBatteryCost(input: BatteryInput, battery: Battery): number {
  return leastCostSchedule(input, battery).totals.netCostPence;
}
