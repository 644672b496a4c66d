import {
  assertBattery,
  assertBatteryInput,
  type Battery,
  type BatteryInput,
  HALF_HOUR_HOURS,
  maySell,
  servableKwh,
  startLevelKwh,
} from './battery.js';
import { TOLERANCE } from './battery-constants.js';
import { type BatteryDay, batteryDays } from './battery-days.js';
import { type BatteryTotals, batteryTotals } from './battery-totals.js';

/** What the rule does, half-hour by half-hour. */
export interface BatteryRun {
  /** AC kWh: above 0 charging, below 0 discharging. */
  batteryKwh: Float64Array;
  /** Stored kWh at the end of each half-hour. */
  levelKwh: Float64Array;
  /** Grid import with the battery, kWh. */
  importKwh: Float64Array;
  /** Export with the battery, kWh. */
  exportKwh: Float64Array;
  /** 1 in a half-hour in which the battery charges from the grid or holds, else 0. */
  chargingHalfHour: Uint8Array;
  days: readonly BatteryDay[];
  totals: BatteryTotals;
}

/**
 * Runs the stated rule, the same as the workbook's formulas.
 *
 * In words: solar surplus goes into the battery first. It charges from the grid in the cheapest half-hours of
 * each day (`dayIndex`) that are needed to fill it, only where the spread to that day's dearest ones beats losses and
 * wear, and holds in those. In all others it serves the house down to the reserve, unless, on a day with grid
 * charging, the rate of the half-hour does not repay what refilling costs. On a day on which it may export, the export
 * rate repays wear and refilling, and no rate of the day is above it, it gives all that it can in the half-hours in
 * which it would serve, and sells what the house does not take.
 *
 * As spreadsheet columns, each from its own row, the day's facts ({@link batteryDays}) and the level one row up:
 *
 *     rate     = `ruleRatePence` where given, else the unit rate; sells is never so where `ruleSells` is false
 *     surplus  = MAX(0, export - import)
 *     demand   = MAX(0, import - export - IF(mayFeedCar, 0, car))
 *     charging = AND(chargeFromGrid, usable > 0, rate < chargeBelow)
 *     room     = MAX(0, usable - level up) / chargeEff        (AC)
 *     output   = MAX(0, level up - reserve) * dischargeEff    (AC)
 *     sells    = AND(mayExport, OR(mayFeedCar, car <= 1E-9), exportRate >= highest,
 *                    exportRate - wear > chargeUpTo / (chargeEff * dischargeEff) + 1E-9)
 *     given    = IF(rate >= serveFrom - 1E-9, MIN(IF(sells, dischargeKw/2, demand), dischargeKw/2, output), 0)
 *     battery  = IF(charging, MIN(chargeKw/2, room),
 *                IF(surplus > 1E-9, MIN(surplus, chargeKw/2, room), -given))
 *     level    = level up + chargeEff * MAX(battery, 0) - MAX(-battery, 0) / dischargeEff
 *     import'  = import + MAX(0, battery - export) - MIN(demand, MAX(0, -battery))
 *     export'  = import' - battery - import + export
 *
 * Where no rate of the day is above the export rate, what is sold is bought back for no more than it fetched. Source: common
 * practice, no source.
 *
 * @param input half-hours, units as in {@link BatteryInput}
 * @param battery units as in {@link Battery}; 0 kWh gives the flows without one, bit for bit
 * @param endValuePencePerKwh p per stored kWh for the level at the end over that at the start; by default the average
 *   day's lowest unit rate ÷ charge efficiency
 * @returns flows in kWh and totals in pence
 * @throws InputError when a figure of the battery or a half-hour can't be used
 * @example runBatteryRule(input, battery).totals.netCostPence
 */
export function runBatteryRule(
  input: BatteryInput,
  battery: Battery,
  endValuePencePerKwh?: number,
): BatteryRun {
  assertBattery(battery);
  assertBatteryInput(input);
  const count = input.importKwh.length;
  const days = batteryDays(input, battery);
  const ruleRates = input.ruleRatePence ?? input.unitRatePence;
  const chargingHalfHour = chargingHalfHours(input, battery, days);
  const batteryKwh = new Float64Array(count);
  const levelKwh = new Float64Array(count);
  const importKwh = input.importKwh.slice();
  const exportKwh = input.exportKwh.slice();

  const { usableKwh, reserveKwh, chargeEfficiency, dischargeEfficiency, wearPencePerKwh } = battery;
  const mostIn = battery.chargeKw * HALF_HOUR_HOURS;
  const mostOut = battery.dischargeKw * HALF_HOUR_HOURS;
  let level = startLevelKwh(battery);
  if (usableKwh > 0) {
    for (let i = 0; i < count; i++) {
      const imported = input.importKwh[i]!;
      const exported = input.exportKwh[i]!;
      const car = input.carKwh[i]!;
      const surplus = Math.max(0, exported - imported);
      const demand = servableKwh(imported, exported, car, battery.mayFeedCar);
      const room = Math.max(0, usableKwh - level) / chargeEfficiency;
      const output = Math.max(0, level - reserveKwh) * dischargeEfficiency;
      const day = days[input.dayIndex[i]!]!;
      let flow: number;
      if (chargingHalfHour[i] === 1) {
        flow = Math.min(mostIn, room);
      } else if (surplus > TOLERANCE) {
        flow = Math.min(surplus, mostIn, room);
      } else {
        const serves = ruleRates[i]! >= day.serveFromRatePence - TOLERANCE;
        const exportRate = input.exportRatePence[i]!;
        const sells =
          input.ruleSells !== false &&
          maySell(battery, car) &&
          exportRate >= day.highestRatePence &&
          exportRate - wearPencePerKwh >
            day.chargeUpToRatePence / (chargeEfficiency * dischargeEfficiency) + TOLERANCE;
        const given = serves ? Math.min(sells ? mostOut : demand, mostOut, output) : 0;
        flow = -given;
      }
      const charged = Math.max(0, flow);
      const delivered = Math.max(0, -flow);
      level += chargeEfficiency * charged - delivered / dischargeEfficiency;
      batteryKwh[i] = charged - delivered;
      levelKwh[i] = level;
      importKwh[i] = imported + Math.max(0, charged - exported) - Math.min(demand, delivered);
      exportKwh[i] = exported - Math.min(exported, charged) + Math.max(0, delivered - demand);
    }
  }
  return {
    batteryKwh,
    levelKwh,
    importKwh,
    exportKwh,
    chargingHalfHour,
    days,
    totals: batteryTotals(
      input,
      battery,
      {
        importKwh,
        exportKwh,
        deliveredKwh: batteryKwh.map((flow) => Math.max(0, -flow)),
        endLevelKwh: level,
      },
      endValuePencePerKwh,
    ),
  };
}

function chargingHalfHours(
  input: BatteryInput,
  battery: Battery,
  days: readonly BatteryDay[],
): Uint8Array<ArrayBuffer> {
  const charging = new Uint8Array(input.importKwh.length);
  if (!battery.chargeFromGrid || battery.usableKwh === 0) return charging;
  for (let i = 0; i < charging.length; i++) {
    const day = days[input.dayIndex[i]!]!;
    const rate = (input.ruleRatePence ?? input.unitRatePence)[i]!;
    if (rate < day.chargeBelowRatePence) charging[i] = 1;
  }
  return charging;
}
