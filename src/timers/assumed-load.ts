import { requireNumber } from '../functions/require-number.js';
import { allowedHalfHours } from './moved-load.js';
import { sessionsOf } from './sessions.js';
import { assertColumn, type TimerHours } from './timer.js';

/** A load that no meter of its own reads. */
export interface AssumedHeating {
  /** kWh that it takes from noon to noon. */
  kwhPerDay: number;
  /** Hours at which it is heated today, by the home's clock. */
  hours: TimerHours;
}

/** What such a load is taken to have used. An assumption, and to be shown as one. */
export interface AssumedLoad {
  /** kWh of each half-hour, never more than was metered in it. */
  loadKwh: Float64Array;
  /** kWh of the days' assumption for which too little was metered at those hours. */
  missingKwh: number;
}

/**
 * The kWh of a load without a meter of its own, such as hot water: so much from noon to noon, heated at stated hours, spread
 * over them as the home's use was; never more than was metered then. An assumption; common practice, no source.
 *
 * @param localSerial wall-clock start of each half-hour, spreadsheet serial, in order of time
 * @param meteredKwh what could have been this load in each half-hour: the home's use less the loads with meters, kWh, 0 or
 *   more, one a half-hour
 * @param heating kWh from noon to noon, 0 or more, and the hours at which it is heated, minutes after midnight
 * @returns kWh of each half-hour, one a half-hour, and the kWh in all that the metered use had no room for
 * @throws InputError when lengths differ, an energy is missing or negative, a start is missing or of an earlier
 *   session, or the hours are off the half-hour or without a length
 * @example // Two half-hours of 3 and 1 kWh from 16:00 on, of which 2 kWh are taken to be hot water:
 *   assumedLoad(Float64Array.of(46_023 + 32 / 48, 46_023 + 33 / 48), Float64Array.of(3, 1), {
 *     kwhPerDay: 2,
 *     hours: { fromMinutes: 960, toMinutes: 1140 },
 *   }) // loadKwh 1.5 and 0.5, missingKwh 0
 */
export function assumedLoad(
  localSerial: Float64Array,
  meteredKwh: Float64Array,
  heating: AssumedHeating,
): AssumedLoad {
  assertColumn('meteredKwh', meteredKwh, localSerial.length, 0);
  const kwhPerDay = requireNumber(heating.kwhPerDay, 'kwhPerDay', 0);
  const isHeated = allowedHalfHours(localSerial, heating);
  const loadKwh = new Float64Array(localSerial.length);
  let missingKwh = 0;
  for (const { first, end } of sessionsOf(localSerial)) {
    let roomKwh = 0;
    for (let i = first; i < end; i++) roomKwh += isHeated[i]! * meteredKwh[i]!;
    const share = roomKwh > kwhPerDay ? kwhPerDay / roomKwh : 1;
    for (let i = first; i < end; i++) loadKwh[i] = isHeated[i]! * share * meteredKwh[i]!;
    // A session cut off at either end of the readings may lack the hours themselves: that is no shortage of use.
    if (isHeated.subarray(first, end).includes(1)) missingKwh += Math.max(0, kwhPerDay - roomKwh);
  }
  return { loadKwh, missingKwh };
}
