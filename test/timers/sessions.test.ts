import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isoDateToSerial } from '../../src/time/serial.js';
import { sessionsOf } from '../../src/timers/sessions.js';
import { startsFrom, weekStarts } from './random-weeks.js';

describe('sessions from noon to noon', () => {
  it.each([
    [
      'the night in which London’s clock goes on',
      'Europe/London',
      Date.UTC(2026, 2, 28, 12),
      '2026-03-28',
      46,
    ],
    ['the night in which it goes back', 'Europe/London', Date.UTC(2026, 9, 24, 11), '2026-10-24', 50],
    ['a night of no change', 'Europe/London', Date.UTC(2026, 0, 5, 12), '2026-01-05', 48],
    [
      'the night in which Lord Howe’s clock goes back by half an hour',
      'Australia/Lord_Howe',
      Date.UTC(2026, 3, 4, 1),
      '2026-04-04',
      49,
    ],
  ])('%s has its own count of half-hours', (_, zone, firstUtcMs, date, halfHours) => {
    const [session, next] = sessionsOf(startsFrom(zone, firstUtcMs, 60));
    expect(session).toEqual({ noonSerial: isoDateToSerial(date) + 0.5, first: 0, end: halfHours });
    expect(next?.noonSerial).toBe(isoDateToSerial(date) + 1.5);
  });

  it('hold every half-hour just once, whatever the clock does', () => {
    fc.assert(
      fc.property(weekStarts, (localSerial) => {
        const sessions = sessionsOf(localSerial);
        expect(sessions[0]?.first).toBe(0);
        expect(sessions.at(-1)?.end).toBe(localSerial.length);
        for (const [k, { noonSerial, first, end }] of sessions.entries()) {
          expect(end).toBeGreaterThan(first);
          if (k > 0) expect(first).toBe(sessions[k - 1]!.end);
          const fromNoon = localSerial
            .subarray(first, end)
            .map((serial) => Math.round((serial - noonSerial) * 48));
          expect(Math.min(...fromNoon)).toBeGreaterThanOrEqual(0);
          expect(Math.max(...fromNoon)).toBeLessThan(48);
        }
      }),
      { seed: 12, numRuns: 60 },
    );
  });

  it('begin at a noon that lost its last digits', () => {
    expect(sessionsOf(Float64Array.of(46_023.499_999_9, 46_023.520_833_3))).toHaveLength(1);
  });

  it('refuse half-hours that go back to an earlier session', () => {
    expect(() => sessionsOf(Float64Array.of(46_024, 46_022))).toThrow(
      'localStart goes back or is missing in row 2',
    );
    expect(() => sessionsOf(Float64Array.of(Number.NaN))).toThrow('row 1');
  });
});
