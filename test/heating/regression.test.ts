import fc from 'fast-check';
import { linearRegression, linearRegressionLine, rSquared } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { adjustUseToDegreeDays } from '../../src/heating/adjust-use-to-degree-days.js';
import { fitDailyUse, fitUseToDegreeDays } from '../../src/heating/fit-use-to-degree-days.js';
import { predictUse } from '../../src/heating/predict-use.js';
import { twoSidedTQuantile } from '../../src/heating/two-sided-t-quantile.js';
import { seededRandom } from '../../src/sample/seeded-random.js';

// NIST Statistical Reference Datasets, linear regression, "Norris": [y, x]. Written down from memory: the certified
// figures below close on them, which they would not if a value were wrong.
const NORRIS: readonly (readonly [number, number])[] = [
  [0.1, 0.2],
  [338.8, 337.4],
  [118.1, 118.2],
  [888.0, 884.6],
  [9.2, 10.1],
  [228.1, 226.5],
  [668.5, 666.3],
  [998.5, 996.3],
  [449.1, 448.6],
  [778.9, 777.0],
  [559.2, 558.2],
  [0.3, 0.4],
  [0.1, 0.6],
  [778.1, 775.5],
  [668.8, 666.9],
  [339.3, 338.0],
  [448.9, 447.5],
  [10.8, 11.6],
  [557.7, 556.0],
  [228.3, 228.1],
  [998.0, 995.8],
  [888.8, 887.6],
  [119.6, 120.2],
  [0.3, 0.3],
  [0.6, 0.3],
  [557.6, 556.8],
  [339.3, 339.1],
  [888.0, 887.2],
  [998.5, 999.0],
  [778.9, 779.0],
  [10.2, 11.1],
  [117.6, 118.3],
  [228.9, 229.2],
  [668.4, 669.1],
  [449.2, 448.9],
  [0.2, 0.5],
];

describe('the fit of use to degree days', () => {
  it('gives the certified figures of the NIST reference dataset "Norris"', () => {
    const fit = fitDailyUse(
      NORRIS.map(([, x]) => x),
      NORRIS.map(([y]) => y),
    );
    expect(fit.baseKwhPerDay).toBeCloseTo(-0.262323073774029, 11);
    expect(fit.baseStandardError).toBeCloseTo(0.232818234301152, 11);
    expect(fit.kwhPerDegreeDay).toBeCloseTo(1.00211681802045, 12);
    expect(fit.slopeStandardError).toBeCloseTo(0.429796848199937e-3, 14);
    expect(fit.residualStandardError).toBeCloseTo(0.884796396144373, 12);
    expect(fit.rSquared).toBeCloseTo(0.999993745883712, 13);
  });

  const home = fc.array(
    fc.record({
      days: fc.integer({ min: 28, max: 31 }),
      useKwh: fc.integer({ min: 0, max: 3000 }),
      degreeDays: fc.integer({ min: 0, max: 600 }),
    }),
    { minLength: 3, maxLength: 24 },
  );
  const varied = home.filter((months) => {
    const perDay = months.map(({ degreeDays, days }) => degreeDays / days);
    return Math.max(...perDay) - Math.min(...perDay) > 1;
  });

  it('agrees with a general statistics package on homes of any kind', () => {
    fc.assert(
      fc.property(varied, (months) => {
        const points = months.map((m) => [m.degreeDays / m.days, m.useKwh / m.days]);
        const fit = fitUseToDegreeDays(months);
        const line = linearRegression(points);
        expect(fit.kwhPerDegreeDay).toBeCloseTo(line.m, 8);
        expect(fit.baseKwhPerDay).toBeCloseTo(line.b, 8);
        if (months.some(({ useKwh, days }) => Math.abs(useKwh / days - points[0]![1]!) > 1e-6)) {
          expect(fit.rSquared).toBeCloseTo(rSquared(points, linearRegressionLine(line)), 8);
        }
      }),
      { seed: 20_240_115 },
    );
  });

  it('does not depend on the order of the months', () => {
    fc.assert(
      fc.property(varied, (months) => {
        const [fit, reversed] = [fitUseToDegreeDays(months), fitUseToDegreeDays([...months].reverse())];
        expect(reversed.kwhPerDegreeDay).toBeCloseTo(fit.kwhPerDegreeDay, 9);
        expect(reversed.residualStandardError).toBeCloseTo(fit.residualStandardError, 9);
      }),
      { seed: 20_240_115 },
    );
  });

  it('passes through the mean: use at the fitted months’ own weather is what was metered, in sum of daily means', () => {
    fc.assert(
      fc.property(varied, (months) => {
        const fit = fitUseToDegreeDays(months);
        const fitted = months.map((m) => fit.baseKwhPerDay + (fit.kwhPerDegreeDay * m.degreeDays) / m.days);
        const metered = months.map((m) => m.useKwh / m.days);
        const sum = (values: number[]): number => values.reduce((a, b) => a + b, 0);
        expect(sum(fitted)).toBeCloseTo(sum(metered), 6);
      }),
      { seed: 20_240_115 },
    );
  });

  it('refuses too few months and weather that never varied', () => {
    const month = { days: 30, useKwh: 900, degreeDays: 200 };
    expect(() => fitUseToDegreeDays([month, month])).toThrow('A fit needs at least 3 periods');
    expect(() => fitUseToDegreeDays([month, month, month])).toThrow(
      'every period has the same degree days a day',
    );
    expect(() => fitUseToDegreeDays([month, month, { ...month, useKwh: -1 }])).toThrow('useKwh');
  });
});

