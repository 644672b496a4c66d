import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rateSeries } from '../../../src/tariffs/rate-series.js';
import type { Tariff, Weekdays } from '../../../src/tariffs/tariff.js';
import { halfHourCalendar } from '../../../src/time/half-hour-calendar.js';
import { leastCostOfLoad, loadCost } from '../../../src/timers/least-cost-of-load.js';
import { movedLoad } from '../../../src/timers/moved-load.js';
import { randomRows, type TimerCase, workingsCase } from '../workings/workings-case.js';
import { FLAT, NIGHTS, PLACES, PRICE } from './timer-homes.js';

const DAYS = 12;
const NONE = new Float64Array(0);
const TARIFFS = [FLAT, NIGHTS, PRICE];
const VAT = 0.05;

const caseArbitrary = fc.record({
  place: fc.constantFrom(...PLACES),
  seed: fc.integer({ min: 1, max: 1_000_000 }),
  from: fc.integer({ min: 0, max: 47 }),
  length: fc.integer({ min: 1, max: 47 }),
  powerKw: fc.constantFrom(3.6, 7.2, 11),
  isOn: fc.boolean(),
});

describe('what the car’s timer changes on every tariff', () => {
  it('is the bill with the timer less the bill without, and the car’s cost at the unit rates', () => {
    fc.assert(
      fc.property(caseArbitrary, ({ place, seed, from, length, powerKw, isOn }) => {
        const rows = randomRows(seed, place.zone, place.first, DAYS);
        const to = (from + length) % 48 === 0 ? 48 : (from + length) % 48;
        const car: TimerCase = { isOn: isOn ? 'yes' : 'no', from: from / 48, to: to / 48, powerKw };
        const found = workingsCase(rows, TARIFFS, { days: DAYS, vatShare: VAT, timers: { car } });
        const off = workingsCase(rows, TARIFFS, { days: DAYS, vatShare: VAT });
        const calendar = halfHourCalendar(rows.startUtcMs, rows.zone);
        const loadKwh = rows.channels.carKwh ?? NONE;
        const load = { localSerial: calendar.localSerial, loadKwh };
        const timer = { isOn, hours: { fromMinutes: from * 30, toMinutes: to * 30 }, powerKw };
        const { movedKwh } = movedLoad(load, timer);
        TARIFFS.forEach((tariff, t) => {
          const lines = found.workings.tariffs[t]!;
          expect(found.period(lines.timerMonths.totalAsMetered)).toBe(
            off.period(off.workings.tariffs[t]!.months.total),
          );
          if (!isOn) {
            expect(found.period(lines.months.total)).toBe(off.period(off.workings.tariffs[t]!.months.total));
          }
          const unitRatePence = rateSeries(
            tariff,
            calendar,
            VAT,
            tariff.halfHourlyPriced ? rows.channels.pricePence : undefined,
          );
          const { pence, changePence, beyondLeast } = lines.timerMonths.car;
          const [nowPence, change, beyond] = [pence, changePence, beyondLeast].map((line) =>
            Number(found.of(line)),
          ) as [number, number, number];
          expect(nowPence).toBeCloseTo(loadCost(movedKwh, unitRatePence), 6);
          expect(nowPence - change).toBeCloseTo(loadCost(loadKwh, unitRatePence), 6);
          const least = leastCostOfLoad(load, timer, unitRatePence);
          // What can't be told counts as it is: never below the least.
          expect(nowPence - beyond).toBeGreaterThan(least.costPence - 1e-6);
        });
      }),
      { seed: 21, numRuns: 15 },
    );
  });

  it.each([
    ['Asia/Kathmandu', Date.UTC(2026, 5, 30, 18, 15), NIGHTS],
    // The home's clock is ahead of the tariff's: the week by UTC begins on its last evening.
    ['Europe/London', Date.UTC(2026, 5, 30, 23), { ...NIGHTS, clock: 'utc' }],
    ['America/New_York', Date.UTC(2026, 5, 30, 4), { ...NIGHTS, clock: 'utc' }],
  ] as const)(
    'reaches the least of the library where no clock and no rate changes and everything fits: %s',
    (zone, first, nights) => {
      const tariffs = [FLAT, nights, PRICE];
      let withSomethingToSave = 0;
      fc.assert(
        fc.property(
          fc.record({
            seed: fc.integer({ min: 1, max: 1_000_000 }),
            from: fc.integer({ min: 24, max: 47 }),
            length: fc.integer({ min: 6, max: 24 }),
            isOn: fc.boolean(),
          }),
          ({ seed, from, length, isOn }) => {
            const rows = randomRows(seed, zone, first, DAYS);
            const calendar = halfHourCalendar(rows.startUtcMs, rows.zone);
            const { localSerial } = calendar;
            // Whole sessions only: nothing before the first noon, nothing after the last.
            const loadKwh = (rows.channels.carKwh ?? NONE).map((kwh, i) =>
              localSerial[i]! > localSerial[0]! + 0.49 && localSerial[i]! < localSerial.at(-1)! - 0.49
                ? kwh
                : 0,
            );
            rows.channels.carKwh = loadKwh;
            const to = (from + length) % 48;
            const car: TimerCase = { isOn: isOn ? 'yes' : 'no', from: from / 48, to: to / 48, powerKw: 22 };
            const found = workingsCase(rows, tariffs, { days: DAYS, vatShare: VAT, timers: { car } });
            const timer = { hours: { fromMinutes: from * 30, toMinutes: to * 30 }, powerKw: 22 };
            tariffs.forEach((tariff, t) => {
              const unitRatePence = rateSeries(
                tariff,
                calendar,
                VAT,
                tariff.halfHourlyPriced ? rows.channels.pricePence : undefined,
              );
              const least = leastCostOfLoad({ localSerial, loadKwh }, timer, unitRatePence);
              if (least.staysKwh > 0) return;
              const { pence, beyondLeast } = found.workings.tariffs[t]!.timerMonths.car;
              if (tariff === nights && !isOn && loadCost(loadKwh, unitRatePence) > least.costPence + 1) {
                expect(Number(found.of(beyondLeast))).toBeGreaterThan(0);
                withSomethingToSave++;
              }
              expect(Number(found.of(pence)) - Number(found.of(beyondLeast))).toBeCloseTo(least.costPence, 6);
            });
          },
        ),
        { seed: 22, numRuns: 20 },
      );
      expect(withSomethingToSave).toBeGreaterThan(0);
    },
  );

  it('tells the least by a half-hourly price in sessions that no window of the tariff’s own is in, and of no others', () => {
    const rows = randomRows(3, 'Asia/Kathmandu', Date.UTC(2026, 5, 30, 18, 15), DAYS);
    const calendar = halfHourCalendar(rows.startUtcMs, rows.zone);
    const { localSerial } = calendar;
    const loadKwh = rows.channels.carKwh ?? NONE;
    const weekend: Weekdays = [false, false, false, false, false, true, true];
    const tariff: Tariff = {
      ...PRICE,
      windows: [{ fromMinutes: 900, toMinutes: 1080, days: weekend }],
      ratePeriods: PRICE.ratePeriods.map((period) => ({ ...period, windowRatesPence: [40] })),
    };
    const car: TimerCase = { isOn: 'no', from: 18 / 24, to: 8 / 24, powerKw: 22 };
    const found = workingsCase(rows, [tariff], { days: DAYS, vatShare: VAT, timers: { car } });
    const timer = { hours: { fromMinutes: 1080, toMinutes: 480 }, powerKw: 22 };
    const unitRatePence = rateSeries(tariff, calendar, VAT, rows.channels.pricePence);
    const { movedKwh } = leastCostOfLoad({ localSerial, loadKwh }, timer, unitRatePence);
    const { lastRate, beyondLeast } = found.workings.tariffs[0]!.timerDays.car;
    const firstNoon = Math.floor(localSerial[0]! + 1e-6) + 0.5;
    let told = 0;
    for (let session = 0; session < DAYS - 1; session++) {
      const halfHours = Array.from(localSerial.keys()).filter(
        (i) => Math.floor(localSerial[i]! - firstNoon + 1e-6) === session,
      );
      if (halfHours.every((i) => loadKwh[i] === 0)) continue;
      // Serial 1 is a Sunday: 0 and 1 from the weekend on.
      const isWeekend = Math.floor(firstNoon + session) % 7 < 2;
      expect(found.at(lastRate, session) === '').toBe(isWeekend);
      const beyondPence = halfHours.reduce(
        (sum, i) => sum + (loadKwh[i]! - movedKwh[i]!) * unitRatePence[i]!,
        0,
      );
      expect(Number(found.at(beyondLeast, session))).toBeCloseTo(isWeekend ? 0 : beyondPence, 6);
      if (!isWeekend && Math.abs(beyondPence) > 1) told++;
    }
    expect(told).toBeGreaterThan(3);
  });
});
