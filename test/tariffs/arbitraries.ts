import fc from 'fast-check';
import type { CellArgument, CellScalar } from '../../src/functions/described-function.js';
import {
  MAX_RATE_PERIODS,
  MAX_WINDOWS,
  type RateWindow,
  type Tariff,
  type Weekdays,
} from '../../src/tariffs/tariff.js';
import { tariffToTable } from '../../src/tariffs/tariff-table.js';
import { validateWindows } from '../../src/tariffs/validate-tariff.js';
import { formatDays } from '../../src/tariffs/weekdays.js';

/** 1 January 2024, a Monday. */
const FIRST_SERIAL = 45_292;
const DAYS = 1100;

/** Money or energy with a few decimals, as people type it. */
const decimal = (max: number, decimals = 3): fc.Arbitrary<number> =>
  fc.integer({ min: 0, max: max * 10 ** decimals }).map((units) => units / 10 ** decimals);

export const weekdaysArbitrary: fc.Arbitrary<Weekdays> = fc
  .tuple(...(Array.from({ length: 7 }, () => fc.boolean()) as fc.Arbitrary<boolean>[]))
  .map((flags) => (flags.includes(true) ? flags : flags.map(() => true)) as unknown as Weekdays);

/** A window on the half-hour, often across midnight. */
export const windowArbitrary: fc.Arbitrary<RateWindow> = fc
  .record({
    first: fc.integer({ min: 0, max: 47 }),
    length: fc.integer({ min: 1, max: 48 }),
    days: weekdaysArbitrary,
  })
  .map(({ first, length, days }) => {
    const end = (first + length) % 48;
    // 24 hours from another start than midnight would be a window without length: half an hour less.
    const last = end === first && first !== 0 ? end - 1 : end;
    return { fromMinutes: first * 30, toMinutes: last === 0 ? 1440 : last * 30, days };
  });

const ratePeriodArbitrary = fc.record({
  validFromSerial: fc.integer({ min: FIRST_SERIAL, max: FIRST_SERIAL + DAYS }),
  standingChargePencePerDay: decimal(60),
  baseRatePence: decimal(60),
  /** One for each window that a tariff may have. */
  windowRatesPence: fc.array(decimal(60), { minLength: MAX_WINDOWS, maxLength: MAX_WINDOWS }),
  exportRatePence: decimal(60),
});

/** A valid tariff: up to four windows that do not overlap, up to five dates. */
export const tariffArbitrary: fc.Arbitrary<Tariff> = fc
  .record({
    clock: fc.constantFrom('local' as const, 'utc' as const),
    includesVat: fc.boolean(),
    priceIncludesVat: fc.boolean(),
    exitFeePounds: decimal(150, 0),
    candidates: fc.array(windowArbitrary, { maxLength: 6 }),
    periods: fc.uniqueArray(ratePeriodArbitrary, {
      minLength: 1,
      maxLength: MAX_RATE_PERIODS,
      selector: ({ validFromSerial }) => validFromSerial,
    }),
    startsBlank: fc.boolean(),
  })
  .map(({ candidates, periods, startsBlank, ...rest }) => {
    const windows: RateWindow[] = [];
    for (const window of candidates) {
      if (isValid([...windows, window])) windows.push(window);
    }
    const sorted = periods.toSorted((a, b) => a.validFromSerial - b.validFromSerial);
    return {
      ...rest,
      name: 'Any',
      halfHourlyPriced: false,
      windows,
      ratePeriods: sorted.map((period, index) => ({
        ...period,
        validFromSerial: index === 0 && startsBlank ? 0 : period.validFromSerial,
        windowRatesPence: period.windowRatesPence.slice(0, windows.length),
      })),
    };
  });

/** Tariffs, half-hourly priced too, whose changes of rates fall into days of readings: some days apart, from the first on. */
export const tariffInPlay = (firstUtcMs: number, daysApart: number): fc.Arbitrary<Tariff> =>
  fc.tuple(tariffArbitrary, fc.boolean()).map(([tariff, halfHourlyPriced]) => ({
    ...tariff,
    name: 'Any',
    halfHourlyPriced,
    ratePeriods: tariff.ratePeriods.map((period, p) => ({
      ...period,
      validFromSerial: p === 0 ? 0 : Math.floor(firstUtcMs / 86_400_000) + 25_569 + daysApart * p,
    })),
  }));

function isValid(windows: readonly RateWindow[]): boolean {
  try {
    validateWindows(windows);
    return true;
  } catch {
    return false;
  }
}

/** The cell shape of a tariff, at times with a blank row at its end, as people select one too many. */
const tariffTable: fc.Arbitrary<CellArgument> = fc
  .tuple(tariffArbitrary, fc.boolean(), fc.boolean())
  .map(([tariff, blankRow, reversed]) => {
    const rows = tariffToTable(tariff);
    if (reversed) rows.reverse();
    return blankRow ? [...rows, [null, null, null, null, null, null]] : rows;
  });