describe('the two-sided t quantile', () => {
  it.each([
    // Printed tables (any textbook): t for 95% two-sided.
    [1, 12.706],
    [2, 4.303],
    [3, 3.182],
    [4, 2.776],
    [10, 2.228],
    [30, 2.042],
  ])('of %i degrees of freedom is the printed %f', (freedom, printed) => {
    expect(twoSidedTQuantile(0.95, freedom)).toBeCloseTo(printed, 3);
  });

  it('has closed forms for one and two degrees of freedom', () => {
    for (const p of [0.1, 0.5, 0.9, 0.99]) {
      expect(twoSidedTQuantile(p, 1)).toBeCloseTo(Math.tan((Math.PI / 2) * p), 9);
      expect(twoSidedTQuantile(p, 2)).toBeCloseTo(p * Math.sqrt(2 / (1 - p * p)), 9);
    }
  });

  it('refuses what is no confidence and no count', () => {
    expect(() => twoSidedTQuantile(95, 3)).toThrow('Give a share between 0 and 1');
    expect(() => twoSidedTQuantile(0.95, 0)).toThrow('A range needs at least three months');
  });
});

describe('use carried to other weather', () => {
  const months = [40, 90, 180, 260, 340, 370].map((degreeDays, i) => ({
    days: 30,
    degreeDays,
    useKwh: 300 + 5 * degreeDays + [12, -20, 15, -9, 4, -2][i]!,
  }));
  const fit = fitUseToDegreeDays(months);

  it('is surest near the months that were fitted', () => {
    const reach = (degreeDays: number): number =>
      predictUse(fit, { days: 30, degreeDays, periods: 1 }, 0.95).standardError;
    expect(reach(30 * fit.meanDegreeDaysPerDay)).toBeLessThan(reach(0));
    expect(reach(30 * fit.meanDegreeDaysPerDay)).toBeLessThan(reach(700));
  });

  it('lies within its range in 95% of invented homes', () => {
    const random = seededRandom('use carried to other weather');
    const homes = 4000;
    let held = 0;
    for (let home = 0; home < homes; home++) {
      const metered = (degreeDays: number): number => 30 * (10 + random.normal()) + 5 * degreeDays;
      const known = months.map(({ degreeDays }) => ({ days: 30, degreeDays, useKwh: metered(degreeDays) }));
      const truth = metered(150) + metered(420);
      const range = predictUse(fitUseToDegreeDays(known), { days: 60, degreeDays: 570, periods: 2 }, 0.95);
      if (truth >= range.lowKwh && truth <= range.highKwh) held++;
    }
    // Three standard deviations of a count of 4,000 at 95% are 1%.
    expect(held / homes).toBeGreaterThan(0.94);
    expect(held / homes).toBeLessThan(0.96);
  });

  it('with an entered base scales what is left by degree days', () => {
    const metered = { days: 31, useKwh: 1748, degreeDays: 300 };
    expect(adjustUseToDegreeDays(metered, 8, 28, 350)).toBe(1974);
    expect(adjustUseToDegreeDays(metered, 8, 31, 300)).toBe(1748);
    expect(() => adjustUseToDegreeDays(metered, 60, 28, 350)).toThrow('Lower the base use a day');
  });
});
