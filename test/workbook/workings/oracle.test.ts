import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Battery, type BatteryInput, splitRoundTrip } from '../../../src/battery/battery.js';
import { runBatteryRule } from '../../../src/battery/battery-rule.js';
import { storedEnergyCost } from '../../../src/battery/stored-energy-cost.js';
import { roundMoney } from '../../../src/charges/round-money.js';
import { rateGrid } from '../../../src/tariffs/rate-grid.js';
import { ratePeriodIndexAt } from '../../../src/tariffs/rate-period-at.js';
import { priceYear, rateSeries } from '../../../src/tariffs/rate-series.js';
import type { Tariff } from '../../../src/tariffs/tariff.js';
import { type HalfHourCalendar, halfHourCalendar } from '../../../src/time/half-hour-calendar.js';
import { serialToLocalMs } from '../../../src/time/serial.js';
import { startOfLocalDay } from '../../../src/time/start-of-local-day.js';
import { ZoneClock } from '../../../src/time/zone-clock.js';
import { BLOCK_ROWS } from '../../../src/workbook/sheets/shape.js';
import { tariffInPlay } from '../../tariffs/arbitraries.js';
import { singleRate } from '../../tariffs/single-rate.js';
import { type BatteryCells, NO_BATTERY, type Rows, randomRows, workingsCase } from './workings-case.js';

/** Zones whose clocks change in spring and autumn, by half an hour, at another hour, or never. */
const PLACES = [
  { zone: 'Europe/London', first: Date.UTC(2026, 2, 20) },
  { zone: 'Europe/London', first: Date.UTC(2026, 9, 15, 23) },
  { zone: 'America/New_York', first: Date.UTC(2026, 9, 20, 4) },
  { zone: 'Australia/Lord_Howe', first: Date.UTC(2027, 2, 28, 13) },
  // Santiago's clock changes at midnight: spring's day begins at 01:00, autumn's has 23:00 twice.
  { zone: 'America/Santiago', first: Date.UTC(2026, 7, 25, 4) },
  { zone: 'America/Santiago', first: Date.UTC(2027, 2, 25, 3) },
  { zone: 'Asia/Kathmandu', first: Date.UTC(2026, 5, 30, 18, 15) },
] as const;

const placeArbitrary = fc.constantFrom(...PLACES);
const seedArbitrary = fc.integer({ min: 1, max: 1_000_000 });
const DAYS = 30;
const VAT = 0.05;
const priceOf = (tariff: Tariff, rows: Rows): Float64Array | undefined =>
  tariff.halfHourlyPriced ? rows.channels.pricePence : undefined;
const average = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
const importOf = (rows: Rows): Float64Array => rows.channels.importKwh ?? new Float64Array(0);
const exportOf = (rows: Rows): Float64Array => rows.channels.exportKwh ?? new Float64Array(0);

/** What the rule decides by: the price alone, day by day, or the week of rates by the tariff's clock. */
function decidedBy(
  tariff: Tariff,
  calendar: HalfHourCalendar,
  rows: Rows,
): Pick<BatteryInput, 'dayIndex' | 'halfHourOfDay' | 'monthIndex' | 'ruleRatePence' | 'weeks'> {
  const { dayIndex, daySerials, monthIndex } = calendar;
  const clock = new ZoneClock(rows.zone, rows.startUtcMs[0]!, rows.startUtcMs.at(-1)!);
  // As time goes by from midnight, whatever the clock does and whatever was not metered.
  const midnights = Array.from(daySerials, (serial) => startOfLocalDay(clock, serialToLocalMs(serial)));
  const halfHourOfDay = Int32Array.from(rows.startUtcMs, (start, i) =>
    Math.round((start - midnights[dayIndex[i]!]!) / 1_800_000),
  );
  const ruleRatePence = priceOf(tariff, rows);
  const shared = { dayIndex, halfHourOfDay, monthIndex };
  if (ruleRatePence !== undefined) return { ...shared, ruleRatePence };
  const vat = tariff.includesVat ? 1 : 1 + VAT;
  const bands = rateGrid(tariff);
  const isUtc = tariff.clock === 'utc';
  const aheadOn = (month: number): number => {
    const first = Math.max(calendar.monthStartSerials[month]!, daySerials[0]!);
    return Math.ceil(clock.offsetMinutesAt(startOfLocalDay(clock, serialToLocalMs(first))) / 30);
  };
  return {
    ...shared,
    weeks: {
      ratesPence: tariff.ratePeriods.map(({ baseRatePence, windowRatesPence }) =>
        Float64Array.from(bands, (band) => ([baseRatePence, ...windowRatesPence][band] ?? 0) * vat),
      ),
      exportRatePence: Float64Array.from(tariff.ratePeriods, ({ exportRatePence }) => exportRatePence),
      index: dayIndex.map((day) => ratePeriodIndexAt(tariff.ratePeriods, daySerials[day]!)),
      slot: Int32Array.from(isUtc ? calendar.weekSlotUtc : calendar.weekSlotLocal),
      aheadHalfHours: Array.from(calendar.monthStartSerials, (_, month) => (isUtc ? aheadOn(month) : 0)),
    },
  };
}

