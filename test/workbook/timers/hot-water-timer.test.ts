import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rateSeries } from '../../../src/tariffs/rate-series.js';
import { halfHourCalendar } from '../../../src/time/half-hour-calendar.js';
import { assumedLoad } from '../../../src/timers/assumed-load.js';
import { leastCostOfLoad, loadCost } from '../../../src/timers/least-cost-of-load.js';
import { movedLoad } from '../../../src/timers/moved-load.js';
import { netWithTimers } from '../../../src/timers/net-with-timers.js';
import { type Rows, randomRows, type TimersCase, workingsCase } from '../workings/workings-case.js';
import { FLAT, NIGHTS, PLACES, PRICE } from './timer-homes.js';

const DAYS = 10;
const TARIFFS = [FLAT, NIGHTS, PRICE];
const VAT = 0.05;
const NONE = new Float64Array(0);
const end = (from: number, length: number): number =>
  (from + length) % 48 === 0 ? 48 : (from + length) % 48;
const hoursOf = (from: number, to: number) => ({ fromMinutes: from * 30, toMinutes: to * 30 });
/** What the tank is assumed to have taken of what was neither sold nor the car’s, kWh a half-hour. */
function heatedKwh(
  { channels }: Rows,
  localSerial: Float64Array,
  kwhPerDay: number,
  hours: ReturnType<typeof hoursOf>,
): Float64Array {
  const { importKwh = NONE, exportKwh = NONE, solarKwh = NONE, carKwh = NONE } = channels;
  const rest = importKwh.map((kwh, i) => Math.max(0, kwh - exportKwh[i]! + solarKwh[i]! - carKwh[i]!));
  return assumedLoad(localSerial, rest, { kwhPerDay, hours }).loadKwh;
}
const slot = fc.integer({ min: 0, max: 47 });
const length = fc.integer({ min: 1, max: 47 });

