import { type Battery, type BatteryInput, HALF_HOUR_HOURS, servableKwh } from './battery.js';

/** Half-hours of the average day, from midnight as time goes by. */
export const AVERAGE_DAY_SLOTS = 48;

/** What the battery meets on the average day of a month, stored kWh in each of 48 half-hours from midnight. */
export interface AverageDay {
  /** What serving the home takes, within the discharge power. */
  demandKwh: Float64Array;
  /** What the sun adds, within the charge power. */
  sunKwh: Float64Array;
}

/**
 * What a half-hour does to the level where nothing is bought or kept: it stores the sun or serves the home.
 *
 *     IF(export > import, MIN(chargeKw/2 * chargeEff, chargeEff * (export - import)),
 *        -MIN(dischargeKw/2 / dischargeEff, demand / dischargeEff))
 *
 * @param input half-hours, units as in {@link BatteryInput}
 * @param battery units as in {@link Battery}
 * @returns stored kWh of each half-hour: above 0 what the sun adds, below 0 what serving takes
 * @example storeChanges(input, battery)[0] // -0.4
 */
export function storeChanges(input: BatteryInput, battery: Battery): Float64Array<ArrayBuffer> {
  const mostIn = battery.chargeKw * HALF_HOUR_HOURS * battery.chargeEfficiency;
  const mostOut = (battery.dischargeKw * HALF_HOUR_HOURS) / battery.dischargeEfficiency;
  return Float64Array.from(input.importKwh, (imported, i) => {
    const exported = input.exportKwh[i] ?? 0;
    if (exported > imported) return Math.min(mostIn, battery.chargeEfficiency * (exported - imported));
    const demand = servableKwh(imported, exported, input.carKwh[i] ?? 0, battery.mayFeedCar);
    return -Math.min(mostOut, demand / battery.dischargeEfficiency);
  });
}

/**
 * The average day of each month: for each half-hour from midnight the mean of that half-hour's changes of level. A
 * household knows it in kind: what it uses and gets at that time of the day, at that time of the year.
 * Source: common practice, no source.
 *
 * @param input half-hours; `monthIndex` says which are averaged together, by default all
 * @param changes stored kWh of each half-hour, from {@link storeChanges}
 * @returns one entry a month; 0 where a month has no such half-hour. What autumn adds to a day is left out.
 * @example averageDays(input, storeChanges(input, battery))[0].demandKwh[36] // 0.41
 */
export function averageDays(input: BatteryInput, changes: Float64Array): AverageDay[] {
  const months: { demandKwh: Float64Array; sunKwh: Float64Array; count: Float64Array }[] = [];
  const halfHours = halfHoursOfDay(input);
  changes.forEach((change, i) => {
    const at = halfHours[i] ?? 0;
    const index = input.monthIndex?.[i] ?? 0;
    while (months.length <= index) {
      const [demandKwh, sunKwh, count] = [0, 1, 2].map(() => new Float64Array(AVERAGE_DAY_SLOTS));
      months.push({ demandKwh: demandKwh!, sunKwh: sunKwh!, count: count! });
    }
    if (at >= AVERAGE_DAY_SLOTS) return;
    const month = months[index]!;
    month.count[at]!++;
    if (change > 0) month.sunKwh[at]! += change;
    else month.demandKwh[at]! -= change;
  });
  return months.map(({ demandKwh, sunKwh, count }) => ({
    demandKwh: demandKwh.map((kwh, at) => kwh / Math.max(1, count[at]!)),
    sunKwh: sunKwh.map((kwh, at) => kwh / Math.max(1, count[at]!)),
  }));
}

/**
 * Which half-hour of its day each one is.
 *
 * @param input its `halfHourOfDay`, or else the place among the half-hours of the same `dayIndex`
 * @returns from 0
 * @example halfHoursOfDay({ dayIndex: Int32Array.of(0, 0, 1) }) // 0, 1, 0
 */
export function halfHoursOfDay(input: Pick<BatteryInput, 'dayIndex' | 'halfHourOfDay'>): Int32Array {
  if (input.halfHourOfDay !== undefined) return input.halfHourOfDay;
  let first = 0;
  return input.dayIndex.map((day, i) => {
    if (i > 0 && day !== input.dayIndex[i - 1]) first = i;
    return i - first;
  });
}
