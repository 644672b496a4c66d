import type { Session } from './sessions.js';
import { type MovableLoad, NO_KWH } from './timer.js';

/** What hours and power hold of the kWh of one session. */
export interface SessionFit {
  /** All that the load took, kWh. */
  energyKwh: number;
  /** kWh that stay outside the hours, because they do not fit. */
  staysKwh: number;
}

/**
 * Moves the kWh of one session into the hours allowed, half-hour after half-hour in the order given, each up to the
 * power, until all is placed. What does not fit stays at the hours outside at which it was metered: each keeps the same
 * share of its kWh. Where more was metered within the hours than they hold at this power, nothing is moved.
 *
 * @param load kWh of each half-hour
 * @param session which of them
 * @param isAllowed flag of each half-hour of `load`
 * @param mostKwh kWh that a half-hour takes at the most
 * @param inOrder puts the session's allowed half-hours into the order in which they are filled; by default that of time
 * @param into receives the session's kWh, one a half-hour of `load`
 * @returns the session's kWh, and those that did not fit
 */
export function moveSession(
  load: MovableLoad,
  session: Session,
  isAllowed: Uint8Array,
  mostKwh: number,
  into: Float64Array,
  inOrder: (halfHours: number[]) => number[] = (halfHours) => halfHours,
): SessionFit {
  const { loadKwh } = load;
  const allowed: number[] = [];
  let [insideKwh, outsideKwh] = [0, 0];
  for (let i = session.first; i < session.end; i++) {
    if (isAllowed[i] === 1) {
      allowed.push(i);
      insideKwh += loadKwh[i]!;
    } else outsideKwh += loadKwh[i]!;
  }
  const energyKwh = insideKwh + outsideKwh;
  const roomKwh = allowed.length * mostKwh;
  if (insideKwh > roomKwh + NO_KWH) {
    into.set(loadKwh.subarray(session.first, session.end), session.first);
    return { energyKwh, staysKwh: outsideKwh };
  }
  const excessKwh = energyKwh - roomKwh;
  const staysKwh = excessKwh > NO_KWH ? Math.min(excessKwh, outsideKwh) : 0;
  const share = staysKwh > 0 ? staysKwh / outsideKwh : 0;
  for (let i = session.first; i < session.end; i++) into[i] = isAllowed[i] === 1 ? 0 : loadKwh[i]! * share;
  let leftKwh = energyKwh - staysKwh;
  for (const i of inOrder(allowed)) {
    if (leftKwh <= 0) break;
    into[i] = Math.min(mostKwh, leftKwh);
    leftKwh -= mostKwh;
  }
  return { energyKwh, staysKwh };
}
