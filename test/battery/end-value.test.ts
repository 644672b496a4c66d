import { expect, it } from 'vitest';
import { defaultEndValuePencePerKwh } from '../../src/battery/battery-totals.js';

it.each([
  ['the average day’s lowest rate', [9, 30, 18, 30], [0, 0, 1, 1], 0.9, 15],
  ['nothing where refilling is paid for', [-10, 30], [0, 0], 0.9, 0],
  ['nothing over no half-hours', [], [], 0.9, 0],
])('a stored kWh is worth %s', (_, rates, days, efficiency, pence) => {
  expect(defaultEndValuePencePerKwh(Float64Array.from(rates), efficiency, Int32Array.from(days))).toBe(pence);
});

it('one negative price in a month of days moves it by its part of the days, not below 0', () => {
  const rates = Float64Array.from({ length: 60 }, (_, i) => (i === 4 ? -7 : i % 2 === 0 ? 10 : 30));
  const days = Int32Array.from({ length: 60 }, (_, i) => Math.floor(i / 2));
  expect(defaultEndValuePencePerKwh(rates, 0.9, days)).toBeCloseTo((10 - 17 / 30) / 0.9, 9);
});
