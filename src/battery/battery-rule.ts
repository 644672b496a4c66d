import { storeChanges } from './average-day.js';
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
import { batteryLevels } from './battery-levels.js';
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
  /** Stored kWh up to which it charges from the grid in each half-hour; 0: not at all. */
  fillUpToKwh: Float64Array;
  /** Stored kWh down to which it serves the home in each half-hour. */
  keepKwh: Float64Array;
  totals: BatteryTotals;
}

/**
 * Runs the stated rule, the same as the workbook's formulas.
 *
 * In words: each half-hour has two levels, set beforehand from the rates and the average day of the month. Below the first the
 * battery charges from the grid at full power: what the half-hours until energy is as cheap again are likely to take, at rates
 * that repay this one after losses and wear. Above the second it serves the home: it keeps what dearer half-hours are likely to take
 * before refilling pays, less the sun to come. Between them it takes the sun and serves the home. By a half-hourly price both are
 * set day by day from that day's prices. On rates none of which is above the export rate, where it may export and that repays a
 * refill, it sells all that it can wherever it doesn't charge, but for half-hours of sun or of a barred car.
 *
 * As spreadsheet columns, each from its own row and the level one row up, with the levels of `levelsOfWeek` or `levelsOfPriceDay`:
 *
 *     change  = what the sun adds or serving the home takes, stored kWh (`storeChanges`); what full power takes where it sells
 *     level   = MIN(usable, MAX(MIN(level up + chargeKw/2 * chargeEff, fillUpTo), MIN(level up, keep), level up + change))
 *     battery = IF(level > level up, (level - level up) / chargeEff, (level - level up) * dischargeEff)
 *     demand  = MAX(0, import - export - IF(mayFeedCar, 0, car))
 *     import' = import + MAX(0, battery - export) - MIN(demand, MAX(0, -battery))
 *     export' = import' - battery - import + export
 *
 * Where no rate is above the export rate, what is sold is bought back for no more than it fetched. Source: common practice, no
 * source.
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
  const batteryKwh = new Float64Array(count);
  const levelKwh = new Float64Array(count);
  const importKwh = input.importKwh.slice();
  const exportKwh = input.exportKwh.slice();
  const changes = storeChanges(input, battery);
  const { fillUpToKwh, keepKwh, sells } = batteryLevels(input, changes, battery);

  const { usableKwh, chargeEfficiency, dischargeEfficiency } = battery;
  const chargeStep = battery.chargeKw * HALF_HOUR_HOURS * chargeEfficiency;
  const giveStep = (battery.dischargeKw * HALF_HOUR_HOURS) / dischargeEfficiency;
  let level = startLevelKwh(battery);
  for (let i = 0; i < count && usableKwh > 0; i++) {
    const [imported, exported, car] = [input.importKwh[i]!, input.exportKwh[i]!, input.carKwh[i]!];
    const isSold = sells[i] === 1 && changes[i]! <= 0 && maySell(battery, car);
    const before = level;
    level = Math.min(
      usableKwh,
      Math.max(
        Math.min(before + chargeStep, fillUpToKwh[i]!),
        Math.min(before, keepKwh[i]!),
        before + (isSold ? -giveStep : changes[i]!),
      ),
    );
    const charged = Math.max(0, level - before) / chargeEfficiency;
    const delivered = Math.max(0, before - level) * dischargeEfficiency;
    const demand = servableKwh(imported, exported, car, battery.mayFeedCar);
    batteryKwh[i] = charged - delivered;
    levelKwh[i] = level;
    importKwh[i] = imported + Math.max(0, charged - exported) - Math.min(demand, delivered);
    exportKwh[i] = exported - Math.min(exported, charged) + Math.max(0, delivered - demand);
  }
  return {
    batteryKwh,
    levelKwh,
    importKwh,
    exportKwh,
    fillUpToKwh,
    keepKwh,
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
