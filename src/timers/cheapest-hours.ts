import { formatClock } from '../tariffs/clock-text.js';
import { SLOTS_PER_DAY } from '../time/serial.js';
import { loadCost } from './least-cost-of-load.js';
import { moveSession } from './move-session.js';
import { sessionsOf } from './sessions.js';
import {
  assertColumn,
  assertLoad,
  halfHourKwh,
  hoursMask,
  type MovableLoad,
  NO_KWH,
  slotOfDay,
  type Timer,
  type TimerHours,
} from './timer.js';

/** The hours to set a timer to. */
export interface CheapestHours {
  /** By the home's clock; undefined where the load costs least as it was metered: no timer then. */
  hours: TimerHours | undefined;
  /** The hours as a clock says them, `00:30 to 04:30`; empty without hours. */
  text: string;
  /** Cost of the load with the timer at these hours at the unit rate, p; without hours as metered. */
  costPence: number;
  /** Cost of the load as metered at the unit rate, p. */
  meteredCostPence: number;
  /** kWh that do not fit into these hours and stay where they were metered. */
  staysKwh: number;
  /** Sessions with such kWh. */
  shortSessions: number;
}

/** Hours that were tried. */
interface Tried {
  hours: TimerHours;
  costPence: number;
  staysKwh: number;
  shortSessions: number;
  meanRatePence: number;
  /** How many half-hours of the clock. */
  length: number;
}

/**
 * The hours, within those allowed, at which a timer with one start and one end costs least over all sessions, run as
 * {@link movedLoad} runs. Every pair of start and end is tried. Of equal cost, the hours that leave the fewest kWh outside; then
 * those with the lowest mean rate; then the longest; then the earliest from noon on. They never span noon, where a
 * session ends. Costs are those of the load at the unit rate: sun and battery are left out. Source: arithmetic.
 *
 * @param load kWh of each half-hour, in order of time; without any kWh the hours with the lowest mean rate are found
 * @param timer the hours allowed and the power, kW
 * @param unitRatePence p/kWh of each half-hour
 * @returns hours and what they cost; never more than as metered
 * @throws InputError when a figure can't be used
 * @example cheapestHours(load, { hours: { fromMinutes: 0, toMinutes: 1440 }, powerKw: 7 }, rates).text // '00:30 to 04:30'
 */
export function cheapestHours(
  load: MovableLoad,
  timer: Omit<Timer, 'isOn'>,
  unitRatePence: Float64Array,
): CheapestHours {
  assertLoad(load);
  const meteredCostPence = loadCost(load.loadKwh, unitRatePence);
  assertColumn('localStart', load.localSerial, unitRatePence.length);
  const trial = tryHours(load, halfHourKwh(timer.powerKw), unitRatePence);
  const margin = NO_KWH * Math.max(1, Math.abs(meteredCostPence));
  let best: Tried | undefined;
  for (const hours of hoursWithin(timer.hours)) {
    const tried = trial(hours);
    if (tried !== undefined && (best === undefined || isBetter(tried, best, margin))) best = tried;
  }
  if (best === undefined || best.costPence > meteredCostPence + margin) {
    return {
      hours: undefined,
      text: '',
      costPence: meteredCostPence,
      meteredCostPence,
      staysKwh: 0,
      shortSessions: 0,
    };
  }
  const { hours, costPence, staysKwh, shortSessions } = best;
  return { hours, text: hoursText(hours), costPence, meteredCostPence, staysKwh, shortSessions };
}

/**
 * Hours as a clock says them.
 *
 * @param hours by the home's clock, minutes after midnight
 * @returns `HH:MM to HH:MM`
 * @example hoursText({ fromMinutes: 30, toMinutes: 270 }) // '00:30 to 04:30'
 */
export function hoursText({ fromMinutes, toMinutes }: TimerHours): string {
  return `${formatClock(fromMinutes)} to ${formatClock(toMinutes)}`;
}

/** Every stretch of hours within others, counted from noon: earlier starts first. */
function* hoursWithin(allowed: TimerHours): Generator<TimerHours> {
  const mask = hoursMask(allowed);
  const isAllowed = (fromNoon: number): boolean =>
    fromNoon < SLOTS_PER_DAY && mask[(fromNoon + SLOTS_PER_DAY / 2) % SLOTS_PER_DAY] === 1;
  const minutes = (fromNoon: number): number => ((fromNoon * 30 + 720) % 1440) as number;
  for (let from = 0; from < SLOTS_PER_DAY; from++) {
    for (let to = from + 1; isAllowed(to - 1); to++) {
      if (to - from === SLOTS_PER_DAY) yield { fromMinutes: 0, toMinutes: 1440 };
      else yield { fromMinutes: minutes(from), toMinutes: minutes(to) === 0 ? 1440 : minutes(to) };
    }
  }
}

/** Makes what tries hours: undefined where no half-hour of the readings is within them. */
function tryHours(
  load: MovableLoad,
  mostKwh: number,
  unitRatePence: Float64Array,
): (hours: TimerHours) => Tried | undefined {
  const count = load.localSerial.length;
  const slots = Uint8Array.from(load.localSerial, slotOfDay);
  const sessions = sessionsOf(load.localSerial).filter(({ first, end }) =>
    load.loadKwh.subarray(first, end).some((kwh) => kwh > 0),
  );
  const rateSums = new Float64Array(SLOTS_PER_DAY);
  const counts = new Float64Array(SLOTS_PER_DAY);
  for (let i = 0; i < count; i++) {
    rateSums[slots[i]!]! += unitRatePence[i]!;
    counts[slots[i]!]! += 1;
  }
  const movedKwh = new Float64Array(count);
  return (hours) => {
    const mask = hoursMask(hours);
    const ofMask = (values: Float64Array): number =>
      values.reduce((sum, value, s) => sum + value * mask[s]!, 0);
    const halfHours = ofMask(counts);
    if (halfHours === 0) return undefined;
    const isAllowed = slots.map((slot) => mask[slot]!);
    let [costPence, staysKwh, shortSessions] = [0, 0, 0];
    for (const session of sessions) {
      const fit = moveSession(load, session, isAllowed, mostKwh, movedKwh);
      staysKwh += fit.staysKwh;
      if (fit.staysKwh > NO_KWH) shortSessions++;
      for (let i = session.first; i < session.end; i++) costPence += movedKwh[i]! * unitRatePence[i]!;
    }
    const meanRatePence = ofMask(rateSums) / halfHours;
    return {
      hours,
      costPence,
      staysKwh,
      shortSessions,
      meanRatePence,
      length: ofMask(new Float64Array(48).fill(1)),
    };
  };
}

/** Whether hours are better than earlier ones; what is as good is not. */
function isBetter(a: Tried, b: Tried, margin: number): boolean {
  const costs = a.costPence - b.costPence;
  if (Math.abs(costs) > margin) return costs < 0;
  const stays = a.staysKwh - b.staysKwh;
  if (Math.abs(stays) > NO_KWH) return stays < 0;
  const rates = a.meanRatePence - b.meanRatePence;
  if (Math.abs(rates) > NO_KWH) return rates < 0;
  return a.length > b.length;
}
