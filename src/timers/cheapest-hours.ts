import { formatClock } from '../tariffs/clock-text.js';
import { SLOTS_PER_DAY } from '../time/serial.js';
import { loadCost } from './least-cost-of-load.js';
import {
  assertColumn,
  assertLoad,
  halfHourKwh,
  hoursMask,
  type MovableLoad,
  NO_KWH,
  type Timer,
  type TimerHours,
} from './timer.js';
import { endsTrier, halfHoursFromNoon } from './try-hours.js';

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

/** Hours that were tried, in half-hours from noon. */
interface Tried {
  from: number;
  end: number;
  costPence: number;
  staysKwh: number;
  shortSessions: number;
  meanRatePence: number;
}

/**
 * The hours, within those allowed, at which a timer with one start and one end costs least over all sessions, run as
 * {@link movedLoad} runs. Every pair of start and end on the half-hour is tried. Of equal cost, the hours that leave the fewest kWh outside; then
 * those with the lowest mean rate; then the longest; then the earliest from noon on. They never span noon, where a
 * session ends. Costs are those of the load at the unit rate: sun and battery are left out. Source: arithmetic.
 *
 * @param load starts and kWh, one a half-hour, in order of time, as in {@link MovableLoad}; without any kWh the hours with the
 *   lowest mean rate are found
 * @param timer the hours allowed, minutes after midnight, and the power, kW
 * @param unitRatePence p/kWh, one a half-hour
 * @returns the hours, minutes after midnight, and the cost of the load with them and as metered, p: never more than as metered
 * @throws InputError when lengths differ, a number is missing, an energy is negative, a start is missing or of an
 *   earlier session, the power is not above 0, or the hours are off the half-hour or without a length
 * @example cheapestHours(load, { hours: { fromMinutes: 0, toMinutes: 1440 }, powerKw: 7 }, rates).text // '00:30 to 04:30'
 */
export function cheapestHours(
  load: MovableLoad,
  timer: Omit<Timer, 'isOn'>,
  unitRatePence: Float64Array,
): CheapestHours {
  assertLoad(load);
  assertColumn('unitRatePence', unitRatePence, load.localSerial.length);
  const meteredCostPence = loadCost(load.loadKwh, unitRatePence);
  const margin = NO_KWH * Math.max(1, Math.abs(meteredCostPence));
  let best: Tried | undefined;
  for (const tried of triedHours(load, timer, unitRatePence)) {
    if (best === undefined || isBetter(tried, best, margin)) best = tried;
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
  const { from, end, costPence, staysKwh, shortSessions } = best;
  const hours = hoursFromNoon(from, end);
  return { hours, text: hoursText(hours), costPence, meteredCostPence, staysKwh, shortSessions };
}

/**
 * Hours as a clock says them. Source: arithmetic.
 *
 * @param hours by the home's clock: start and end, minutes after midnight, 0 to 1440
 * @returns a text, `HH:MM to HH:MM`
 * @example hoursText({ fromMinutes: 30, toMinutes: 270 }) // '00:30 to 04:30'
 */
export function hoursText({ fromMinutes, toMinutes }: TimerHours): string {
  return `${formatClock(fromMinutes)} to ${formatClock(toMinutes)}`;
}

/** Every stretch of hours within those allowed that some half-hour of the readings is in, earlier starts first. */
function* triedHours(
  load: MovableLoad,
  timer: Omit<Timer, 'isOn'>,
  unitRatePence: Float64Array,
): Generator<Tried> {
  const mask = hoursMask(timer.hours);
  const isAllowed = (fromNoon: number): boolean =>
    fromNoon < SLOTS_PER_DAY && mask[(fromNoon + SLOTS_PER_DAY / 2) % SLOTS_PER_DAY] === 1;
  const rateSums = new Float64Array(SLOTS_PER_DAY);
  const counts = new Int32Array(SLOTS_PER_DAY);
  for (const [i, at] of halfHoursFromNoon(load.localSerial).entries()) {
    rateSums[at]! += unitRatePence[i]!;
    counts[at]! += 1;
  }
  const endsFrom = endsTrier(load, halfHourKwh(timer.powerKw), unitRatePence);
  for (let from = 0; from < SLOTS_PER_DAY; from++) {
    let lastEnd = from;
    while (isAllowed(lastEnd)) lastEnd++;
    if (lastEnd === from) continue;
    const tried = endsFrom(from, lastEnd);
    let [rateSum, count] = [0, 0];
    for (let end = from + 1; end <= lastEnd; end++) {
      rateSum += rateSums[end - 1]!;
      count += counts[end - 1]!;
      if (count === 0) continue;
      const costPence = tried.costPence[end]!;
      const staysKwh = tried.staysKwh[end]!;
      const shortSessions = tried.shortSessions[end]!;
      yield { from, end, costPence, staysKwh, shortSessions, meanRatePence: rateSum / count };
    }
  }
}

function hoursFromNoon(from: number, end: number): TimerHours {
  if (end - from === SLOTS_PER_DAY) return { fromMinutes: 0, toMinutes: 1440 };
  const minutes = (fromNoon: number): number => (fromNoon * 30 + 720) % 1440;
  return { fromMinutes: minutes(from), toMinutes: minutes(end) === 0 ? 1440 : minutes(end) };
}

/** Whether hours are better than earlier ones; what is as good is not. */
function isBetter(a: Tried, b: Tried, margin: number): boolean {
  const costs = a.costPence - b.costPence;
  if (Math.abs(costs) > margin) return costs < 0;
  const stays = a.staysKwh - b.staysKwh;
  if (Math.abs(stays) > NO_KWH) return stays < 0;
  const rates = a.meanRatePence - b.meanRatePence;
  if (Math.abs(rates) > NO_KWH) return rates < 0;
  return a.end - a.from > b.end - b.from;
}
