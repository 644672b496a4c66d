import { describe, expect, it } from 'vitest';
import { energyCost } from '../../src/charges/energy-cost.js';
import { standingCharge } from '../../src/charges/standing-charge.js';
import { isoDateToSerial } from '../../src/time/serial.js';

// Energy price cap, Great Britain: average direct-debit rates with 5 % VAT, and the published annual bill of typical use.
// Source: Ofgem, default tariff cap announcements; figures from memory. The published bill is made from rates that are not
// rounded and given in whole pounds, so the sums close within £1.
interface Cap {
  period: string;
  /** p/kWh and p/day. */
  electricity: readonly [number, number];
  gas: readonly [number, number];
  /** £ a year. */
  published: number;
}
const ELECTRICITY_KWH = 2700;
const GAS_KWH = 11_500;
const FIRST_CAP: Cap = {
  period: 'January to March 2024',
  electricity: [28.62, 53.35],
  gas: [7.42, 29.6],
  published: 1928,
};
const CAPS: readonly Cap[] = [
  FIRST_CAP,
  { period: 'July to September 2024', electricity: [22.36, 60.12], gas: [5.48, 31.41], published: 1568 },
  { period: 'April to June 2025', electricity: [27.03, 53.8], gas: [6.99, 32.67], published: 1849 },
];

describe('the published bill of the price cap', () => {
  const firstDay = isoDateToSerial('2025-01-01');
  const lastDay = isoDateToSerial('2025-12-31');
  const bill = ({ electricity, gas }: Cap) =>
    energyCost([ELECTRICITY_KWH, GAS_KWH], [electricity[0], gas[0]]) +
    standingCharge(firstDay, lastDay, electricity[1]) +
    standingCharge(firstDay, lastDay, gas[1]);

  it.each(CAPS)('closes for $period', (cap) => {
    expect(Math.abs(bill(cap) - cap.published)).toBeLessThan(1);
  });

  it('comes to £1,928.81 from the rounded rates of January to March 2024', () => {
    expect(bill(FIRST_CAP)).toBeCloseTo(1928.81, 2);
  });
});