describe('the workings and the library, written apart, come to the same', () => {
  it('cost of energy, standing charge and export credit, month by month, across changes of clock and rates', () => {
    fc.assert(
      fc.property(
        placeArbitrary.chain((place) =>
          fc.record({
            place: fc.constant(place),
            tariff: tariffInPlay(place.first, 5),
            seed: seedArbitrary,
            gaps: fc.constantFrom(0, 0.05),
          }),
        ),
        ({ place, tariff, seed, gaps }) => {
          const rows = randomRows(seed, place.zone, place.first, DAYS, gaps);
          const { workings, numbers } = workingsCase(rows, [tariff], { vatShare: VAT });
          const calendar = halfHourCalendar(rows.startUtcMs, place.zone);
          const priced = priceYear(tariff, calendar, importOf(rows), VAT, priceOf(tariff, rows));
          const [ofTariff] = workings.tariffs;
          if (ofTariff === undefined) throw new Error('no tariff');
          const months = calendar.monthStartSerials.length;
          const energy = numbers(ofTariff.months.energy).slice(0, months);
          priced.energyPenceByMonth.forEach((pence, m) => {
            expect(Math.abs((energy[m] ?? 0) - pence / 100)).toBeLessThan(0.0051);
          });
          const standing = new Float64Array(months);
          const credit = new Float64Array(months);
          const vatFactor = tariff.includesVat ? 1 : 1 + VAT;
          calendar.daySerials.forEach((day, d) => {
            const month = calendar.monthStartSerials.findLastIndex((start) => start <= day);
            const period = tariff.ratePeriods[ratePeriodIndexAt(tariff.ratePeriods, day)];
            if (period === undefined) throw new Error('no rates');
            standing[month] = (standing[month] ?? 0) + period.standingChargePencePerDay * vatFactor;
            calendar.dayIndex.forEach((index, i) => {
              if (index === d)
                credit[month] = (credit[month] ?? 0) + (exportOf(rows)[i] ?? 0) * period.exportRatePence;
            });
          });
          const lines = [ofTariff.months.standing, ofTariff.months.exportCredit].map(numbers);
          [standing, credit].forEach((pence, k) => {
            pence.forEach((value, m) => {
              expect(lines[k]?.[m]).toBeCloseTo(roundMoney(value / 100), 6);
            });
          });
        },
      ),
      { seed: 11, numRuns: 25 },
    );
  });

  it('the battery’s levels and what energy costs through it', () => {
    const batteryArbitrary = fc.record({
      usableKwh: fc.constantFrom(0, 3, 9.5, 18),
      powerKw: fc.constantFrom(1.5, 3.6, 7),
      roundTrip: fc.constantFrom(0.81, 0.9025, 1),
      reserveKwh: fc.constantFrom(0, 1),
      startKwh: fc.constantFrom(0, 2, 99),
      wear: fc.constantFrom(0, 2.5),
      fromGrid: fc.boolean(),
      feedsCar: fc.boolean(),
      exports: fc.boolean(),
    });
    fc.assert(
      fc.property(
        placeArbitrary.chain((place) =>
          fc.record({
            place: fc.constant(place),
            tariff: tariffInPlay(place.first, 5).filter(
              ({ halfHourlyPriced, windows }) => !halfHourlyPriced || windows.length === 0,
            ),
            seed: seedArbitrary,
            gaps: fc.constantFrom(0, 0, 0.05),
            battery: batteryArbitrary,
          }),
        ),
        ({ place, tariff, seed, gaps, battery: figures }) => {
          const rows = randomRows(seed, place.zone, place.first, DAYS, gaps);
          const cells: BatteryCells = {
            ...NO_BATTERY,
            usableKwh: figures.usableKwh,
            chargeKw: figures.powerKw,
            dischargeKw: figures.powerKw,
            roundTripEfficiency: figures.roundTrip,
            reserveKwh: figures.reserveKwh,
            startKwh: figures.startKwh,
            wearPencePerKwh: figures.wear,
            chargeFromGrid: figures.fromGrid ? 'yes' : 'no',
            mayFeedCar: figures.feedsCar ? 'yes' : 'no',
            mayExport: figures.exports ? 'yes' : 'no',
          };
          const battery: Battery = {
            usableKwh: figures.usableKwh,
            chargeKw: figures.powerKw,
            dischargeKw: figures.powerKw,
            ...splitRoundTrip(figures.roundTrip),
            reserveKwh: figures.reserveKwh,
            startKwh: figures.startKwh,
            wearPencePerKwh: figures.wear,
            chargeFromGrid: figures.fromGrid,
            mayFeedCar: figures.feedsCar,
            mayExport: figures.exports,
          };
          const { workings, numbers } = workingsCase(rows, [tariff], { battery: cells, vatShare: VAT });
          const calendar = halfHourCalendar(rows.startUtcMs, place.zone);
          const count = rows.startUtcMs.length;
          const input: BatteryInput = {
            importKwh: importOf(rows),
            exportKwh: exportOf(rows),
            carKwh: rows.channels.carKwh ?? new Float64Array(count),
            unitRatePence: rateSeries(tariff, calendar, VAT, priceOf(tariff, rows)),
            exportRatePence: Float64Array.from({ length: count }, (_, i) => {
              const day = calendar.daySerials[calendar.dayIndex[i] ?? 0] ?? 0;
              return tariff.ratePeriods[ratePeriodIndexAt(tariff.ratePeriods, day)]?.exportRatePence ?? 0;
            }),
            ...decidedBy(tariff, calendar, rows),
          };
          const run = runBatteryRule(input, battery);
          const [ofTariff] = workings.tariffs;
          if (ofTariff === undefined) throw new Error('no tariff');
          const { readingRow } = workings.halfHours;
          const levels = numbers(ofTariff.level);
          numbers(readingRow).forEach((row, i) => {
            if (row > 0) expect(levels[i]).toBeCloseTo(run.levelKwh[row - 1] ?? Number.NaN, 8);
          });
          const pence = run.importKwh.reduce((sum, kwh, i) => sum + kwh * (input.unitRatePence[i] ?? 0), 0);
          const inMonths = numbers(ofTariff.batteryMonths.energyPence).reduce((sum, value) => sum + value, 0);
          expect(inMonths).toBeCloseTo(pence, 6);

          const { heatPumpKwh: metered = new Float64Array(count), solarKwh = new Float64Array(count) } =
            rows.channels;
          const use = {
            demandKwh: input.importKwh.map((kwh, i) =>
              Math.max(0, kwh - (input.exportKwh[i] ?? 0) + (solarKwh[i] ?? 0)),
            ),
            heatPumpKwh: metered,
            carKwh: input.carKwh,
          };
          const lowestRates = numbers(ofTariff.lowestRate).slice(0, calendar.daySerials.length);
          const cost = storedEnergyCost(input, use, battery, run, {
            // By a UTC clock the workings take the lowest rate of the UTC day in which the local day begins.
            // By a UTC clock the rule decides by UTC days; a cost is averaged over the days of the home.
            dayIndex: calendar.dayIndex,
            startCostPencePerKwh: Math.max(0, average(lowestRates)) / battery.chargeEfficiency,
          });
          const total = (values: Iterable<number>): number =>
            [...values].reduce((sum, value) => sum + value, 0);
          const { heatPumpPence, carPence, totalPence } = workings.realCost;
          expect(total(numbers(heatPumpPence))).toBeCloseTo(total(cost.heatPumpPence), 5);
          expect(total(numbers(carPence))).toBeCloseTo(total(cost.carPence), 5);
          expect(total(numbers(totalPence))).toBeCloseTo(
            total(cost.heatPumpPence) + total(cost.carPence) + total(cost.restPence),
            5,
          );
        },
      ),
      { seed: 12, numRuns: 30 },
    );
  });

  it('whatever order the rows of readings stand in: no row counts twice, and none is lost', () => {
    const [spring, autumn] = PLACES;
    fc.assert(
      fc.property(
        fc.constantFrom(spring, autumn).chain((place) =>
          fc.record({
            place: fc.constant(place),
            tariff: tariffInPlay(place.first, 5),
            seed: seedArbitrary,
          }),
        ),
        fc.constantFrom('newest first', 'shuffled' as const),
        ({ place, tariff, seed }, kind) => {
          const rows = randomRows(seed, place.zone, place.first, 12, 0.02);
          const inOrder = workingsCase(rows, [tariff], { days: 14 });
          const places = Array.from(rows.startUtcMs, (_, i) => i);
          const order =
            kind === 'newest first'
              ? places.toReversed()
              : places.toSorted((a, b) => mixed(a, seed) - mixed(b, seed));
          const again = workingsCase(rows, [tariff], { days: 14, order });
          const used = again.numbers(again.workings.halfHours.readingRow).filter((row) => row > 0);
          expect(new Set(used).size).toBe(used.length);
          expect(order.filter((_, row) => !used.includes(row + 1))).toEqual([]);
          const [a, b] = [inOrder.workings.tariffs[0], again.workings.tariffs[0]];
          if (a === undefined || b === undefined) throw new Error('no tariff');
          expect(again.period(again.workings.months.importKwh)).toBeCloseTo(
            Number(inOrder.period(inOrder.workings.months.importKwh)),
            9,
          );
          if (place === spring) expect(again.period(b.months.total)).toBe(inOrder.period(a.months.total));
        },
      ),
      { seed: 13, numRuns: 12 },
    );
  });

  describe.each([
    { zone: 'Europe/London', first: Date.UTC(2026, 9, 20, 23), day: 4, again: 2 },
    { zone: 'Australia/Lord_Howe', first: Date.UTC(2027, 2, 31, 13), day: 3, again: 1 },
  ])('readings of an autumn in $zone, sorted by what the clock shows', ({ zone, first, day, again }) => {
    const rows = randomRows(31, zone, first, 8);
    const clock = new ZoneClock(zone, rows.startUtcMs[0]!, rows.startUtcMs.at(-1)!);
    const shown = Array.from(rows.startUtcMs, (start) => start + clock.offsetMinutesAt(start) * 60_000);
    const places = shown.map((_, i) => i);
    const tariff = singleRate('Any', 25, 50, 5);
    const inOrder = workingsCase(rows, [tariff], { days: 14 });
    const byClock = (twins: 1 | -1, up: 1 | -1): number[] =>
      places.toSorted((a, b) => up * (shown[a]! - shown[b]!) || twins * (a - b));

    it.each<[string, number[], boolean]>([
      ['as time goes by', places, true],
      ['ascending, twins as they stood', byClock(1, 1), true],
      ['ascending, twins changed over', byClock(-1, 1), false],
      ['descending, twins as they stood', byClock(1, -1), true],
      ['descending, twins changed over', byClock(-1, -1), false],
      ['newest first', places.toReversed(), false],
    ])(
      '%s: no half-hour is lost or counted twice, and the day has its energy and its cost',
      (_, order, isExact) => {
        const sorted = workingsCase(rows, [tariff], { days: 14, order });
        const { halfHours, days, months } = { ...sorted.workings, days: sorted.workings.tariffs[0]! };
        const used = sorted.numbers(halfHours.readingRow).filter((row) => row > 0);
        expect(used.map((row) => order[row - 1]!).toSorted((a, b) => a - b)).toEqual(places);
        const twins = shown.filter((label, i) => shown.indexOf(label) !== i).length;
        expect(twins).toBe(again);
        const [before, after] = [inOrder, sorted].map((worked) =>
          worked.numbers(worked.workings.halfHours.importKwh),
        );
        const ofDay = (kwh: number[]): number =>
          kwh.slice(day * BLOCK_ROWS, (day + 1) * BLOCK_ROWS).reduce((sum, value) => sum + value, 0);
        expect(ofDay(after!)).toBeCloseTo(ofDay(before!), 9);
        if (isExact) expect(after).toEqual(before);
        expect(sorted.period(days.months.total)).toBe(
          inOrder.period(inOrder.workings.tariffs[0]!.months.total),
        );
        expect(sorted.period(months.importKwh)).toBeCloseTo(
          Number(inOrder.period(inOrder.workings.months.importKwh)),
          9,
        );
      },
    );
  });
});

/** A number that has nothing to do with the place that it is made of. */
function mixed(place: number, seed: number): number {
  return Math.abs(Math.sin((place + 1) * (seed + 1)));
}
