import {
  assertBattery,
  assertBatteryInput,
  type Battery,
  type BatteryInput,
  startLevelKwh,
} from './battery.js';
import { type BatteryTotals, batteryTotals, defaultEndValuePencePerKwh } from './battery-totals.js';
import { bestTimeAtReserve } from './best-time-at-reserve.js';
import { HalfHourCurve, MAX_PIECES } from './half-hour-curve.js';
import { LevelCurve } from './level-curve.js';

/** A schedule of least cost. */
export interface LeastCostSchedule {
  /** AC kWh taken in each half-hour. */
  chargeKwh: Float64Array;
  /** AC kWh given in each half-hour; beside a charge only where switching within the half-hour pays. */
  dischargeKwh: Float64Array;
  /** Stored kWh at the end of each half-hour. */
  levelKwh: Float64Array;
  /** Grid import with the battery, kWh. */
  importKwh: Float64Array;
  /** Export with the battery, kWh. */
  exportKwh: Float64Array;
  totals: BatteryTotals;
}

/**
 * The least cost that any schedule could reach, knowing all rates, demand and sun beforehand, and a schedule that
 * reaches it. Same limits as the rule: power, efficiencies, reserve, permissions; a level that starts below the reserve
 * may only rise until it has reached it. Exact, not stepped: the cost of reaching a level is convex and piecewise
 * straight, so each half-hour merges a few slopes into a sorted list and cuts it to the levels that fit; the
 * schedule is read back from where those slopes landed.
 *
 * Negative rates and export rates above the unit rate are allowed; see {@link HalfHourCurve} for what a half-hour may
 * do. Source of the method: dynamic programming with infimal convolution of convex piecewise linear functions.
 *
 * @param input half-hours, units as in {@link BatteryInput}
 * @param battery units as in {@link Battery}; 0 kWh gives the flows without one, bit for bit
 * @param endValuePencePerKwh p per stored kWh for the level at the end over that at the start; by default the average
 *   day's lowest unit rate ÷ charge efficiency
 * @returns flows in kWh; `totals.netCostPence` is the minimum
 * @throws InputError when a figure of the battery or a half-hour can't be used
 * @example leastCostSchedule(input, battery).totals.netCostPence
 */
export function leastCostSchedule(
  input: BatteryInput,
  battery: Battery,
  endValuePencePerKwh = defaultEndValuePencePerKwh(
    input.unitRatePence,
    battery.chargeEfficiency,
    input.dayIndex,
  ),
): LeastCostSchedule {
  assertBattery(battery);
  assertBatteryInput(input);
  const count = input.importKwh.length;
  const schedule = {
    chargeKwh: new Float64Array(count),
    dischargeKwh: new Float64Array(count),
    levelKwh: new Float64Array(count),
    importKwh: input.importKwh.slice(),
    exportKwh: input.exportKwh.slice(),
  };
  const start = startLevelKwh(battery);
  if (battery.usableKwh > 0) {
    const reserve = Math.min(battery.reserveKwh, battery.usableKwh);
    let from = 0;
    let level = start;
    if (start < reserve) {
      const reached = bestTimeAtReserve(input, battery, start, reserve, endValuePencePerKwh);
      const levels = levelsTo(
        input,
        battery,
        0,
        reached.halfHours,
        start,
        start,
        true,
        () => reached.levelKwh,
      );
      schedule.levelKwh.set(levels);
      fillFlows(input, battery, schedule, 0, reached.halfHours, start, true);
      from = reached.halfHours;
      level = reached.levelKwh;
    }
    const levels = levelsTo(input, battery, from, count, level, reserve, false, (curve) =>
      curve.bestLevel(endValuePencePerKwh),
    );
    schedule.levelKwh.set(levels, from);
    fillFlows(input, battery, schedule, from, count, level, false);
  }
  const totals = batteryTotals(
    input,
    battery,
    {
      importKwh: schedule.importKwh,
      exportKwh: schedule.exportKwh,
      deliveredKwh: schedule.dischargeKwh,
      endLevelKwh: count === 0 ? start : schedule.levelKwh[count - 1]!,
    },
    endValuePencePerKwh,
  );
  return { ...schedule, totals };
}

/** Levels at the end of each half-hour of a stretch: forwards for the curves, backwards for the path. */
function levelsTo(
  input: BatteryInput,
  battery: Battery,
  from: number,
  to: number,
  startKwh: number,
  floorKwh: number,
  onlyCharging: boolean,
  endLevel: (curve: LevelCurve) => number,
): Float64Array {
  const count = to - from;
  const half = new HalfHourCurve(input, battery);
  const curve = new LevelCurve(startKwh);
  const left = new Float64Array(count);
  const pieces = new Uint8Array(count);
  const lengths = new Float64Array(count * MAX_PIECES);
  const positions = new Float64Array(count * MAX_PIECES);
  for (let i = 0; i < count; i++) {
    half.set(from + i, onlyCharging);
    left[i] = half.left;
    pieces[i] = half.pieces;
    for (let k = 0; k < half.pieces; k++) lengths[i * MAX_PIECES + k] = half.length[k]!;
    curve.add(half, floorKwh, battery.usableKwh, positions, i * MAX_PIECES);
  }
  const levels = new Float64Array(count);
  let level = count === 0 ? startKwh : endLevel(curve);
  for (let i = count - 1; i >= 0; i--) {
    levels[i] = level;
    let gain = left[i]!;
    for (let k = i * MAX_PIECES; k < i * MAX_PIECES + pieces[i]!; k++) {
      gain += Math.min(Math.max(level - positions[k]!, 0), lengths[k]!);
    }
    level = Math.min(Math.max(level - gain, floorKwh), battery.usableKwh);
  }
  return levels;
}

function fillFlows(
  input: BatteryInput,
  battery: Battery,
  schedule: Omit<LeastCostSchedule, 'totals'>,
  from: number,
  to: number,
  startKwh: number,
  onlyCharging: boolean,
): void {
  const half = new HalfHourCurve(input, battery);
  const flows = { charged: 0, delivered: 0, importMore: 0, exportMore: 0 };
  let level = startKwh;
  for (let i = from; i < to; i++) {
    half.set(i, onlyCharging);
    half.flowsAt(schedule.levelKwh[i]! - level, flows);
    level = schedule.levelKwh[i]!;
    schedule.chargeKwh[i] = flows.charged;
    schedule.dischargeKwh[i] = flows.delivered;
    schedule.importKwh[i] = input.importKwh[i]! + flows.importMore;
    schedule.exportKwh[i] = input.exportKwh[i]! + flows.exportMore;
  }
}
