import { InputError } from '../errors.js';
import type { Battery, BatteryInput } from './battery.js';
import { runBatteryRule } from './battery-rule.js';
import { type BatteryTotals, defaultEndValuePencePerKwh } from './battery-totals.js';
import { leastCostSchedule } from './least-cost-schedule.js';

/** Days by which savings are put on a year. */
const DAYS_A_YEAR = 365;
const HALF_HOURS_A_DAY = 48;

/** What one capacity costs and saves over the span. */
export interface CapacityRow {
  usableKwh: number;
  /** Net cost by the stated rule, wear and value of the level included, p. */
  ruleCostPence: number;
  /** Least net cost of any schedule, p. */
  leastCostPence: number;
  /** Less than without a battery, p. */
  ruleSavingPence: number;
  leastCostSavingPence: number;
  /** Delivered AC kWh ÷ usable kWh, put on a year. */
  ruleCyclesPerYear: number;
  leastCostCyclesPerYear: number;
  /** Installed price, £. */
  pricePounds: number;
  /** Price ÷ yearly saving before wear; null where it never pays back. */
  rulePaybackYears: number | null;
  leastCostPaybackYears: number | null;
}

/** Installed price of a battery: a part that every size has, and a part per usable kWh. */
export interface BatteryPrice {
  fixedPounds: number;
  poundsPerKwh: number;
}

/**
 * Cost against usable capacity, by the rule and at its least, powers unchanged. Reserve and starting level keep their
 * share of the capacity (of a battery of 0 kWh, their kWh). Payback is simple: price ÷ a year's saving, before wear,
 * because wear is the price again in instalments; the span's saving is put on 365 days, so a span that is not a
 * whole year of seasons misleads. Common practice, no source.
 *
 * @param input half-hours, units as in {@link BatteryInput}
 * @param battery units as in {@link Battery}
 * @param capacitiesKwh usable kWh of each row
 * @param price £
 * @param endValuePencePerKwh p per stored kWh at the end; by default the average day's lowest unit rate ÷ charge efficiency
 * @returns one row a capacity, in the order given
 * @throws InputError when a capacity, a price or a half-hour can't be used
 * @example costByCapacity(input, battery, [0, 5, 10], { fixedPounds: 1500, poundsPerKwh: 350 })
 */
export function costByCapacity(
  input: BatteryInput,
  battery: Battery,
  capacitiesKwh: readonly number[],
  price: BatteryPrice,
  endValuePencePerKwh = defaultEndValuePencePerKwh(
    input.unitRatePence,
    battery.chargeEfficiency,
    input.dayIndex,
  ),
): CapacityRow[] {
  for (const [name, pounds] of [
    ['fixed price', price.fixedPounds],
    ['price per kWh', price.poundsPerKwh],
  ] as const) {
    if (!(Number.isFinite(pounds) && pounds >= 0)) {
      throw new InputError(`the battery's ${name} is £${pounds}`, 'Give £0 or more.');
    }
  }
  const days = input.importKwh.length / HALF_HOURS_A_DAY;
  const perYear = days > 0 ? DAYS_A_YEAR / days : 0;
  const without = runBatteryRule(input, { ...battery, usableKwh: 0 }, endValuePencePerKwh).totals;
  return capacitiesKwh.map((usableKwh) => {
    const sized = withCapacity(battery, usableKwh);
    const rule = runBatteryRule(input, sized, endValuePencePerKwh).totals;
    const least = leastCostSchedule(input, sized, endValuePencePerKwh).totals;
    const pricePounds = usableKwh > 0 ? price.fixedPounds + price.poundsPerKwh * usableKwh : 0;
    const saving = (totals: BatteryTotals): number => without.netCostPence - totals.netCostPence;
    const payback = (totals: BatteryTotals): number | null => {
      const poundsPerYear = ((saving(totals) + totals.wearPence) / 100) * perYear;
      return usableKwh > 0 && poundsPerYear > 0 ? pricePounds / poundsPerYear : null;
    };
    return {
      usableKwh,
      ruleCostPence: rule.netCostPence,
      leastCostPence: least.netCostPence,
      ruleSavingPence: saving(rule),
      leastCostSavingPence: saving(least),
      ruleCyclesPerYear: rule.cycles * perYear,
      leastCostCyclesPerYear: least.cycles * perYear,
      pricePounds,
      rulePaybackYears: payback(rule),
      leastCostPaybackYears: payback(least),
    };
  });
}

/**
 * The same battery with another capacity; reserve and starting level keep their share of it.
 *
 * @param battery units as in {@link Battery}
 * @param usableKwh stored kWh
 * @returns a new battery
 * @example withCapacity({ ...battery, usableKwh: 10, reserveKwh: 1 }, 5).reserveKwh // 0.5
 */
export function withCapacity(battery: Battery, usableKwh: number): Battery {
  const ratio = battery.usableKwh > 0 ? usableKwh / battery.usableKwh : 1;
  return {
    ...battery,
    usableKwh,
    reserveKwh: battery.reserveKwh * ratio,
    startKwh: battery.startKwh * ratio,
  };
}
