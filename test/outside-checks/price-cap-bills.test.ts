import { describe, expect, it } from 'vitest';
import type { Tariff } from '../../src/tariffs/tariff.js';
import { isoDateToSerial } from '../../src/time/serial.js';
import { singleRate } from '../tariffs/single-rate.js';
import { billCase } from '../workbook/bills/bill-case.js';
import type { Rows } from '../workbook/workings/workings-case.js';

// Energy price cap, Great Britain: average direct-debit rates with 5 % VAT, and the published annual bill of typical use,
// 2,700 kWh of electricity and 11,500 kWh of gas in 365 days. Source: Ofgem, default tariff cap announcements; figures from
// memory. The published bill is made from rates that are not rounded and given in whole pounds: the sums close within £1.
interface Fuel {
  kwh: number;
  ratePence: number;
  standingPence: number;
}
interface Cap {
  period: string;
  electricity: Fuel;
  gas: Fuel;
  publishedPounds: number;
}
const cap = (
  period: string,
  [ratePence, standingPence]: readonly [number, number],
  gas: readonly [number, number],
  publishedPounds: number,
): Cap => ({
  period,
  electricity: { kwh: 2700, ratePence, standingPence },
  gas: { kwh: 11_500, ratePence: gas[0], standingPence: gas[1] },
  publishedPounds,
});
const CAPS: readonly Cap[] = [
  cap('January to March 2024', [28.62, 53.35], [7.42, 29.6], 1928),
  cap('July to September 2024', [22.36, 60.12], [5.48, 31.41], 1568),
  cap('April to June 2025', [27.03, 53.8], [6.99, 32.67], 1849),
];

const FIRST = isoDateToSerial('2026-01-01');
const LAST = isoDateToSerial('2026-12-31');
const HALF_HOURS = 365 * 48;

/** A year of readings that is used up evenly; gas is held against its meter in the same way. */
function evenYear(kwh: number): Rows {
  const first = Date.UTC(2026, 0, 1);
  return {
    zone: 'Europe/London',
    startUtcMs: Float64Array.from({ length: HALF_HOURS }, (_, i) => first + i * 1_800_000),
    channels: { importKwh: new Float64Array(HALF_HOURS).fill(kwh / HALF_HOURS) },
  };
}

const tariffOf = ({ ratePence, standingPence }: Fuel): Tariff =>
  singleRate('Cap', ratePence, standingPence, 0);

/** The year as one bill, and what stands beside it. */
function billed(fuel: Fuel, totalPounds: number) {
  const { at } = billCase(
    evenYear(fuel.kwh),
    [tariffOf(fuel)],
    [
      {
        from: FIRST,
        to: LAST,
        tariff: 'Cap',
        total: totalPounds,
        lines: [{ kwh: fuel.kwh, rate: fuel.ratePence }],
        standing: fuel.standingPence,
      },
    ],
    { days: 366, agreesWithin: 0.01 },
  );
  return {
    own: Number(at('By the readings', 0)),
    days: at('Days', 0),
    words: at('What explains most of it', 0),
  };
}

describe('the published bill of the price cap, held against a year of readings on Bills', () => {
  it.each(CAPS)('closes within £1 for $period', ({ electricity, gas, publishedPounds }) => {
    const [power, heat] = [electricity, gas].map((fuel) =>
      billed(fuel, Math.round(fuel.kwh * fuel.ratePence + 365 * fuel.standingPence) / 100),
    );
    if (power === undefined || heat === undefined) throw new Error('no bills');
    expect(power).toMatchObject({ days: 365, words: 'agrees' });
    expect(heat).toMatchObject({ days: 365, words: 'agrees' });
    expect(Math.abs(power.own + heat.own - publishedPounds)).toBeLessThan(1);
  });

  it('comes to £1,928.81 from the rounded rates of January to March 2024', () => {
    const [first] = CAPS;
    if (first === undefined) throw new Error('no cap');
    expect(billed(first.electricity, 0).own + billed(first.gas, 0).own).toBeCloseTo(1928.81, 2);
  });
});