/** A date and time; half of them on the half-hour with the rounding of a typed or pasted figure. */
const dateTime: fc.Arbitrary<number> = fc.oneof(
  fc
    .integer({ min: 0, max: DAYS * 48 })
    .map((halfHours) => Number((FIRST_SERIAL + halfHours / 48).toFixed(7))),
  fc.integer({ min: 0, max: DAYS * 48 }).map((halfHours) => FIRST_SERIAL + halfHours / 48),
  fc.integer({ min: 0, max: DAYS * 86_400 }).map((seconds) => FIRST_SERIAL + seconds / 86_400),
);

const windowCells: fc.Arbitrary<[number, number, CellScalar]> = fc
  .tuple(
    windowArbitrary,
    fc.constantFrom<(text: string) => CellScalar>(
      (text) => text,
      (text) => text.toLowerCase(),
      (text) => text.replaceAll(', ', ' '),
      (text) => (/^[A-Z][a-z]{2}(,|$)/.test(text) ? `, ${text}` : text),
      (text) => (text === 'Every day' ? null : text),
    ),
  )
  .map(([window, spell]) => [
    window.fromMinutes / 1440,
    window.toMinutes / 1440,
    spell(formatDays(window.days)),
  ]);

const column = (value: fc.Arbitrary<number>, rows: number): fc.Arbitrary<CellArgument> =>
  fc.array(value, { minLength: rows, maxLength: rows }).map((values) => values.map((each) => [each]));

/** Both columns of readings, as long as one another. */
const readings: fc.Arbitrary<[CellArgument, CellArgument]> = fc
  .integer({ min: 1, max: 12 })
  .chain((rows) => fc.tuple(column(dateTime, rows), column(decimal(5), rows)));

const days: fc.Arbitrary<[number, number]> = fc
  .tuple(fc.integer({ min: 0, max: DAYS }), fc.integer({ min: 0, max: 400 }))
  .map(([first, length]) => [FIRST_SERIAL + first, FIRST_SERIAL + first + length]);

/** Arguments of every electricity function, by name, as cells hold them; all valid. */
export const electricityArguments: Readonly<Record<string, fc.Arbitrary<CellArgument[]>>> = {
  unitRateAt: fc.tuple(dateTime, tariffTable),
  unitRatesAt: fc.tuple(column(dateTime, 5), tariffTable),
  isInWindow: fc.tuple(dateTime, windowCells).map(([time, window]) => [time, ...window]),
  windowShare: fc
    .tuple(dateTime, fc.integer({ min: 1, max: 1440 }), windowCells)
    .map(([start, minutes, window]) => [start, start + minutes / 1440 - 1 / 864_000, ...window]),
  halfHoursInDay: fc
    .tuple(
      fc.integer({ min: 0, max: DAYS }),
      fc.uniqueArray(fc.tuple(fc.integer({ min: 0, max: DAYS }), fc.constantFrom(-60, -30, 30, 60)), {
        minLength: 1,
        maxLength: 8,
        selector: ([day]) => day,
      }),
      fc.boolean(),
    )
    .map(([day, changes, onChange]) => [
      FIRST_SERIAL + (onChange ? (changes[0]?.[0] ?? day) : day),
      changes.map(([date, minutes]) => [FIRST_SERIAL + date, minutes]),
    ]),
  energyCost: fc
    .integer({ min: 1, max: 12 })
    .chain((rows) => fc.tuple(column(decimal(5), rows), column(decimal(60, 2), rows))),
  energyCostOnTariff: fc.tuple(readings, tariffTable).map(([[times, kwh], table]) => [times, kwh, table]),
  standingCharge: fc.tuple(days, decimal(80, 2)).map(([[first, last], charge]) => [first, last, charge]),
  standingChargeOnTariff: fc.tuple(days, tariffTable).map(([[first, last], table]) => [first, last, table]),
  addVat: fc.tuple(decimal(500), decimal(0.99, 2)),
  removeVat: fc.tuple(decimal(500), decimal(0.99, 2)),
  exportCredit: fc.tuple(column(decimal(5), 6), decimal(30, 2)),
  monthBill: fc.tuple(decimal(300, 4), decimal(30, 4), decimal(60, 4), fc.constantFrom(0, 0.05, 0.2)),
  allInUnitCost: fc.tuple(
    decimal(300),
    decimal(30),
    decimal(2000).map((kwh) => kwh + 1),
  ),
  offPeakKwh: fc.tuple(readings, windowCells).map(([[times, kwh], window]) => [times, kwh, ...window]),
  offPeakShare: fc
    .tuple(readings, windowCells)
    .filter(([[, kwh]]) => (kwh as [number][]).some(([value]) => value > 0))
    .map(([[times, kwh], window]) => [times, kwh, ...window]),
  breakEvenOffPeakShare: fc
    .tuple(
      decimal(60, 2),
      decimal(30, 2),
      decimal(40, 2),
      fc.integer({ min: -4000, max: 4000 }),
      decimal(40, 1),
    )
    .map(([single, offPeak, spread, extra, perDay]) => [
      single,
      offPeak + spread + 0.5,
      offPeak,
      extra / 100,
      perDay + 0.1,
    ]),
  breakEvenRate: fc.tuple(
    decimal(60, 2),
    decimal(3000, 1).map((kwh) => kwh + 1),
    decimal(2000, 2),
    decimal(2000, 2),
  ),
};
