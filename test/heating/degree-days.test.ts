import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dailyDegreeDays } from '../../src/heating/daily-degree-days.js';
import { degreeDaysByMonth } from '../../src/heating/degree-days-by-month.js';
import { degreeDaysFromDailyMean } from '../../src/heating/degree-days-from-daily-mean.js';
import { degreeDaysFromMaxMin } from '../../src/heating/degree-days-from-max-min.js';
import { degreeDaysFromTemperatures } from '../../src/heating/degree-days-from-temperatures.js';
import { degreeDaysOverMaxMin } from '../../src/heating/degree-days-over-max-min.js';
import { isoDateToSerial } from '../../src/time/serial.js';
import { seattleDays, seattleNormalHours, sineDay, type WeatherDay } from './real-weather.js';

const BASE = 15.5;

describe('the Met Office equations as given in CIBSE TM41 (from memory)', () => {
  it.each([
    // max, min, degree days worked with a pencil
    ['maximum at or below the base: 15.5 − (10 + 4)/2', 10, 4, 8.5],
    ['maximum at the base: 15.5 − (15.5 + 5.5)/2', 15.5, 5.5, 5],
    ['mean below the base, maximum above: (15.5 − 9)/2 − (18 − 15.5)/4', 18, 9, 2.625],
    ['mean at the base: (15.5 − 11.5)/4', 19.5, 11.5, 1],
    ['mean above the base, minimum below: (15.5 − 13.5)/4', 21, 13.5, 0.5],
    ['minimum at or above the base', 25, 15.5, 0],
    ['a day without a swing', 12, 12, 3.5],
  ])('%s', (_, maxC, minC, expected) => {
    expect(degreeDaysFromMaxMin(maxC, minC, BASE)).toBeCloseTo(expected, 12);
  });

  it('refuse a maximum below the minimum', () => {
    expect(() => degreeDaysFromMaxMin(4, 10, BASE)).toThrow(
      "the day's maximum 4 °C is below its minimum 10 °C. Check the order of the two columns.",
    );
  });
});

/**
 * Degree days of a day that swings as a sine between its extremes: the integral in closed form.
 * With d = (base − mean)/swing: swing × (d × (π/2 + asin d) + √(1 − d²))/π where the day crosses the base.
 */
function sineDegreeDays({ maxC, minC }: WeatherDay, base: number): number {
  const mean = (maxC + minC) / 2;
  const swing = (maxC - minC) / 2;
  if (maxC <= base) return base - mean;
  if (minC >= base) return 0;
  const d = (base - mean) / swing;
  return (swing * (d * (Math.PI / 2 + Math.asin(d)) + Math.sqrt(1 - d * d))) / Math.PI;
}

