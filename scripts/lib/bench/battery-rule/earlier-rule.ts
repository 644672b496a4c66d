import {
  type Battery,
  type BatteryInput,
  HALF_HOUR_HOURS,
  maySell,
  servableKwh,
  startLevelKwh,
} from '../../../../src/battery/battery.js';
import { TOLERANCE } from '../../../../src/battery/battery-constants.js';
import { batteryTotals } from '../../../../src/battery/battery-totals.js';
import { type BatteryDay, batteryDays } from './earlier-days.js';

/**
 * Net cost, p, by the rule before the two levels: each day it charged in as many of the cheapest half-hours as fill the battery, held in
 * those, and served in all others from the rate that repaid refilling. Kept as a baseline only.
 */
export function earlierRuleCostPence(
  input: BatteryInput,
  battery: Battery,
  endValuePencePerKwh: number,
): number {
  const count = input.importKwh.length;
  const days = batteryDays(input, battery);
  const ruleRates = input.ruleRatePence ?? input.unitRatePence;
  const chargingHalfHour = chargingHalfHours(input, battery, days);
  const batteryKwh = new Float64Array(count);
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
          input.ruleRatePence === undefined &&
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
      importKwh[i] = imported + Math.max(0, charged - exported) - Math.min(demand, delivered);
      exportKwh[i] = exported - Math.min(exported, charged) + Math.max(0, delivered - demand);
    }
  }
  const deliveredKwh = batteryKwh.map((flow) => Math.max(0, -flow));
  const flows = { importKwh, exportKwh, deliveredKwh, endLevelKwh: level };
  return batteryTotals(input, battery, flows, endValuePencePerKwh).netCostPence;
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
