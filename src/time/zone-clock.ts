import { tzOffset } from '@date-fns/tz';
import { InputError, type Place } from '../errors.js';
import { DAY_MS } from './serial.js';

/** One change of a zone's clock. */
export interface ClockChange {
  /** Instant from which the new offset holds, epoch ms. */
  utcMs: number;
  /** Offset from UTC before the change, minutes. */
  offsetBeforeMinutes: number;
  /** Offset from UTC from the change on, minutes. */
  offsetAfterMinutes: number;
}

const MINUTE_MS = 60_000;
/** Names that were found in the database: asking it takes longer than reading a small file. */
const KNOWN = new Set<string>();
// A fortnight is shorter than the time between any two clock changes of a zone in use (Morocco's month of
// fasting, the shortest, takes four weeks), so a fortnightly look finds each one. From memory.
const LOOK_STEP_MS = 14 * DAY_MS;

/**
 * Checks the name of a time zone.
 *
 * @param timeZone IANA name, for example `Europe/London`
 * @param place where it was found, for the message
 * @throws InputError when this machine's zone database has no such name
 */
export function assertTimeZone(timeZone: string, place: Place = {}): void {
  if (KNOWN.has(timeZone)) return;
  try {
    new Intl.DateTimeFormat('en', { timeZone });
    KNOWN.add(timeZone);
  } catch {
    throw new InputError(
      `"${timeZone}" is not a known time zone`,
      'Give an IANA name such as Europe/London or Australia/Sydney.',
      place,
    );
  }
}

/**
 * The clock of a zone over a span of time: quick to ask half-hour by half-hour, because the changes are found once.
 * Source: IANA time zone database, as shipped with Node.
 */
export class ZoneClock {
  readonly changes: readonly ClockChange[];
  private readonly firstOffsetMinutes: number;

  /**
   * @param timeZone IANA name
   * @param fromUtcMs start of the span, epoch ms
   * @param toUtcMs end of the span, epoch ms; asking beyond the span gives the offset at its nearer end
   * @throws InputError when the zone is unknown
   * @example new ZoneClock('Europe/London', Date.UTC(2026, 0, 1), Date.UTC(2027, 0, 1)).changes.length // 2
   */
  constructor(
    readonly timeZone: string,
    fromUtcMs: number,
    toUtcMs: number,
  ) {
    assertTimeZone(timeZone);
    const offsetAt = (utcMs: number): number => tzOffset(timeZone, new Date(utcMs));
    const changes: ClockChange[] = [];
    let at = fromUtcMs - 2 * DAY_MS;
    let offset = offsetAt(at);
    this.firstOffsetMinutes = offset;
    while (at < toUtcMs + 2 * DAY_MS) {
      const next = at + LOOK_STEP_MS;
      const nextOffset = offsetAt(next);
      if (nextOffset !== offset) {
        let low = at;
        let high = next;
        while (high - low > MINUTE_MS) {
          const middle = Math.floor((low + high) / 2 / MINUTE_MS) * MINUTE_MS;
          if (middle === low) break;
          if (offsetAt(middle) === offset) low = middle;
          else high = middle;
        }
        const utcMs = Math.floor(high / MINUTE_MS) * MINUTE_MS;
        changes.push({ utcMs, offsetBeforeMinutes: offset, offsetAfterMinutes: nextOffset });
        offset = nextOffset;
      }
      at = next;
    }
    this.changes = changes;
  }

  /** Offset from UTC in minutes at an instant (epoch ms). */
  offsetMinutesAt(utcMs: number): number {
    for (let i = this.changes.length - 1; i >= 0; i--) {
      const change = this.changes[i]!;
      if (utcMs >= change.utcMs) return change.offsetAfterMinutes;
    }
    return this.firstOffsetMinutes;
  }

  /** Wall-clock ms (as if UTC) at an instant (epoch ms). */
  localMsAt(utcMs: number): number {
    return utcMs + this.offsetMinutesAt(utcMs) * MINUTE_MS;
  }

  /**
   * The instants that carry a wall-clock label: none in the hour that spring skips, two in the hour that autumn repeats.
   *
   * @param localMs wall-clock ms, as if UTC
   * @returns epoch ms, earlier first
   */
  instantsOf(localMs: number): number[] {
    const offsets = new Set([this.firstOffsetMinutes, ...this.changes.map((c) => c.offsetAfterMinutes)]);
    return [...offsets]
      .map((offset) => localMs - offset * MINUTE_MS)
      .filter((utcMs) => this.localMsAt(utcMs) === localMs)
      .sort((a, b) => a - b);
  }
}
