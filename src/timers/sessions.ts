import { InputError } from '../errors.js';
import { LOOK_UP_MARGIN_DAYS } from '../time/serial.js';

/** One night with the afternoon before and the morning after it: from noon to noon by the home's clock. */
export interface Session {
  /** The noon at which it begins, spreadsheet serial. */
  noonSerial: number;
  /** Its first half-hour, place in the series. */
  first: number;
  /** One past its last half-hour. */
  end: number;
}

/**
 * Cuts half-hours into sessions from noon to noon, so that a night's charging is never cut in two. A whole one has 48
 * half-hours, 46 or 50 on the nights in which a clock changes by an hour. Common practice, no source.
 *
 * @param localSerial wall-clock start of each half-hour, spreadsheet serial, in order of time
 * @returns the sessions that have half-hours, in order, by their noon (serial) and places in the series; each half-hour is in
 *   just one
 * @throws InputError when a time is missing or a session comes back after a later one
 * @example sessionsOf(Float64Array.of(46_023.75, 46_024.25, 46_024.5)) // two: [0, 2) and [2, 3)
 */
export function sessionsOf(localSerial: Float64Array): Session[] {
  const sessions: Session[] = [];
  for (let i = 0; i < localSerial.length; i++) {
    const noonSerial = noonBefore(localSerial[i]!);
    const last = sessions.at(-1);
    if (last !== undefined && noonSerial === last.noonSerial) {
      last.end = i + 1;
      continue;
    }
    if (!(noonSerial > (last?.noonSerial ?? Number.NEGATIVE_INFINITY))) {
      throw new InputError(
        `localStart goes back or is missing in row ${i + 1}`,
        'Give every half-hour its start, sorted by time.',
        { line: i + 1 },
      );
    }
    sessions.push({ noonSerial, first: i, end: i + 1 });
  }
  return sessions;
}

/** The noon at or before a wall-clock time. A start a hair below noon is noon. */
function noonBefore(localSerial: number): number {
  return Math.floor(localSerial - 0.5 + LOOK_UP_MARGIN_DAYS) + 0.5;
}