describe('degree days of real weather, three ways (Seattle 2012–2015, NOAA, in vega-datasets)', () => {
  const days = seattleDays();
  const crosses = ({ maxC, minC }: WeatherDay): boolean => maxC > BASE && minC < BASE;
  const mean = ({ maxC, minC }: WeatherDay): number => degreeDaysFromDailyMean((maxC + minC) / 2, BASE);
  const equations = ({ maxC, minC }: WeatherDay): number => degreeDaysFromMaxMin(maxC, minC, BASE);
  const halfHours = (day: WeatherDay): number => degreeDaysFromTemperatures(sineDay(day, 48), BASE, 0.5);
  const sum = (of: (day: WeatherDay) => number): number => days.reduce((t, day) => t + of(day), 0);

  it('is four whole years with hundreds of days of each kind', () => {
    expect(days).toHaveLength(1461);
    const counts = [
      days.filter(({ maxC }) => maxC <= BASE).length,
      days.filter(crosses).length,
      days.filter(({ minC }) => minC >= BASE).length,
    ];
    expect(counts.reduce((a, b) => a + b)).toBe(1461);
    expect(Math.min(...counts.slice(0, 2))).toBeGreaterThan(500);
    expect(counts[2]).toBeGreaterThan(50);
  });

  it('are the same on days that stay on one side of the base', () => {
    for (const day of days.filter((d) => !crosses(d))) {
      expect(equations(day)).toBeCloseTo(mean(day), 12);
      expect(halfHours(day)).toBeCloseTo(mean(day), 12);
    }
  });

  it('differ on days that cross it by no more than each method predicts', () => {
    for (const day of days.filter(crosses)) {
      const swing = (day.maxC - day.minC) / 2;
      const exact = sineDegreeDays(day, BASE);
      // The mean misses the cold hours: never above the integral, below by at most swing/π (mean at the base).
      expect(mean(day)).toBeLessThanOrEqual(exact + 1e-12);
      expect(exact - mean(day)).toBeLessThanOrEqual(swing / Math.PI + 1e-12);
      // The equations replace the sine by straight lines: 1/π − 1/4 of the swing where the mean is at the base.
      expect(Math.abs(equations(day) - exact)).toBeLessThanOrEqual(swing * (1 / Math.PI - 1 / 4) + 1e-12);
      // Half-hours are the midpoint rule: its error is below slope × step²/8 at the two kinks.
      expect(Math.abs(halfHours(day) - exact)).toBeLessThanOrEqual((2 * Math.PI * swing) / 48 ** 2);
    }
  });

  it('so four years add up as predicted: half-hours and equations to the integral, the mean below both', () => {
    const exact = sum((day) => sineDegreeDays(day, BASE));
    expect(sum(halfHours) / exact).toBeCloseTo(1, 3);
    // The equations err both ways, by where the mean lies, and mostly cancel.
    expect(Math.abs(sum(equations) / exact - 1)).toBeLessThan(0.005);
    expect(sum(mean)).toBeLessThan(Math.min(sum(equations), exact));
    expect(exact - sum(mean)).toBeCloseTo(
      days.filter(crosses).reduce((t, day) => t + sineDegreeDays(day, BASE) - mean(day), 0),
      8,
    );
  });

  it('and the column functions give the sum of the days', () => {
    const maxima = days.map(({ maxC }) => maxC);
    const minima = days.map(({ minC }) => minC);
    expect(degreeDaysOverMaxMin(maxima, minima, BASE)).toBeCloseTo(sum(equations), 8);
    const means = days.map(({ maxC, minC }) => (maxC + minC) / 2);
    expect(degreeDaysFromTemperatures(means, BASE, 24)).toBeCloseTo(sum(mean), 8);
  });
});

describe('degree days of an average year hour by hour (NOAA hourly normals, in vega-datasets)', () => {
  const days = seattleNormalHours();

  it('are never below those of the daily mean, and equal where the day stays below the base', () => {
    expect(days.length).toBeGreaterThan(360);
    for (const hours of days) {
      const byHours = degreeDaysFromTemperatures(hours, BASE, 1);
      const byMean = degreeDaysFromDailyMean(hours.reduce((t, h) => t + h, 0) / 24, BASE);
      expect(byHours).toBeGreaterThanOrEqual(byMean - 1e-12);
      if (Math.max(...hours) <= BASE) expect(byHours).toBeCloseTo(byMean, 10);
    }
  });

  it('of the year lie within 5% of the equations on the days’ extremes', () => {
    const byHours = days.reduce((t, hours) => t + degreeDaysFromTemperatures(hours, BASE, 1), 0);
    const byExtremes = days.reduce(
      (t, hours) => t + degreeDaysFromMaxMin(Math.max(...hours), Math.min(...hours), BASE),
      0,
    );
    expect(byExtremes / byHours).toBeGreaterThan(0.95);
    expect(byExtremes / byHours).toBeLessThan(1.05);
  });
});

