import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ratePeriodIndexAt } from '../../../src/tariffs/rate-period-at.js';
import { rateSeries } from '../../../src/tariffs/rate-series.js';
import { EVERY_DAY, type Tariff } from '../../../src/tariffs/tariff.js';
import { halfHourCalendar } from '../../../src/time/half-hour-calendar.js';
import { tariffInPlay } from '../../tariffs/arbitraries.js';
import { NO_BATTERY, type Rows, randomRows, workingsCase } from './workings-case.js';

const ZONE = 'Europe/London';
const DAYS = 38;
const VAT = 0.05;
/** Through the clock change of October, and through that of March. */
const STARTS = [Date.UTC(2026, 9, 2, 23), Date.UTC(2026, 2, 10)];
const channel = (rows: Rows, name: 'importKwh' | 'exportKwh'): Float64Array =>
  rows.channels[name] ?? new Float64Array(0);

/** What the library has for energy less export credit in each week of seven days; NaN where the rates change in it. */
function weeklyPounds(tariff: Tariff, rows: Rows): number[] {
  const calendar = halfHourCalendar(rows.startUtcMs, ZONE);
  const rates = rateSeries(
    tariff,
    calendar,
    VAT,
    tariff.halfHourlyPriced ? rows.channels.pricePence : undefined,
  );
  const sets = Array.from(calendar.daySerials, (day) => ratePeriodIndexAt(tariff.ratePeriods, day));
  const weeks = Array.from({ length: Math.floor(DAYS / 7) }, () => 0);
  calendar.dayIndex.forEach((day, i) => {
    const week = Math.floor(day / 7);
    if (week >= weeks.length) return;
    const exportRate = tariff.ratePeriods[sets[day] ?? 0]?.exportRatePence ?? Number.NaN;
    const pence =
      (channel(rows, 'importKwh')[i] ?? 0) * (rates[i] ?? Number.NaN) -
      (channel(rows, 'exportKwh')[i] ?? 0) * exportRate;
    weeks[week] = (weeks[week] ?? 0) + pence / 100;
  });
  return weeks.map((pounds, week) =>
    new Set(sets.slice(week * 7, week * 7 + 7)).size > 1 ? Number.NaN : pounds,
  );
}

describe('whole weeks on Days', () => {
  it('cost on each tariff what the library has for their half-hours, and nothing where rates change in one', () => {
    let changes = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...STARTS).chain((first) =>
          fc.record({
            first: fc.constant(first),
            tariff: tariffInPlay(first, 20),
            seed: fc.integer({ min: 1, max: 99_999 }),
          }),
        ),
        ({ first, tariff, seed }) => {
          const rows = randomRows(seed, ZONE, first, DAYS, 0);
          const { workings, at } = workingsCase(rows, [tariff], { vatShare: VAT });
          const [useCost] = workings.weeks.useCost;
          if (useCost === undefined) throw new Error('no tariff');
          weeklyPounds(tariff, rows).forEach((pounds, week) => {
            expect(at(workings.weeks.counts, week)).toBe(1);
            if (Number.isNaN(pounds)) {
              changes++;
              expect(at(useCost, week)).toBe('');
            } else expect(at(useCost, week)).toBeCloseTo(pounds, 8);
          });
        },
      ),
      { seed: 8, numRuns: 15 },
    );
    expect(changes).toBeGreaterThan(0);
  });

  it('count where every half-hour was metered and the period takes them in', () => {
    const rows = randomRows(5, ZONE, STARTS[0] ?? 0, DAYS, 0);
    const gappy = channel(rows, 'importKwh').slice();
    // A half-hour of the second week.
    gappy[8 * 48 + 3] = Number.NaN;
    const { workings, at } = workingsCase(
      { ...rows, channels: { ...rows.channels, importKwh: gappy } },
      [flat],
      { vatShare: VAT, days: 45 },
    );
    const counted = Array.from({ length: 6 }, (_, week) => at(workings.weeks.counts, week));
    // The sixth has three days only.
    expect(counted).toEqual([1, 0, 1, 1, 1, 0]);
    expect(at(workings.weeks.useCost[0]!, 1)).toBe('');
  });

  it('have with a battery all that the month’s total has but the standing charge', () => {
    // November alone: 28 of its days are four weeks.
    const rows = randomRows(9, ZONE, Date.UTC(2026, 10, 1), 28, 0);
    const battery = {
      ...NO_BATTERY,
      usableKwh: 6,
      chargeKw: 3,
      dischargeKw: 3,
      mayExport: 'yes',
    };
    const { workings, numbers } = workingsCase(rows, [night], { vatShare: VAT, battery });
    const [tariff] = workings.tariffs;
    const [useCost] = workings.weeks.useCost;
    if (tariff === undefined || useCost === undefined) throw new Error('no tariff');
    const first = ({ 0: value }: number[]): number => value ?? Number.NaN;
    const bill = first(numbers(tariff.batteryMonths.total)) - first(numbers(tariff.months.standing));
    expect(
      Math.abs(bill - first(numbers(tariff.months.total)) + first(numbers(tariff.months.standing))),
    ).toBeGreaterThan(1);
    const weeks = numbers(useCost).slice(0, 4);
    expect(Math.abs(weeks.reduce((sum, pounds) => sum + pounds, 0) - bill)).toBeLessThan(0.011);
  });
});

const usual = {
  clock: 'local',
  includesVat: true,
  halfHourlyPriced: false,
  priceIncludesVat: true,
  exitFeePounds: 0,
} as const;
const standing = { standingChargePencePerDay: 50, exportRatePence: 12 };
const flat: Tariff = {
  ...usual,
  name: 'Flat',
  windows: [],
  ratePeriods: [{ ...standing, validFromSerial: 0, baseRatePence: 25, windowRatesPence: [] }],
};
const night: Tariff = {
  ...usual,
  name: 'Night',
  windows: [{ fromMinutes: 0, toMinutes: 300, days: EVERY_DAY }],
  ratePeriods: [{ ...standing, validFromSerial: 0, baseRatePence: 30, windowRatesPence: [9] }],
};
