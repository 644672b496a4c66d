import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { offPeakKwh } from '../../src/shares/off-peak-kwh.js';
import { offPeakShare } from '../../src/shares/off-peak-share.js';
import { isInWindow } from '../../src/tariffs/is-in-window.js';
import { EVERY_DAY } from '../../src/tariffs/tariff.js';
import { parseTariffTable } from '../../src/tariffs/tariff-table.js';
import { unitRateAt } from '../../src/tariffs/unit-rate-at.js';
import { windowShare } from '../../src/tariffs/window-share.js';
import { windowArbitrary } from './arbitraries.js';

const night = { fromMinutes: 30, toMinutes: 270, days: EVERY_DAY };
const THURSDAY = 46_023;
const sundayNight = {
  fromMinutes: 1410,
  toMinutes: 60,
  days: [false, false, false, false, false, false, true] as const,
};
const SUNDAY = THURSDAY + 3;

describe('a time in a window', () => {
  it.each([
    [THURSDAY + 0.0208333, true], // 00:30, cut off at seven decimals
    [THURSDAY + 0.0208334, true],
    [THURSDAY + 1799 / 86_400, false],
    [THURSDAY + 4.5 / 24, false],
    [THURSDAY + 0.1875 - 1 / 86_400, true],
  ])('counts to the second: %d', (time, inside) => {
    expect(isInWindow(time, night)).toBe(inside);
  });

  it('across midnight belongs to the day on which the window starts', () => {
    expect(isInWindow(SUNDAY + 23.5 / 24, sundayNight)).toBe(true);
    expect(isInWindow(SUNDAY + 1.5 / 48 + 1, sundayNight)).toBe(true);
    expect(isInWindow(SUNDAY + 0.5 / 24, sundayNight)).toBe(false);
    expect(isInWindow(SUNDAY + 1 + 23.5 / 24, sundayNight)).toBe(false);
  });

  it('must be a time', () => {
    expect(() => isInWindow(Number.NaN, night)).toThrow('localTime is NaN');
  });
});

describe('the share of an interval in a window', () => {
  it('is the mean of being inside over its minutes', () => {
    fc.assert(
      fc.property(
        windowArbitrary,
        fc.nat(20_000),
        fc.integer({ min: 1, max: 1440 }),
        (window, at, minutes) => {
          const start = THURSDAY + at / 1440;
          let inside = 0;
          for (let minute = 0; minute < minutes; minute++) {
            if (isInWindow(start + minute / 1440, window)) inside++;
          }
          expect(windowShare(start, start + minutes / 1440, window)).toBeCloseTo(inside / minutes, 12);
        },
      ),
      { seed: 5, numRuns: 100 },
    );
  });

  it('needs an interval of up to a day', () => {
    expect(() => windowShare(THURSDAY, THURSDAY, night)).toThrow('within 24 hours');
    expect(() => windowShare(THURSDAY, THURSDAY + 1.1, night)).toThrow('within 24 hours');
  });
});

describe('energy in a window', () => {
  const times = Array.from({ length: 48 }, (_, slot) => THURSDAY + slot / 48);
  const kwh = times.map((_, slot) => slot + 1);

  it('and outside it add up to all of it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 47 }), (slot) => {
        const early = { fromMinutes: 0, toMinutes: slot * 30, days: EVERY_DAY };
        const late = { fromMinutes: slot * 30, toMinutes: 1440, days: EVERY_DAY };
        expect(offPeakKwh(times, kwh, early) + offPeakKwh(times, kwh, late)).toBe(1176);
        expect(offPeakShare(times, kwh, early) + offPeakShare(times, kwh, late)).toBeCloseTo(1, 12);
      }),
      { seed: 6 },
    );
  });

  it('is refused where readings are missing, of another length or nothing', () => {
    expect(() => offPeakKwh(times, kwh.slice(1), night)).toThrow('localStart has 48 rows and kwh has 47');
    expect(() => offPeakKwh([THURSDAY], [Number.NaN], night)).toThrow('kwh is missing in row 1');
    expect(() => offPeakShare([THURSDAY], [0], night)).toThrow('kwh adds up to 0');
  });
});

describe('the rate at a time', () => {
  const tariff = parseTariffTable([
    [null, null, null, 30],
    [0.5 / 24, 4.5 / 24, null, 9],
  ]);

  it('follows a UTC clock through summer time', () => {
    const july = 46_204 + 1.5 / 24; // 01:30 in London is 00:30 UTC
    expect(unitRateAt({ ...tariff, clock: 'utc' }, july, { utcOffsetMinutes: 60 })).toBe(9);
    expect(unitRateAt({ ...tariff, clock: 'utc' }, july - 1 / 24, { utcOffsetMinutes: 60 })).toBe(30);
    expect(() => unitRateAt({ ...tariff, clock: 'utc' }, july)).toThrow(
      'the offset of this time is not given',
    );
  });

  it('adds the half-hourly price, and refuses to guess it', () => {
    expect(unitRateAt({ ...tariff, halfHourlyPriced: true }, THURSDAY, { pricePence: -5 })).toBe(25);
    expect(() => unitRateAt({ ...tariff, halfHourlyPriced: true }, THURSDAY)).toThrow(
      'there is none for this time',
    );
  });
});
