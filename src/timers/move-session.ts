import { fitSession, type SessionFit } from './session-fit.js';
import type { Session } from './sessions.js';
import type { MovableLoad } from './timer.js';

/**
 * Moves the kWh of one session into the hours allowed, half-hour after half-hour in the order given, each up to the
 * power, until all is placed. What does not fit stays at the hours outside at which it was metered: each keeps the same
 * share of its kWh. Where more was metered within the hours than they hold at this power, nothing is moved. Common practice,
 * no source.
 *
 * @param load starts and kWh, one a half-hour
 * @param session which of them, places in the series
 * @param isAllowed flag of each half-hour of `load`
 * @param mostKwh kWh that a half-hour takes at the most
 * @param into receives the session's kWh, one a half-hour of `load`
 * @param inOrder puts the session's allowed half-hours into the order in which they are filled; by default that of time
 * @returns the session's kWh, and those that did not fit
 * @example moveSession(load, { noonSerial, first: 0, end: 48 }, isAllowed, 3.5, movedKwh).staysKwh // 0
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
  const fit = fitSession(insideKwh, outsideKwh, allowed.length * mostKwh);
  if (!fit.isMoved) {
    into.set(loadKwh.subarray(session.first, session.end), session.first);
    return fit;
  }
  for (let i = session.first; i < session.end; i++)
    into[i] = isAllowed[i] === 1 ? 0 : loadKwh[i]! * fit.share;
  let leftKwh = fit.energyKwh - fit.staysKwh;
  for (const i of inOrder(allowed)) {
    if (leftKwh <= 0) break;
    into[i] = Math.min(mostKwh, leftKwh);
    leftKwh -= mostKwh;
  }
  return fit;
}