describe('the hot water with its timer, beside the car with its own', () => {
  it('imports, exports and costs what the library says', () => {
    fc.assert(
      fc.property(
        fc.record({
          place: fc.constantFrom(...PLACES),
          seed: fc.integer({ min: 1, max: 1_000_000 }),
          from: slot,
          length,
          heatedFrom: slot,
          heatedLength: length,
          powerKw: fc.constantFrom(1, 3),
          kwhPerDay: fc.constantFrom(0.5, 2, 40),
          carIsOn: fc.boolean(),
        }),
        (drawn) => {
          const rows = randomRows(drawn.seed, drawn.place.zone, drawn.place.first, DAYS);
          const to = end(drawn.from, drawn.length);
          const heatedTo = end(drawn.heatedFrom, drawn.heatedLength);
          const timers: TimersCase = {
            car: { isOn: drawn.carIsOn ? 'yes' : 'no', from: 1 / 48, to: 9 / 48, powerKw: 7.2 },
            hotWater: {
              isOn: 'yes',
              from: drawn.from / 48,
              to: to / 48,
              powerKw: drawn.powerKw,
              kwhPerDay: drawn.kwhPerDay,
              heatedFrom: drawn.heatedFrom / 48,
              heatedTo: heatedTo / 48,
            },
          };
          const found = workingsCase(rows, TARIFFS, { days: DAYS, vatShare: VAT, timers });
          const calendar = halfHourCalendar(rows.startUtcMs, rows.zone);
          const { localSerial } = calendar;
          const { importKwh = NONE, exportKwh = NONE, carKwh = NONE } = rows.channels;
          const loadKwh = heatedKwh(rows, localSerial, drawn.kwhPerDay, hoursOf(drawn.heatedFrom, heatedTo));
          const timer = { isOn: true, hours: hoursOf(drawn.from, to), powerKw: drawn.powerKw };
          const { movedKwh } = movedLoad({ localSerial, loadKwh }, timer);
          const car = movedLoad(
            { localSerial, loadKwh: carKwh },
            { isOn: drawn.carIsOn, hours: hoursOf(1, 9), powerKw: 7.2 },
          );
          const net = netWithTimers({ importKwh, exportKwh }, [
            { loadKwh, movedKwh },
            { loadKwh: carKwh, movedKwh: car.movedKwh },
          ]);
          const rowOf = found.numbers(found.workings.halfHours.readingRow);
          for (const [column, expected] of [
            [found.workings.halfHours.importKwh, net.importKwh],
            [found.workings.halfHours.exportKwh, net.exportKwh],
          ] as const) {
            const values = found.numbers(column);
            rowOf.forEach((row, i) => {
              if (row > 0) expect(Math.abs(values[i]! - expected[row - 1]!)).toBeLessThan(1e-9);
            });
          }
          TARIFFS.forEach((tariff, t) => {
            const price = tariff.halfHourlyPriced ? rows.channels.pricePence : undefined;
            const unitRatePence = rateSeries(tariff, calendar, VAT, price);
            const { asMeteredPence, changePence } = found.workings.tariffs[t]!.timerMonths.water;
            const before = loadCost(loadKwh, unitRatePence);
            expect(Number(found.of(asMeteredPence))).toBeCloseTo(before, 6);
            expect(Number(found.of(changePence))).toBeCloseTo(loadCost(movedKwh, unitRatePence) - before, 6);
          });
        },
      ),
      { seed: 31, numRuns: 25 },
    );
  });

  it('reaches the least of the library, session by session, where it is told', () => {
    let told = 0;
    let withSomethingToSave = 0;
    fc.assert(
      fc.property(
        fc.record({
          place: fc.constantFrom(...PLACES),
          seed: fc.integer({ min: 1, max: 1_000_000 }),
          // Hours that do not take in noon.
          from: fc.integer({ min: 24, max: 47 }),
          length: fc.integer({ min: 4, max: 24 }),
          heatedFrom: slot,
          kwhPerDay: fc.constantFrom(0.5, 2),
          isOn: fc.boolean(),
        }),
        (drawn) => {
          const rows = randomRows(drawn.seed, drawn.place.zone, drawn.place.first, DAYS);
          const [to, heatedTo] = [end(drawn.from, drawn.length), end(drawn.heatedFrom, 8)];
          const hotWater = {
            isOn: drawn.isOn ? 'yes' : 'no',
            from: drawn.from / 48,
            to: to / 48,
            powerKw: 3,
            kwhPerDay: drawn.kwhPerDay,
            heatedFrom: drawn.heatedFrom / 48,
            heatedTo: heatedTo / 48,
          };
          const found = workingsCase(rows, TARIFFS, { days: DAYS, vatShare: VAT, timers: { hotWater } });
          const calendar = halfHourCalendar(rows.startUtcMs, rows.zone);
          const { localSerial } = calendar;
          const load = {
            localSerial,
            loadKwh: heatedKwh(rows, localSerial, drawn.kwhPerDay, hoursOf(drawn.heatedFrom, heatedTo)),
          };
          const timer = { isOn: drawn.isOn, hours: hoursOf(drawn.from, to), powerKw: 3 };
          const { movedKwh } = movedLoad(load, timer);
          const firstNoon = Math.floor(localSerial[0]! + 1e-6) + 0.5;
          const sessionOf = Array.from(localSerial, (start) => Math.floor(start - firstNoon + 1e-6));
          TARIFFS.forEach((tariff, t) => {
            const price = tariff.halfHourlyPriced ? rows.channels.pricePence : undefined;
            const unitRatePence = rateSeries(tariff, calendar, VAT, price);
            const least = leastCostOfLoad(load, timer, unitRatePence);
            const { lastRate, beyondLeast } = found.workings.tariffs[t]!.timerDays.water;
            for (let session = 0; session < DAYS; session++) {
              if (found.at(lastRate, session) === '') continue;
              const expected = sessionOf.reduce(
                (sum, of, i) =>
                  of === session ? sum + (movedKwh[i]! - least.movedKwh[i]!) * unitRatePence[i]! : sum,
                0,
              );
              expect(Number(found.at(beyondLeast, session))).toBeCloseTo(expected, 6);
              told++;
              if (expected > 1) withSomethingToSave++;
            }
            const {
              asMeteredPence,
              changePence,
              beyondLeast: ofPeriod,
            } = found.workings.tariffs[t]!.timerMonths.water;
            const [asMetered, change, beyond] = [asMeteredPence, changePence, ofPeriod].map((line) =>
              Number(found.of(line)),
            ) as [number, number, number];
            // What can't be told counts as it is: with the timer never below the least of its hours.
            if (drawn.isOn) expect(asMetered + change - beyond).toBeGreaterThan(least.costPence - 1e-6);
          });
        },
      ),
      { seed: 32, numRuns: 20 },
    );
    expect(told).toBeGreaterThan(100);
    expect(withSomethingToSave).toBeGreaterThan(20);
  });

  it('takes no more than was metered in its hours, and is nothing while its hours are not typed', () => {
    const [place] = PLACES;
    const rows = randomRows(7, place.zone, place.first, DAYS);
    const none = workingsCase(rows, [FLAT], { days: DAYS });
    expect(none.numbers(none.workings.halfHours.couldBeWaterKwh).every((kwh) => kwh === 0)).toBe(true);
    expect(none.numbers(none.workings.halfHours.waterChangeKwh).every((kwh) => kwh === 0)).toBe(true);
  });
});
