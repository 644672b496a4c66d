import { beforeAll, describe, expect, it } from 'vitest';
import { columnNumber } from '../../../src/workbook/cell-address.js';
import { heatingDays } from '../../../src/workbook/model/heating/heating-days.js';
import { CURVE_KEYS, figureName } from '../../../src/workbook/model/heating/heating-figures-rows.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import { inputsOf, smallMonth, workedOut } from '../small-month.js';

describe('the curve through the days of the heat pump', () => {
  let values: WorkbookValues;
  const figure = (key: string): number => Number(values.calculated.named(figureName(key)));
  /** Degree days and kWh of each whole day. */
  let days: { degreeDays: number; kwh: number }[];
  beforeAll(async () => {
    values = workedOut(inputsOf(await smallMonth()));
    const { chartDegreeDays, chartKwh } = heatingDays(values.book);
    const [x, y] = [chartDegreeDays, chartKwh].map(({ sheet, letters, firstRow }) =>
      values.calculated.column({ sheet, column: columnNumber(letters), firstRow, rows: 31 }),
    );
    days = Array.from({ length: 31 }, (_, i) => ({ degreeDays: Number(x?.[i]), kwh: Number(y?.[i]) }));
  });
  const curve = (degreeDays: number): number =>
    figure('mildKwh') +
    figure('kwhPerDegreeDay') * degreeDays +
    figure('kwhPerSquaredDegreeDay') * degreeDays ** 2;

  it('starts at what the days without heating take', () => {
    const mild = days.filter(({ degreeDays }) => degreeDays < 1);
    expect(mild.length).toBeGreaterThan(3);
    expect(figure('mildDays')).toBe(mild.length);
    expect(figure('mildKwh')).toBeCloseTo(mild.reduce((sum, { kwh }) => sum + kwh, 0) / mild.length, 9);
    expect(figure(CURVE_KEYS.kwh[0] ?? '')).toBeCloseTo(figure('mildKwh'), 9);
  });

  it('is that of the least squares: no other curve of its kind is nearer to the days with heating', () => {
    const heated = days.filter(({ degreeDays }) => degreeDays >= 1);
    expect(figure('dailyFitDays')).toBe(heated.length);
    const scale = heated.reduce((sum, { degreeDays, kwh }) => sum + degreeDays ** 2 * kwh, 0);
    // What is left over is at right angles to each term of the curve.
    for (const power of [1, 2]) {
      const left = heated.reduce(
        (sum, { degreeDays, kwh }) => sum + degreeDays ** power * (kwh - curve(degreeDays)),
        0,
      );
      expect(Math.abs(left) / scale).toBeLessThan(1e-9);
    }
  });

  it('meets the coldest days more closely than a straight line does, and the sheet says how closely', () => {
    const coldest = days.filter(({ degreeDays }) => degreeDays >= figure('coldFromDegreeDays'));
    expect(figure('coldDays')).toBe(coldest.length);
    const mean = coldest.reduce((sum, { kwh }) => sum + kwh, 0) / coldest.length;
    expect(figure('coldKwh')).toBeCloseTo(mean, 9);
    expect(Math.abs(figure('coldCurveKwh') - mean) / mean).toBeLessThan(0.1);
    expect(values.calculated.named('line_on_the_coldest_days')).toContain(mean.toFixed(1));
  });
});
