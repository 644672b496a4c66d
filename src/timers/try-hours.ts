import { SLOTS_PER_DAY } from '../time/serial.js';
import { moveSession } from './move-session.js';
import { fitSession } from './session-fit.js';
import { type Session, sessionsOf } from './sessions.js';
import { type MovableLoad, NO_KWH, slotOfDay } from './timer.js';

/** What a load costs with a timer that starts at one half-hour, for each half-hour at which it may end. */
export interface TriedEnds {
  /** p over all sessions; index: half-hours from noon to the end. */
  costPence: Float64Array;
  /** kWh that do not fit. */
  staysKwh: Float64Array;
  /** Sessions with such kWh. */
  shortSessions: Int32Array;
}

/**
 * Tries timers on a load, all ends of a start at once: each end adds one half-hour to what the end before it held.
 * Equal to running `movedLoad` for each of them.
 *
 * @param load kWh of each half-hour, in order of time
 * @param mostKwh kWh that a half-hour takes at the most
 * @param unitRatePence p/kWh of each half-hour
 * @returns what takes a start and the last end, both in half-hours from noon, and gives the costs of every end between
 * @throws InputError when the half-hours are out of order
 * @example endsTrier(load, 3.5, rates)(25, 33).costPence[33] // from 00:30 to 04:30
 */
export function endsTrier(
  load: MovableLoad,
  mostKwh: number,
  unitRatePence: Float64Array,
): (from: number, lastEnd: number) => TriedEnds {
  const { localSerial, loadKwh } = load;
  const fromNoon = halfHoursFromNoon(localSerial);
  const sessions = sessionsOf(localSerial)
    .map((session) => tally(session, loadKwh, unitRatePence, fromNoon))
    .filter(({ kwh }) => kwh > 0);
  const movedKwh = new Float64Array(loadKwh.length);
  const isAllowed = new Uint8Array(loadKwh.length);

  return (from, lastEnd) => {
    const tried: TriedEnds = {
      costPence: new Float64Array(lastEnd + 1),
      staysKwh: new Float64Array(lastEnd + 1),
      shortSessions: new Int32Array(lastEnd + 1),
    };
    const add = (end: number, pence: number, staysKwh: number): void => {
      tried.costPence[end]! += pence;
      tried.staysKwh[end]! += staysKwh;
      if (staysKwh > NO_KWH) tried.shortSessions[end]! += 1;
    };
    for (const session of sessions) {
      if (session.goesBack) {
        for (let end = from + 1; end <= lastEnd; end++) {
          for (let i = session.first; i < session.end; i++) {
            isAllowed[i] = fromNoon[i]! >= from && fromNoon[i]! < end ? 1 : 0;
          }
          const { staysKwh } = moveSession(load, session, isAllowed, mostKwh, movedKwh);
          let pence = 0;
          for (let i = session.first; i < session.end; i++) pence += movedKwh[i]! * unitRatePence[i]!;
          add(end, pence, staysKwh);
        }
        continue;
      }
      let i = session.first;
      while (i < session.end && fromNoon[i]! < from) i++;
      let [roomKwh, insideKwh, insidePence, filledPence] = [0, 0, 0, 0];
      for (let end = from + 1; end <= lastEnd; end++) {
        for (; i < session.end && fromNoon[i]! < end; i++) {
          filledPence += Math.max(0, Math.min(mostKwh, session.kwh - roomKwh)) * unitRatePence[i]!;
          roomKwh += mostKwh;
          insideKwh += loadKwh[i]!;
          insidePence += loadKwh[i]! * unitRatePence[i]!;
        }
        const { staysKwh, share, isMoved } = fitSession(insideKwh, session.kwh - insideKwh, roomKwh);
        const pence = isMoved ? filledPence + share * (session.pence - insidePence) : session.pence;
        add(end, pence, staysKwh);
      }
    }
    return tried;
  };
}

/**
 * Place of each half-hour in its session by the clock.
 *
 * @param localSerial wall-clock starts, spreadsheet serials
 * @returns half-hours from noon, 0 to 47
 * @example halfHoursFromNoon(Float64Array.of(46_023.5, 46_024)) // 0 and 24
 */
export function halfHoursFromNoon(localSerial: Float64Array): Uint8Array {
  return Uint8Array.from(localSerial, (serial) => (slotOfDay(serial) + SLOTS_PER_DAY / 2) % SLOTS_PER_DAY);
}

interface TalliedSession extends Session {
  kwh: number;
  /** Cost as metered. */
  pence: number;
  /** The clock goes back in it: the order of time is not that of the clock. */
  goesBack: boolean;
}

function tally(
  session: Session,
  loadKwh: Float64Array,
  unitRatePence: Float64Array,
  fromNoon: Uint8Array,
): TalliedSession {
  let [kwh, pence, goesBack] = [0, 0, false];
  for (let i = session.first; i < session.end; i++) {
    kwh += loadKwh[i]!;
    pence += loadKwh[i]! * unitRatePence[i]!;
    if (i > session.first && fromNoon[i]! < fromNoon[i - 1]!) goesBack = true;
  }
  return { ...session, kwh, pence, goesBack };
}