describe('laws of degree days', () => {
  const celsius = fc.double({ min: -20, max: 40, noNaN: true });
  const check = { seed: 20_240_115 };

  it('more base, more degree days, by at most a degree day a degree', () => {
    fc.assert(
      fc.property(celsius, fc.double({ min: 0, max: 20, noNaN: true }), celsius, (min, range, base) => {
        const low = degreeDaysFromMaxMin(min + range, min, base);
        const high = degreeDaysFromMaxMin(min + range, min, base + 1);
        expect(high).toBeGreaterThanOrEqual(low - 1e-9);
        expect(high - low).toBeLessThanOrEqual(1 + 1e-9);
      }),
      check,
    );
  });

  it('a period is the sum of its parts, whatever is missing', () => {
    const steps = fc.array(fc.oneof(celsius, fc.constant(Number.NaN)), { maxLength: 60 });
    fc.assert(
      fc.property(steps, steps, celsius, celsius, (first, second, one, base) => {
        const whole = degreeDaysFromTemperatures([...first, one, ...second, one], base, 0.5);
        const parts =
          degreeDaysFromTemperatures([...first, one], base, 0.5) +
          degreeDaysFromTemperatures([...second, one], base, 0.5);
        expect(whole).toBeCloseTo(parts, 9);
      }),
      check,
    );
  });

  it('finer steps of the same temperatures change nothing', () => {
    fc.assert(
      fc.property(fc.array(celsius, { minLength: 24, maxLength: 24 }), (hours) => {
        const halfHours = hours.flatMap((t) => [t, t]);
        expect(degreeDaysFromTemperatures(halfHours, BASE, 0.5)).toBeCloseTo(
          degreeDaysFromTemperatures(hours, BASE, 1),
          9,
        );
      }),
      check,
    );
  });
});

describe('degree days by month', () => {
  const day = (isoDate: string): number => isoDateToSerial(isoDate);

  it('count days without a temperature instead of filling them', () => {
    expect(
      degreeDaysByMonth(
        [
          { serialDay: day('2026-02-01'), meanC: 20 },
          { serialDay: day('2026-01-31'), meanC: 5.5 },
          { serialDay: day('2026-01-30'), maxC: 10, minC: 4 },
          { serialDay: day('2026-01-29'), maxC: Number.NaN, minC: 4 },
          { serialDay: day('2026-01-28'), halfHoursC: [5.5, Number.NaN] },
          { serialDay: day('2026-01-27'), halfHoursC: new Float64Array(48).fill(10.5) },
        ],
        BASE,
      ),
    ).toEqual([
      { monthSerial: day('2026-01-01'), degreeDays: 10 + 8.5 + 5, daysWithTemperature: 3 },
      { monthSerial: day('2026-02-01'), degreeDays: 0, daysWithTemperature: 1 },
    ]);
  });

  it('take the finest temperatures that a day has in full', () => {
    const known = { serialDay: 46023, meanC: 13, maxC: 18, minC: 9 };
    const halfHoursC = new Float64Array(48).fill(12.5);
    expect(dailyDegreeDays({ ...known, halfHoursC }, BASE)).toEqual({ degreeDays: 3, method: 'half-hours' });
    halfHoursC[7] = Number.NaN;
    expect(dailyDegreeDays({ ...known, halfHoursC }, BASE)).toEqual({
      degreeDays: 2.625,
      method: 'maximum and minimum',
    });
    expect(dailyDegreeDays({ ...known, minC: Number.NaN }, BASE)).toEqual({
      degreeDays: 2.5,
      method: 'mean',
    });
    expect(dailyDegreeDays({ serialDay: 46023 }, BASE)).toBeNull();
  });

  it('are the same whatever the order of the days', () => {
    const days = seattleDays();
    expect(degreeDaysByMonth([...days].reverse(), BASE)).toEqual(degreeDaysByMonth(days, BASE));
    expect(degreeDaysByMonth(days, BASE)).toHaveLength(48);
  });

  it('weigh a clock-change day by its own hours', () => {
    const ofDay = (halfHours: number): number | undefined =>
      dailyDegreeDays({ serialDay: 0, halfHoursC: new Float64Array(halfHours).fill(5.5) }, BASE)?.degreeDays;
    expect([46, 48, 50].map(ofDay)).toEqual([(10 * 23) / 24, 10, (10 * 25) / 24]);
  });
});
