import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { standingChargeOnTariff } from '../../src/charges/standing-charge.js';
import { rateGrid } from '../../src/tariffs/rate-grid.js';
import { priceYear, rateSeries } from '../../src/tariffs/rate-series.js';
import type { Tariff } from '../../src/tariffs/tariff.js';
import { parseTariffTable } from '../../src/tariffs/tariff-table.js';
import { unitRateAt } from '../../src/tariffs/unit-rate-at.js';
import { unitRatesAt } from '../../src/tariffs/unit-rates-at.js';
import { halfHourCalendar } from '../../src/time/half-hour-calendar.js';
import { HALF_HOUR_MS } from '../../src/time/serial.js';
import { tariffArbitrary } from './arbitraries.js';

const YEAR = 17_568;
const starts = (fromUtcMs: number, count = YEAR) =>
  Float64Array.from({ length: count }, (_, i) => fromUtcMs + i * HALF_HOUR_MS);
const london = halfHourCalendar(starts(Date.UTC(2025, 2, 31, 23)), 'Europe/London');
const sydney = halfHourCalendar(starts(Date.UTC(2025, 2, 31, 13)), 'Australia/Sydney');

/** Readings of a made-up year, kWh, some missing. */
const kwh = Float64Array.from({ length: YEAR }, (_, i) =>
  i % 97 === 0 ? Number.NaN : ((i * 7919) % 1000) / 500,
);
const few = { seed: 3, numRuns: 15 };
const close = (actual: number, expected: number) =>
  expect(Math.abs(actual - expected)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(expected)));

describe('the rates of a year', () => {
  it.each([london, sydney])(
    'equal the rate at each half-hour, by local and by UTC clock, in $timeZone',
    (calendar) => {
      fc.assert(
        fc.property(tariffArbitrary, (tariff) => {
          const rates = rateSeries({ ...tariff, includesVat: true }, calendar, 0.05);
          for (let i = 0; i < YEAR; i++) {
            const facts = { utcOffsetMinutes: calendar.utcOffsetMinutes[i]! };
            const rate = unitRateAt(tariff, calendar.localSerial[i]!, facts);
            if (rates[i] !== rate)
              expect.fail(`half-hour ${i}: ${rates[i]} in the series, ${rate} at the time`);
          }
        }),
        few,
      );
    },
  );

  it('equal the rates of a cell function over the same times', () => {
    fc.assert(
      fc.property(tariffArbitrary, (any) => {
        const tariff: Tariff = { ...any, clock: 'local', includesVat: true };
        expect(unitRatesAt(tariff, london.localSerial)).toEqual(rateSeries(tariff, london, 0));
      }),
      few,
    );
  });

  it('add VAT only where the rates are without', () => {
    const table = parseTariffTable([[null, null, null, 20, null, 0]]);
    expect(rateSeries(table, london, 0.05)[0]).toBe(20);
    expect(rateSeries({ ...table, includesVat: false }, london, 0.05)[0]).toBe(21);
  });

  it('add VAT to the half-hourly price only where the price is without, whatever the rates are', () => {
    const price = new Float64Array(YEAR).fill(10);
    const [with_, without] = [true, false].map((priceIncludesVat) => {
      const tariff = {
        ...parseTariffTable([[null, null, null, 2, null, 0]]),
        halfHourlyPriced: true,
        includesVat: false,
        priceIncludesVat,
      };
      const kwh = new Float64Array(YEAR).fill(1);
      return [
        rateSeries(tariff, london, 0.05, price)[0],
        priceYear(tariff, london, kwh, 0.05, price).energyPence / YEAR,
      ];
    });
    expect(with_?.map((rate) => Number(rate?.toFixed(9)))).toEqual([12.1, 12.1]);
    expect(without?.map((rate) => Number(rate?.toFixed(9)))).toEqual([12.6, 12.6]);
  });

  it('add the half-hourly price, and say what is unknown', () => {
    const tariff = {
      ...parseTariffTable([[null, null, null, 2, null, 0]]),
      halfHourlyPriced: true,
      includesVat: false,
      priceIncludesVat: false,
    };
    const price = Float64Array.from({ length: YEAR }, (_, i) => (i === 1 ? Number.NaN : i % 30));
    expect([...rateSeries(tariff, london, 0.05, price).subarray(0, 3)]).toEqual([2.1, Number.NaN, 4.2]);
    expect(priceYear(tariff, london, new Float64Array(YEAR).fill(1), 0.05, price).halfHoursWithoutPrice).toBe(
      1,
    );
    expect(() => rateSeries(tariff, london, 0.05)).toThrow(
      'takes its rate from half-hourly prices and there are none',
    );
    expect(() => rateSeries(tariff, london, 0.05, price.subarray(1))).toThrow(
      '17567 prices for 17568 half-hours',
    );
  });

  it('start anew at local midnight of the date, after the clocks have changed too', () => {
    const change = 46_113; // 1 April 2026 begins at 23:00 UTC.
    const tariff = parseTariffTable([
      [null, null, null, 20, null, 0],
      [null, null, null, 30, change, 0],
    ]);
    const year = halfHourCalendar(starts(Date.UTC(2026, 2, 31, 22), 4), 'Europe/London');
    expect([...rateSeries(tariff, year, 0)]).toEqual([20, 20, 30, 30]);
  });
});

