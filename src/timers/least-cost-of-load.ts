import { allowedHalfHours, moveLoad } from './moved-load.js';
import { sessionsOf } from './sessions.js';
import { assertColumn, type MovableLoad, NO_KWH, type Timer } from './timer.js';

/** Rates closer than this are one, p/kWh. */
const SAME_RATE = 1e-9;

/** A load at the cheapest of the hours allowed. */
export interface LeastLoadCost {
  /** kWh of each half-hour; every session has the kWh that it had. */
  movedKwh: Float64Array;
  /** Cost of those kWh at the unit rate, p. */
  costPence: number;
  /** kWh that did not fit into the hours and stay where they were metered. */
  staysKwh: number;
  /** Sessions with such kWh. */
  shortSessions: number;
  /** kWh above the lowest rate that their session has within the hours: the cheap hours are too short for them. */
  beyondCheapestKwh: number;
  /** Sessions with such kWh. */
  beyondCheapestSessions: number;
}

/**
 * The least that a load can cost within the hours allowed, at its power: each session fills its cheapest half-hours
 * first, of equally cheap ones the earlier. What does not fit stays as in {@link movedLoad}. Every kWh is priced at the
 * unit rate: sun and battery are left out. Source of the method: a linear programme with one sum and upper limits is
 * solved by filling in order of cost (the fractional knapsack).
 *
 * @param load starts and kWh, one a half-hour, in order of time, as in {@link MovableLoad}
 * @param timer the hours allowed, minutes after midnight, and the power, kW
 * @param unitRatePence p/kWh, one a half-hour
 * @returns kWh of each half-hour, their cost in p, the kWh that stay and a count of such sessions
 * @throws InputError when lengths differ, a number is missing, an energy is negative, a start is missing or of an
 *   earlier session, the power is not above 0, or the hours are off the half-hour or without a length
 * @example // 5 kWh at tea-time, of which the night holds 3.5 kWh a half-hour:
 *   const load = { localSerial: Float64Array.of(46_000.75, 46_001, 46_001 + 1 / 48), loadKwh: Float64Array.of(5, 0, 0) };
 *   const timer = { hours: { fromMinutes: 0, toMinutes: 60 }, powerKw: 7 };
 *   leastCostOfLoad(load, timer, Float64Array.of(30, 20, 8)).costPence // 58: 3.5 kWh at 8 p, 1.5 kWh at 20 p
 */
export function leastCostOfLoad(
  load: MovableLoad,
  timer: Omit<Timer, 'isOn'>,
  unitRatePence: Float64Array,
): LeastLoadCost {
  assertColumn('unitRatePence', unitRatePence, load.localSerial.length);
  // Sorting keeps the order of equals: the earlier stays first.
  const byRate = (halfHours: number[]): number[] =>
    halfHours.toSorted((a, b) => unitRatePence[a]! - unitRatePence[b]!);
  const { movedKwh, staysKwh, shortSessions } = moveLoad(load, timer, byRate);
  const costPence = loadCost(movedKwh, unitRatePence);
  const beyond = beyondCheapest(load, movedKwh, allowedHalfHours(load.localSerial, timer), unitRatePence);
  return { movedKwh, costPence, staysKwh, shortSessions, ...beyond };
}

function beyondCheapest(
  load: MovableLoad,
  movedKwh: Float64Array,
  isAllowed: Uint8Array,
  unitRatePence: Float64Array,
): Pick<LeastLoadCost, 'beyondCheapestKwh' | 'beyondCheapestSessions'> {
  let [beyondCheapestKwh, beyondCheapestSessions] = [0, 0];
  for (const { first, end } of sessionsOf(load.localSerial)) {
    let lowest = Number.POSITIVE_INFINITY;
    for (let i = first; i < end; i++) if (isAllowed[i] === 1) lowest = Math.min(lowest, unitRatePence[i]!);
    let kwh = 0;
    for (let i = first; i < end; i++) if (unitRatePence[i]! > lowest + SAME_RATE) kwh += movedKwh[i]!;
    beyondCheapestKwh += kwh;
    if (kwh > NO_KWH) beyondCheapestSessions++;
  }
  return { beyondCheapestKwh, beyondCheapestSessions };
}

/**
 * What a load costs at the unit rate. Source: arithmetic.
 *
 * @param loadKwh kWh, one a half-hour
 * @param unitRatePence p/kWh, one a half-hour, as many
 * @returns cost of all of them, p
 * @throws InputError when lengths differ or a number is missing
 * @example loadCost(Float64Array.of(1, 2), Float64Array.of(10, 20)) // 50
 */
export function loadCost(loadKwh: Float64Array, unitRatePence: Float64Array): number {
  assertColumn('unitRatePence', unitRatePence, loadKwh.length);
  return loadKwh.reduce((sum, kwh, i) => sum + kwh * unitRatePence[i]!, 0);
}
