import { moveSession } from './move-session.js';
import { sessionsOf } from './sessions.js';
import {
  assertLoad,
  halfHourKwh,
  hoursMask,
  type MovableLoad,
  NO_KWH,
  slotOfDay,
  type Timer,
} from './timer.js';

/** A load at other hours than it was metered. */
export interface MovedLoad {
  /** kWh of each half-hour; every session has the kWh that it had. */
  movedKwh: Float64Array;
  /** kWh that did not fit into the hours and stay where they were metered. */
  staysKwh: number;
  /** Sessions with such kWh: by the timer alone a car would leave with less than it took. */
  shortSessions: number;
  /** Sessions in which the load took anything. */
  sessions: number;
}

/**
 * What a load takes half-hour by half-hour with a timer: in each session from noon to noon it starts with the hours
 * allowed and runs at its power until it has the kWh that it took. What does not fit stays at the hours it was metered;
 * see {@link moveSession}. Hours that span noon are filled from noon on, then from their start on. Common practice, no
 * source.
 *
 * @param load starts and kWh, one a half-hour, in order of time, as in {@link MovableLoad}
 * @param timer hours in minutes after midnight and power in kW; off: the same kWh, bit for bit
 * @returns kWh of each half-hour, the kWh that did not fit, and counts of sessions
 * @throws InputError when lengths differ, an energy is missing or negative, a start is missing or of an
 *   earlier session, the power is not above 0, or the hours are off the half-hour or without a length
 * @example // 5 kWh at tea-time move into the night, 3.5 kWh a half-hour:
 *   const load = { localSerial: Float64Array.of(46_000.75, 46_001, 46_001 + 1 / 48), loadKwh: Float64Array.of(5, 0, 0) };
 *   const timer = { isOn: true, hours: { fromMinutes: 0, toMinutes: 60 }, powerKw: 7 };
 *   movedLoad(load, timer).movedKwh // 0, 3.5 and 1.5
 */
export function movedLoad(load: MovableLoad, timer: Timer): MovedLoad {
  const moved = moveLoad(load, timer);
  return timer.isOn ? moved : { ...moved, movedKwh: load.loadKwh.slice(), staysKwh: 0, shortSessions: 0 };
}

/**
 * Moves a load, the half-hours of each session filled in any order. Common practice, no source.
 *
 * @param load starts and kWh, one a half-hour, in order of time, as in {@link MovableLoad}
 * @param timer its hours, minutes after midnight, and power, kW
 * @param inOrder puts a session's allowed half-hours, places in the series, into the order in which they are filled; by default
 *   that of time
 * @returns kWh of each half-hour, the kWh that did not fit, and counts of sessions
 * @throws InputError when lengths differ, an energy is missing or negative, a start is missing or of an
 *   earlier session, the power is not above 0, or the hours are off the half-hour or without a length
 * @example moveLoad(load, timer, (halfHours) => halfHours.toReversed()) // as late as it can be
 */
export function moveLoad(
  load: MovableLoad,
  timer: Omit<Timer, 'isOn'>,
  inOrder?: (halfHours: number[]) => number[],
): MovedLoad {
  assertLoad(load);
  const mostKwh = halfHourKwh(timer.powerKw);
  const isAllowed = allowedHalfHours(load.localSerial, timer);
  const movedKwh = new Float64Array(load.loadKwh.length);
  const moved: MovedLoad = { movedKwh, staysKwh: 0, shortSessions: 0, sessions: 0 };
  for (const session of sessionsOf(load.localSerial)) {
    const { energyKwh, staysKwh } = moveSession(load, session, isAllowed, mostKwh, movedKwh, inOrder);
    if (energyKwh > NO_KWH) moved.sessions++;
    if (staysKwh > NO_KWH) moved.shortSessions++;
    moved.staysKwh += staysKwh;
  }
  return moved;
}

/**
 * Which half-hours are within the hours of a timer. Source: arithmetic.
 *
 * @param localSerial wall-clock start of each half-hour, spreadsheet serial
 * @param timer its hours, minutes after midnight
 * @returns flags, one a half-hour: 1 within, 0 outside
 * @throws InputError when the hours are off the half-hour or without a length
 * @example allowedHalfHours(Float64Array.of(46_023.5), { hours: { fromMinutes: 720, toMinutes: 750 } }) // [1]
 */
export function allowedHalfHours(localSerial: Float64Array, timer: Pick<Timer, 'hours'>): Uint8Array {
  const mask = hoursMask(timer.hours);
  return Uint8Array.from(localSerial, (serial) => mask[slotOfDay(serial)]!);
}
