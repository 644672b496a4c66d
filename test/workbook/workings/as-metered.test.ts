import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { roundMoney } from '../../../src/charges/round-money.js';
import { seededRandom } from '../../../src/sample/seeded-random.js';
import { ratePeriodIndexAt } from '../../../src/tariffs/rate-period-at.js';
import { priceYear } from '../../../src/tariffs/rate-series.js';
import { halfHourCalendar } from '../../../src/time/half-hour-calendar.js';
import { tariffInPlay } from '../../tariffs/arbitraries.js';
import { type Case, type Rows, randomRows, workingsCase } from './workings-case.js';

const PLACES = [
  { zone: 'Europe/London', first: Date.UTC(2026, 2, 20) },
  { zone: 'Europe/London', first: Date.UTC(2026, 9, 15, 23) },
  { zone: 'America/Santiago', first: Date.UTC(2027, 2, 25, 3) },
] as const;
const DAYS = 20;
const VAT = 0.05;

/** The same readings with a battery that takes and gives at random. */
function withBattery(rows: Rows, seed: number): Rows {
  const { uniform } = seededRandom(`battery as it ran ${seed}`);
  const kwh = (): Float64Array =>
    rows.startUtcMs.map(() => (uniform() < 0.3 ? Math.round(uniform() * 1500) / 1000 : 0));
  return { ...rows, channels: { ...rows.channels, batteryInKwh: kwh(), batteryOutKwh: kwh() } };
}

const caseArbitrary = fc.constantFrom(...PLACES).chain((place) =>
  fc.record({
    place: fc.constant(place),
    tariff: tariffInPlay(place.first, 4),
    other: tariffInPlay(place.first, 4),
    seed: fc.integer({ min: 1, max: 1_000_000 }),
    gaps: fc.constantFrom(0, 0.05),
    today: fc.constantFrom(1, 2),
  }),
);

const KEYS = ['importKwh', 'exportKwh', 'energy', 'standing', 'exportCredit', 'total'] as const;
const monthsOf = ({ workings, numbers }: Case): Record<(typeof KEYS)[number], number[]> => {
  const { months } = workings.asMetered;
  return Object.fromEntries(KEYS.map((key) => [key, numbers(months[key])])) as never;
};

describe('the bill as metered, on today’s tariff', () => {
  it('is what the library charges for the channels as they were read, month by month', () => {
    fc.assert(
      fc.property(caseArbitrary, ({ place, tariff, other, seed, gaps, today }) => {
        const rows = withBattery(randomRows(seed, place.zone, place.first, DAYS, gaps), seed);
        const {
          importKwh = new Float64Array(0),
          exportKwh = new Float64Array(0),
          pricePence,
        } = rows.channels;
        const tariffs = [tariff, { ...other, name: 'Other' }];
        const found = monthsOf(workingsCase(rows, tariffs, { vatShare: VAT, today }));
        const todays = tariffs[today - 1];
        if (todays === undefined) throw new Error('no tariff');
        const calendar = halfHourCalendar(rows.startUtcMs, place.zone);
        const priced = priceYear(
          todays,
          calendar,
          importKwh,
          VAT,
          todays.halfHourlyPriced ? pricePence : undefined,
        );
        const vatFactor = todays.includesVat ? 1 : 1 + VAT;
        const months = calendar.monthStartSerials.length;
        const [bought, sold, standing, credit] = [0, 1, 2, 3].map(() => new Float64Array(months)) as [
          Float64Array,
          Float64Array,
          Float64Array,
          Float64Array,
        ];
        const monthOf = (day: number): number =>
          calendar.monthStartSerials.findLastIndex((start) => start <= day);
        const ratesOf = (day: number) => {
          const rates = todays.ratePeriods[ratePeriodIndexAt(todays.ratePeriods, day)];
          if (rates === undefined) throw new Error('no rates');
          return rates;
        };
        for (const day of calendar.daySerials)
          standing[monthOf(day)]! += ratesOf(day).standingChargePencePerDay * vatFactor;
        calendar.dayIndex.forEach((d, i) => {
          const day = calendar.daySerials[d] ?? 0;
          bought[monthOf(day)]! += importKwh[i] ?? 0;
          sold[monthOf(day)]! += exportKwh[i] ?? 0;
          credit[monthOf(day)]! += (exportKwh[i] ?? 0) * ratesOf(day).exportRatePence;
        });
        for (let m = 0; m < months; m++) {
          expect(found.importKwh[m]).toBeCloseTo(bought[m] ?? Number.NaN, 9);
          expect(found.exportKwh[m]).toBeCloseTo(sold[m] ?? Number.NaN, 9);
          expect(Math.abs((found.energy[m] ?? 0) - (priced.energyPenceByMonth[m] ?? 0) / 100)).toBeLessThan(
            0.0051,
          );
          expect(found.standing[m]).toBeCloseTo(roundMoney((standing[m] ?? 0) / 100), 6);
          expect(found.exportCredit[m]).toBeCloseTo(roundMoney((credit[m] ?? 0) / 100), 6);
          expect(found.total[m]).toBeCloseTo(
            (found.energy[m] ?? 0) + (found.standing[m] ?? 0) - (found.exportCredit[m] ?? 0),
            6,
          );
        }
      }),
      { seed: 21, numRuns: 20 },
    );
  });

  it('does not ask what a battery took and gave, which the comparison does', () => {
    fc.assert(
      fc.property(caseArbitrary, ({ place, tariff, seed, gaps }) => {
        const rows = randomRows(seed, place.zone, place.first, DAYS, gaps);
        const idle = workingsCase(rows, [tariff]);
        const ran = workingsCase(withBattery(rows, seed), [tariff]);
        expect(monthsOf(ran)).toEqual(monthsOf(idle));
        const without = (found: Case): unknown => found.period(found.workings.months.importKwh);
        expect(without(ran)).not.toBe(without(idle));
        expect(ran.period(ran.workings.asMetered.months.batteryReadings)).toBeGreaterThan(0);
      }),
      { seed: 22, numRuns: 8 },
    );
  });

  it('is today’s total to the penny where no battery ran', () => {
    fc.assert(
      fc.property(caseArbitrary, ({ place, tariff, seed, gaps }) => {
        const found = workingsCase(randomRows(seed, place.zone, place.first, DAYS, gaps), [tariff]);
        const { asMetered, tariffs } = found.workings;
        const [today] = tariffs;
        if (today === undefined) throw new Error('no tariff');
        expect(found.period(asMetered.months.total)).toBe(found.period(today.months.total));
        expect(found.period(asMetered.months.energy)).toBe(found.period(today.months.energy));
        expect(found.period(asMetered.months.batteryReadings)).toBe(0);
      }),
      { seed: 23, numRuns: 8 },
    );
  });

  it('has kWh and no money where no tariff is today’s', () => {
    const rows = randomRows(7, PLACES[0].zone, PLACES[0].first, DAYS);
    const [tariff] = fc.sample(tariffInPlay(PLACES[0].first, 4), { seed: 1, numRuns: 1 });
    if (tariff === undefined) throw new Error('no tariff');
    const found = workingsCase(rows, [tariff], { today: 0 });
    const { months } = found.workings.asMetered;
    expect(found.period(months.importKwh)).toBeGreaterThan(0);
    expect(found.period(months.energy)).toBe(0);
  });
});
