import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Tariff } from '../../../src/tariffs/tariff.js';
import { RATES_USED } from '../../../src/workbook/layout.js';
import { tariffArbitrary } from '../../tariffs/arbitraries.js';
import { type BatteryCells, type Case, NO_BATTERY, randomRows, workingsCase } from './workings-case.js';

const PLACES = [
  { zone: 'Europe/London', first: Date.UTC(2026, 9, 15, 23) },
  { zone: 'America/Santiago', first: Date.UTC(2027, 2, 25, 3) },
] as const;
const DAYS = 20;
const BATTERY: BatteryCells = { ...NO_BATTERY, usableKwh: 6, chargeKw: 3, dischargeKw: 3 };

/** Tariffs whose changes fall before, into and long after the days of the readings. */
const tariffInPlay = (first: number): fc.Arbitrary<Tariff> =>
  tariffArbitrary.map((tariff) => ({
    ...tariff,
    name: 'Any',
    halfHourlyPriced: false,
    ratePeriods: tariff.ratePeriods.map((period, p) => ({
      ...period,
      validFromSerial: p === 0 ? 0 : Math.floor(first / 86_400_000) + 25_569 + [0, 3, 9, 400, 4000][p]!,
    })),
  }));

/** A tariff with its latest rates only. */
const latestOnly = (tariff: Tariff): Tariff => ({
  ...tariff,
  ratePeriods: tariff.ratePeriods.slice(-1).map((period) => ({ ...period, validFromSerial: 0 })),
});

/** Every bill line of every month: without a battery, with it, and as metered. */
function linesOf({ workings, numbers }: Case): number[][] {
  const [tariff] = workings.tariffs;
  if (tariff === undefined) throw new Error('no tariff');
  const { months, batteryMonths } = tariff;
  const metered = workings.asMetered.months;
  return [
    ...[months.energy, months.standing, months.exportCredit, months.total],
    ...[batteryMonths.energy, batteryMonths.exportCredit, batteryMonths.total],
    ...[metered.energy, metered.standing, metered.exportCredit, metered.total],
  ].map(numbers);
}

const caseArbitrary = fc.constantFrom(...PLACES).chain((place) =>
  fc.record({
    place: fc.constant(place),
    tariff: tariffInPlay(place.first),
    seed: fc.integer({ min: 1, max: 1_000_000 }),
  }),
);

describe('the rates that price the period', () => {
  it('as they are now: what a tariff costs that had its latest rates all along, across changes of the clock', () => {
    let moved = 0;
    fc.assert(
      fc.property(caseArbitrary, ({ place, tariff, seed }) => {
        const rows = randomRows(seed, place.zone, place.first, DAYS);
        const now = linesOf(
          workingsCase(rows, [tariff], { battery: BATTERY, ratesUsed: RATES_USED.asTheyAreNow }),
        );
        const latest = linesOf(workingsCase(rows, [latestOnly(tariff)], { battery: BATTERY }));
        now.forEach((line, i) => {
          line.forEach((pounds, m) => {
            expect(pounds).toBeCloseTo(latest[i]?.[m] ?? Number.NaN, 6);
          });
        });
        const were = linesOf(
          workingsCase(rows, [tariff], { battery: BATTERY, ratesUsed: RATES_USED.asTheyWere }),
        );
        if (tariff.ratePeriods.length > 1 && JSON.stringify(were) !== JSON.stringify(now)) moved++;
      }),
      { seed: 41, numRuns: 12 },
    );
    expect(moved).toBeGreaterThan(3);
  });

  it.each([RATES_USED.asTheyWere, null, 'whatever'])('as they were with %s', (ratesUsed) => {
    const [found] = fc.sample(caseArbitrary, { seed: 5, numRuns: 1 });
    if (found === undefined) throw new Error('no case');
    const { place, tariff, seed } = found;
    const rows = randomRows(seed, place.zone, place.first, DAYS);
    const [plain, chosen] = [undefined, ratesUsed].map((used) =>
      workingsCase(rows, [tariff], used === undefined ? {} : { ratesUsed: used }),
    );
    if (plain === undefined || chosen === undefined) throw new Error('no case');
    expect(linesOf(chosen)).toEqual(linesOf(plain));
  });
});
