import type { ZoneClock } from './zone-clock.js';

/**
 * The instant at which a local calendar day begins.
 *
 * @param clock clock of the zone, covering the day
 * @param localMidnightMs the day's 00:00 as wall-clock ms (as if UTC)
 * @returns epoch ms of the first 00:00, or of the clock change where that day has no 00:00
 * @example startOfLocalDay(new ZoneClock('Europe/London', a, b), Date.UTC(2026, 6, 1)) // 2026-06-30T23:00Z
 */
export function startOfLocalDay(clock: ZoneClock, localMidnightMs: number): number {
  const [first] = clock.instantsOf(localMidnightMs);
  if (first !== undefined) return first;
  const skippedBy = clock.changes.find(
    (change) =>
      clock.localMsAt(change.utcMs) > localMidnightMs && clock.localMsAt(change.utcMs - 1) < localMidnightMs,
  );
  if (skippedBy === undefined) throw new RangeError('the clock does not cover this day');
  return skippedBy.utcMs;
}
