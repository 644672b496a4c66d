import type { Battery, BatteryInput } from './battery.js';
import { HalfHourCurve, MAX_PIECES } from './half-hour-curve.js';
import { LevelCurve } from './level-curve.js';

/** When a battery that starts below its reserve is to be at or above it. */
interface TimeAtReserve {
  /** Half-hours in which it may only charge. */
  halfHours: number;
  /** Level after those, stored kWh. */
  levelKwh: number;
}

/**
 * For a start below the reserve: how long the battery only charges in a schedule of least cost. The levels allowed then
 * are no convex set, but they are one for each length of that first stretch; so the cost of each length is the least
 * sum of a curve from the start (charging only) and a curve from the end (at or above the reserve).
 *
 * @param input half-hours, kWh and p/kWh
 * @param battery units as in {@link Battery}
 * @param startKwh level before the first half-hour, stored kWh
 * @param reserveKwh reserve, above the start
 * @param endValuePencePerKwh p per stored kWh at the end
 * @returns the best length and the level after it
 * @example bestTimeAtReserve(input, battery, 0, 1, 8) // { halfHours: 5, levelKwh: 3.2 }
 */
export function bestTimeAtReserve(
  input: BatteryInput,
  battery: Battery,
  startKwh: number,
  reserveKwh: number,
  endValuePencePerKwh: number,
): TimeAtReserve {
  const count = input.importKwh.length;
  const onward = curvesFromEnd(input, battery, reserveKwh, endValuePencePerKwh);
  const half = new HalfHourCurve(input, battery);
  const curve = new LevelCurve(startKwh);
  let best: TimeAtReserve = { halfHours: count, levelKwh: startKwh };
  let leastCost = Number.POSITIVE_INFINITY;
  for (let i = 0; ; i++) {
    // After the last half-hour a level below the reserve is as good as its value.
    const at = i === count ? atEnd(curve, endValuePencePerKwh) : cheapestMeeting(curve, onward[i]!);
    if (at.cost < leastCost) {
      leastCost = at.cost;
      best = { halfHours: i, levelKwh: at.levelKwh };
    }
    if (i === count) return best;
    half.set(i, true);
    curve.add(half, startKwh, battery.usableKwh);
  }
}

interface Meeting {
  levelKwh: number;
  cost: number;
}

function atEnd(curve: LevelCurve, endValuePencePerKwh: number): Meeting {
  const levelKwh = curve.bestLevel(endValuePencePerKwh);
  return { levelKwh, cost: curve.costAt(levelKwh) - endValuePencePerKwh * levelKwh };
}

interface FrozenCurve {
  low: number;
  lowCost: number;
  slope: Float64Array;
  length: Float64Array;
}

/** Cost from a level at the start of each half-hour to the end of the span. */
function curvesFromEnd(
  input: BatteryInput,
  battery: Battery,
  reserveKwh: number,
  endValuePencePerKwh: number,
): FrozenCurve[] {
  const { usableKwh } = battery;
  const half = new HalfHourCurve(input, battery);
  const mirrored = {
    left: 0,
    leftCost: 0,
    pieces: 1,
    slope: new Float64Array(MAX_PIECES),
    length: new Float64Array(MAX_PIECES),
  };
  const curve = new LevelCurve(reserveKwh);
  mirrored.slope[0] = -endValuePencePerKwh;
  mirrored.length[0] = usableKwh - reserveKwh;
  mirrored.leftCost = -endValuePencePerKwh * reserveKwh;
  curve.add(mirrored, reserveKwh, usableKwh);
  const curves: FrozenCurve[] = [];
  for (let i = input.importKwh.length - 1; i >= 0; i--) {
    half.set(i);
    mirrored.left = -half.left;
    mirrored.leftCost = half.leftCost;
    mirrored.pieces = half.pieces;
    for (let k = 0; k < half.pieces; k++) {
      const from = half.pieces - 1 - k;
      mirrored.slope[k] = -half.slope[from]!;
      mirrored.length[k] = half.length[from]!;
      mirrored.left -= half.length[from]!;
      mirrored.leftCost += half.slope[from]! * half.length[from]!;
    }
    curve.add(mirrored, reserveKwh, usableKwh);
    curves[i] = {
      low: curve.low,
      lowCost: curve.lowCost,
      slope: curve.slope.slice(0, curve.pieces),
      length: curve.length.slice(0, curve.pieces),
    };
  }
  return curves;
}

/** The level at which the cost so far and the cost from there on are least together. */
function cheapestMeeting(before: LevelCurve, after: FrozenCurve): Meeting {
  const beforeHigh = before.length.subarray(0, before.pieces).reduce((sum, x) => sum + x, before.low);
  if (beforeHigh < after.low) return { levelKwh: after.low, cost: Number.POSITIVE_INFINITY };
  let level = Math.max(before.low, after.low);
  let cost = before.costAt(level) + after.lowCost;
  // Walks both lists of slopes from that level while their sum falls.
  let b = 0;
  let bLeft = before.low + (before.length[0] ?? 0) - level;
  while (b < before.pieces && bLeft <= 0) bLeft += before.length[++b] ?? 0;
  let a = 0;
  let aLeft = after.length[0] ?? 0;
  while (b < before.pieces && a < after.length.length && before.slope[b]! + after.slope[a]! < 0) {
    const move = Math.min(bLeft, aLeft);
    cost += (before.slope[b]! + after.slope[a]!) * move;
    level += move;
    bLeft -= move;
    aLeft -= move;
    if (bLeft <= 0) bLeft = before.length[++b] ?? 0;
    if (aLeft <= 0) aLeft = after.length[++a] ?? 0;
  }
  return { levelKwh: level, cost };
}
