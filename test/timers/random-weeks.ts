import fc from 'fast-check';
import { halfHourCalendar } from '../../src/time/half-hour-calendar.js';
import { HALF_HOUR_MS } from '../../src/time/serial.js';
import type { MovableLoad, Timer, TimerHours } from '../../src/timers/timer.js';

/** Weeks that begin some days before a clock goes on or back, and one of no change. Instants, epoch ms. */
const WEEKS = [
  { zone: 'Europe/London', utcMs: Date.UTC(2026, 2, 26) },
  { zone: 'Europe/London', utcMs: Date.UTC(2026, 9, 21, 23) },
  { zone: 'America/New_York', utcMs: Date.UTC(2026, 9, 29, 4) },
  { zone: 'Australia/Lord_Howe', utcMs: Date.UTC(2026, 3, 1, 13) },
  { zone: 'Australia/Lord_Howe', utcMs: Date.UTC(2026, 9, 1, 13, 30) },
  { zone: 'Asia/Kolkata', utcMs: Date.UTC(2026, 0, 9, 18, 30) },
] as const;

/**
 * Wall-clock starts of half-hours one after the other.
 *
 * @param zone IANA name
 * @param firstUtcMs start of the first, epoch ms
 * @param count how many
 */
export function startsFrom(zone: string, firstUtcMs: number, count: number): Float64Array {
  const starts = Float64Array.from({ length: count }, (_, i) => firstUtcMs + i * HALF_HOUR_MS);
  return halfHourCalendar(starts, zone).localSerial;
}

/** Starts of a week, at times with some half-hours missing. */
export const weekStarts: fc.Arbitrary<Float64Array> = fc
  .record({
    week: fc.constantFrom(...WEEKS),
    offset: fc.integer({ min: 0, max: 47 }),
    missing: fc.oneof(
      fc.constant<number[]>([]),
      fc.uniqueArray(fc.integer({ min: 0, max: 335 }), { maxLength: 40 }),
    ),
  })
  .map(({ week, offset, missing }) =>
    startsFrom(week.zone, week.utcMs + offset * HALF_HOUR_MS, 336).filter((_, i) => !missing.includes(i)),
  );

/** kWh in thousandths, most of them 0: a load runs in few half-hours. */
const loadKwh = fc.oneof(
  { weight: 5, arbitrary: fc.constant(0) },
  { weight: 1, arbitrary: fc.integer({ min: 1, max: 4000 }).map((wh) => wh / 1000) },
);

/** A load over a week in which a clock may change. */
export const weekLoad: fc.Arbitrary<MovableLoad> = weekStarts.chain((localSerial) =>
  fc
    .array(loadKwh, { minLength: localSerial.length, maxLength: localSerial.length })
    .map((kwh) => ({ localSerial, loadKwh: Float64Array.from(kwh) })),
);

/** Hours of the day of any length, often across midnight, now and then across noon. */
export const anyHours: fc.Arbitrary<TimerHours> = fc
  .tuple(fc.integer({ min: 0, max: 47 }), fc.integer({ min: 1, max: 48 }))
  .map(([first, length]) => {
    const end = (first + length) % 48;
    const last = end === first && first !== 0 ? end - 1 : end;
    return { fromMinutes: first * 30, toMinutes: last === 0 ? 1440 : last * 30 };
  });

export const anyTimer: fc.Arbitrary<Timer> = fc
  .tuple(anyHours, fc.integer({ min: 5, max: 110 }))
  .map(([hours, tenths]) => ({ isOn: true, hours, powerKw: tenths / 10 }));

/** Unit rates: a few bands by the time of day, or a price for each half-hour, at times below 0. */
export const ratesOf = (localSerial: Float64Array): fc.Arbitrary<Float64Array> =>
  fc.oneof(
    dailyRates.map((ofDay) =>
      localSerial.map((serial) => ofDay[Math.round((serial - Math.floor(serial)) * 48) % 48]!),
    ),
    fc
      .array(
        fc.integer({ min: -500, max: 6000 }).map((n) => n / 100),
        { minLength: localSerial.length, maxLength: localSerial.length },
      )
      .map((rates) => Float64Array.from(rates)),
  );

/** Rates of the 48 half-hours of a day in up to four bands, the same every day, p/kWh. */
export const dailyRates: fc.Arbitrary<number[]> = fc
  .tuple(
    fc.array(
      fc.integer({ min: -200, max: 5000 }).map((n) => n / 100),
      { minLength: 1, maxLength: 4 },
    ),
    fc.array(fc.integer({ min: 0, max: 47 }), { minLength: 1, maxLength: 4 }),
  )
  .map(([bands, edges]) => {
    const sorted = edges.toSorted((a, b) => a - b);
    return Array.from(
      { length: 48 },
      (_, slot) => bands[sorted.filter((edge) => edge <= slot).length % bands.length]!,
    );
  });

/** kWh of each session, cut at noon by hand: the sum over the rows whose time less twelve hours falls on a date. */
export function kwhBySession(localSerial: Float64Array, kwh: Float64Array): Map<number, number> {
  const sums = new Map<number, number>();
  for (const [i, serial] of localSerial.entries()) {
    const session = Math.floor(serial - 0.5 + 1e-6);
    sums.set(session, (sums.get(session) ?? 0) + kwh[i]!);
  }
  return sums;
}
