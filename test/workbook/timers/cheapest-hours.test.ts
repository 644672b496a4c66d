import fc from 'fast-check';
import { expect, it } from 'vitest';
import { rateSeries } from '../../../src/tariffs/rate-series.js';
import type { Tariff, Weekdays } from '../../../src/tariffs/tariff.js';
import { halfHourCalendar } from '../../../src/time/half-hour-calendar.js';
import { cheapestHours } from '../../../src/timers/cheapest-hours.js';
import { randomRows, workingsCase } from '../workings/workings-case.js';
import { FLAT } from './timer-homes.js';

/** Whole weeks of British summer time, in which a clock that stays with UTC is an hour behind. */
const DAYS = 14;
const ZONE = 'Europe/London';
const FIRST = Date.UTC(2026, 5, 30, 23);
const NOON = 24;
const VAT = 0.05;
const everyDay: Weekdays = [true, true, true, true, true, true, true];
const weekend: Weekdays = [false, false, false, false, false, true, true];

const windowsOf = (clock: Tariff['clock'], first: number, second: number, onWeekend: number): Tariff => {
  const window = (from: number, halfHours: number, days: Weekdays) => {
    const to = (from + halfHours) % 48;
    return { fromMinutes: from * 30, toMinutes: to === 0 ? 1440 : to * 30, days };
  };
  return {
    ...FLAT,
    clock,
    windows: [window(first, 6, everyDay), window(second, 9, everyDay), window(onWeekend, 5, weekend)],
    ratePeriods: FLAT.ratePeriods.map((period) => ({ ...period, windowRatesPence: [7, 41, 3] })),
  };
};

it('finds the hours that the library finds at constant rates, by either clock, with windows on some days', () => {
  const rows = randomRows(1, ZONE, FIRST, DAYS);
  const calendar = halfHourCalendar(rows.startUtcMs, rows.zone);
  const slot = fc.integer({ min: 0, max: 47 });
  let bounded = 0;
  fc.assert(
    fc.property(
      fc.record({
        from: slot,
        length: fc.integer({ min: 1, max: 48 }),
        first: slot,
        gap: fc.integer({ min: 0, max: 14 }),
        gapBeforeWeekend: fc.integer({ min: 0, max: 14 }),
      }),
      ({ from, length, first, gap, gapBeforeWeekend }) => {
        // Windows may not overlap.
        const second = (first + 6 + gap) % 48;
        const onWeekend = (second + 9 + gapBeforeWeekend) % 48;
        const to = (from + length) % 48 === 0 ? 48 : (from + length) % 48;
        if (to === from) return;
        const tariffs = (['local', 'utc'] as const).map((clock) =>
          windowsOf(clock, first, second, onWeekend),
        );
        const car = { isOn: 'no', from: from / 48, to: to / 48, powerKw: 7.2 };
        const found = workingsCase(rows, tariffs, { days: DAYS, vatShare: VAT, timers: { car } });
        tariffs.forEach((tariff, t) => {
          const { fromNoon, length: count } = found.workings.timerHours.car[t]!;
          const begins = Number(found.of(fromNoon));
          const halfHours = Number(found.of(count));
          // Without any kWh the library finds the hours by their rates alone.
          const { hours } = cheapestHours(
            { localSerial: calendar.localSerial, loadKwh: new Float64Array(rows.startUtcMs.length) },
            { hours: { fromMinutes: from * 30, toMinutes: to * 30 }, powerKw: 7.2 },
            rateSeries(tariff, calendar, VAT),
          );
          expect(hours).toBeDefined();
          if (halfHours < length) bounded++;
          expect([tariff.clock, begins, halfHours]).toEqual([
            tariff.clock,
            (hours!.fromMinutes / 30 + NOON) % 48,
            ((hours!.toMinutes - hours!.fromMinutes + 1440 - 30) % 1440) / 30 + 1,
          ]);
        });
      },
    ),
    { seed: 31, numRuns: 25 },
  );
  expect(bounded).toBeGreaterThan(0);
});

it('finds, by a half-hourly price that windows add to, the stretch that a usual session needs at the lowest mean of both', () => {
  const calendar = halfHourCalendar(randomRows(1, ZONE, FIRST, DAYS).startUtcMs, ZONE);
  const slots = Array.from(calendar.localSerial, (start) => Math.round((start % 1) * 48) % 48);
  const slot = fc.integer({ min: 0, max: 47 });
  let changedByWindows = 0;
  fc.assert(
    fc.property(
      fc.record({
        seed: fc.integer({ min: 1, max: 1_000_000 }),
        from: fc.integer({ min: NOON, max: 40 }),
        length: fc.integer({ min: 12, max: 28 }),
        first: slot,
      }),
      ({ seed, from, length, first }) => {
        const rows = randomRows(seed, ZONE, FIRST, DAYS);
        const powerKw = 1.4;
        const windowed: Tariff = {
          ...windowsOf('local', first, (first + 10) % 48, (first + 25) % 48),
          halfHourlyPriced: true,
        };
        const plain: Tariff = { ...FLAT, halfHourlyPriced: true };
        // Hours from noon on that end before the next noon.
        const count = Math.min(length, NOON + 48 - from);
        const to = (from + count) % 48 === 0 ? 48 : (from + count) % 48;
        const car = { isOn: 'no', from: from / 48, to: to / 48, powerKw };
        const found = workingsCase(rows, [plain, windowed], { days: DAYS, vatShare: VAT, timers: { car } });
        const hours = [plain, windowed].map((tariff, t) => {
          const ratePence = rateSeries(tariff, calendar, VAT, rows.channels.pricePence);
          const meanOf = (fromNoon: number): number => {
            const ofSlot = ratePence.filter((_, i) => slots[i] === (NOON + fromNoon) % 48);
            return ofSlot.reduce((sum, rate) => sum + rate, 0) / ofSlot.length;
          };
          const means = Array.from({ length: 48 }, (_, fromNoon) => meanOf(fromNoon));
          const { fromNoon: begins, length: lasts } = found.workings.timerHours.car[t]!;
          const [place, needed] = [Number(found.of(begins)), Number(found.of(lasts))];
          const sumFrom = (at: number): number =>
            means.slice(at, at + needed).reduce((sum, mean) => sum + mean, 0);
          const places = Array.from({ length: count - needed + 1 }, (_, i) => from - NOON + i);
          if (places.length === 0) return place;
          expect(places).toContain(place);
          expect(sumFrom(place)).toBeCloseTo(Math.min(...places.map(sumFrom)), 6);
          return place;
        });
        if (hours[0] !== hours[1]) changedByWindows++;
      },
    ),
    { seed: 32, numRuns: 20 },
  );
  expect(changedByWindows).toBeGreaterThan(0);
});