describe('the cost of a year', () => {
  it('is the sum of reading × rate, and of its months', () => {
    fc.assert(
      fc.property(tariffArbitrary, (tariff) => {
        const rates = rateSeries(tariff, london, 0.05);
        const byMonth = new Float64Array(london.monthStartSerials.length);
        kwh.forEach((reading, i) => {
          if (!Number.isNaN(reading)) byMonth[london.monthIndex[i]!]! += reading * rates[i]!;
        });
        const priced = priceYear(tariff, london, kwh, 0.05);
        byMonth.forEach((pence, month) => {
          close(priced.energyPenceByMonth[month]!, pence);
        });
        close(
          priced.energyPence,
          byMonth.reduce((sum, pence) => sum + pence, 0),
        );
      }),
      few,
    );
  });

  it('is the cost of a single rate where every window has the base rate', () => {
    fc.assert(
      fc.property(tariffArbitrary, (any) => {
        const ratePeriods = any.ratePeriods.map((period) => ({
          ...period,
          windowRatesPence: period.windowRatesPence.map(() => period.baseRatePence),
        }));
        const flat = { ...any, ratePeriods };
        const single = {
          ...any,
          windows: [],
          ratePeriods: ratePeriods.map((period) => ({ ...period, windowRatesPence: [] })),
        };
        expect(priceYear(flat, london, kwh, 0.05)).toEqual(priceYear(single, london, kwh, 0.05));
      }),
      few,
    );
  });

  it('does not change when zone and windows move together', () => {
    // Kolkata is five and a half hours ahead all year: the same windows that much later are the same instants.
    const shiftMinutes = 330;
    const utc = halfHourCalendar(starts(Date.UTC(2025, 3, 1)), 'UTC');
    const kolkata = halfHourCalendar(starts(Date.UTC(2025, 3, 1)), 'Asia/Kolkata');
    fc.assert(
      fc.property(tariffArbitrary, (any) => {
        const tariff: Tariff = { ...any, clock: 'local', ratePeriods: any.ratePeriods.slice(0, 1) };
        const windows = tariff.windows.map((window) => {
          const from = window.fromMinutes + shiftMinutes;
          const to = window.toMinutes + shiftMinutes;
          const { days } = window;
          const movedDays = from < 1440 ? days : ([6, 0, 1, 2, 3, 4, 5].map((day) => days[day]) as never);
          return { fromMinutes: from % 1440, toMinutes: to % 1440, days: movedDays };
        });
        expect([...rateSeries({ ...tariff, windows }, kolkata, 0)]).toEqual([...rateSeries(tariff, utc, 0)]);
      }),
      few,
    );
  });

  it('counts as many readings as half-hours', () => {
    const tariff = parseTariffTable([[null, null, null, 20, null, 0]]);
    expect(() => priceYear(tariff, london, kwh.subarray(1), 0)).toThrow(
      '17567 readings for 17568 half-hours',
    );
  });
});

describe('the grid of the week', () => {
  it('gives the morning after to the window of the evening before', () => {
    const grid = rateGrid(
      parseTariffTable([
        [null, null, null, 20],
        [23.5 / 24, 0.5 / 24, 'Sun', 5],
      ]),
    );
    expect(grid[335]).toBe(1);
    expect(grid[0]).toBe(1);
    expect(grid.reduce((sum, band) => sum + band, 0)).toBe(2);
  });
});

describe('the standing charge of a tariff', () => {
  it('of a period is the sum over any cut of it', () => {
    fc.assert(
      fc.property(tariffArbitrary, fc.nat(900), fc.nat(200), fc.nat(200), (tariff, at, first, second) => {
        const from = 45_300 + at;
        const cut = from + first;
        const to = cut + 1 + second;
        close(
          standingChargeOnTariff(tariff, from, cut) + standingChargeOnTariff(tariff, cut + 1, to),
          standingChargeOnTariff(tariff, from, to),
        );
      }),
      { seed: 4 },
    );
  });
});
