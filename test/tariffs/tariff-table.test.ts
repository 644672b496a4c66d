import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CellScalar } from '../../src/functions/described-function.js';
import { parseTariffTable, tariffToTable } from '../../src/tariffs/tariff-table.js';
import { validateTariff, validateVatShare } from '../../src/tariffs/validate-tariff.js';
import { tariffArbitrary } from './arbitraries.js';

type Rows = CellScalar[][];
const hour = (hours: number) => hours / 24;
const APRIL = 46_113; // 2026-04-01

describe('a typed tariff table', () => {
  it('is read: base rate, a window, standing charge', () => {
    const tariff = parseTariffTable([
      [null, '', null, 27.5, null, 50],
      [0.0208333, hour(4.5), 'Mon-Fri', 13.5],
      [null, null, null, null, null, null],
    ]);
    expect(tariff.windows).toEqual([
      { fromMinutes: 30, toMinutes: 270, days: [true, true, true, true, true, false, false] },
    ]);
    expect(tariff.ratePeriods).toEqual([
      {
        validFromSerial: 0,
        standingChargePencePerDay: 50,
        baseRatePence: 27.5,
        windowRatesPence: [13.5],
        exportRatePence: 0,
      },
    ]);
  });

  it('takes rates that change in any order of rows', () => {
    const { ratePeriods } = parseTariffTable([
      [hour(1), hour(5), null, 9, APRIL],
      [null, null, null, 30, APRIL, 60],
      [null, null, null, 28, null, 50],
      [hour(1), hour(5), 'every day', 8, null],
    ]);
    expect(
      ratePeriods.map((period) => [period.validFromSerial, period.baseRatePence, period.windowRatesPence]),
    ).toEqual([
      [0, 28, [8]],
      [APRIL, 30, [9]],
    ]);
  });

  it('reads back what it writes', () => {
    fc.assert(
      fc.property(tariffArbitrary, (tariff) => {
        const { ratePeriods: read, ...rest } = parseTariffTable(tariffToTable(tariff), {
          ...tariff,
          exportRatePence: 0,
        });
        const { ratePeriods, ...written } = tariff;
        expect(rest).toEqual(written);
        expect(read).toEqual(ratePeriods.map((period) => ({ ...period, exportRatePence: 0 })));
      }),
      { seed: 2 },
    );
  });

  const base: CellScalar[] = [null, null, null, 28, null, 50];
  it.each<[string, Rows, RegExp]>([
    ['nothing', [[null, null]], /row 1, column 4: the tariff table is empty/],
    ['no base rate', [[0, hour(5), null, 9, null]], /row 1, column 4: the base rate is missing/],
    [
      'a rate that is text',
      [base, [0, hour(5), null, '9p', null]],
      /row 2, column 4: the unit rate "9p" is not a number/,
    ],
    ['a blank rate', [base, [0, hour(5), null, null, null]], /row 2, column 4: the unit rate is missing/],
    [
      'a window off the half-hour',
      [base, [0, hour(5.25), null, 9]],
      /row 2, column 2: the window's end 05:15 is off the half-hour/,
    ],
    [
      'a window without length',
      [base, [hour(5), hour(5), null, 9]],
      /row 2, column 2: .*05:00: it has no length/,
    ],
    ['half a window', [base, [hour(5), null, null, 9]], /row 2, column 2: a window has a start but no end/],
    [
      'a time that is text',
      [base, ['1am', hour(5), null, 9]],
      /row 2, column 1: the window's start "1am" is not a time/,
    ],
    ['a time with a date', [base, [46_000.5, hour(5), null, 9]], /row 2, column 1: .* is not a time of day/],
    [
      'days of no week',
      [base, [0, hour(5), 'Mon-Thu, Sat', 9]],
      /row 2, column 3: the days "Mon-Thu, Sat" are not understood.*list the days/,
    ],
    [
      'a base rate on some days',
      [[null, null, 'Mon-Fri', 9]],
      /row 1, column 3: the base rate is given for "Mon-Fri" only/,
    ],
    [
      'a date that is text',
      [base, [0, hour(5), null, 9, '1 April']],
      /row 2, column 5: "1 April" is not a date/,
    ],
    [
      'a window without a rate from a date',
      [base, [0, hour(5), null, 9], [null, null, null, 29, APRIL, 51]],
      /row 3, column 4: the rate of the window 00:00–05:00 is missing from 2026-04-01/,
    ],
    ['one rate twice', [base, [null, null, null, 29]], /row 2, column 4: the base rate is given twice/],
    [
      'a standing charge for one date only',
      [base, [null, null, null, 29, APRIL]],
      /row 2, column 6: the standing charge is missing from 2026-04-01/,
    ],
    [
      'two standing charges',
      [base, [0, hour(5), null, 9, null, 51]],
      /row 2, column 6: there are two standing charges/,
    ],
    [
      'overlap on some weekdays',
      [base, [hour(22), hour(2), 'Sun', 9], [0, hour(5), 'Mon-Fri', 8]],
      /row 3, column 1: the windows 22:00–02:00 \(Sun\) and 00:00–05:00 \(Mon-Fri\) overlap on Mon at 00:00/,
    ],
    [
      'five windows',
      [base, ...[1, 2, 3, 4, 5].map((at) => [hour(at), hour(at + 0.5), null, 9])],
      /row 6, column 1: there are 5 windows, and a tariff has at most 4/,
    ],
    [
      'six dates',
      [0, 1, 2, 3, 4, 5].map((later) => [null, null, null, 28, APRIL + later]),
      /there are rates from 6 dates, and a tariff has at most 5/,
    ],
  ])('is refused: %s', (_, rows, message) => {
    expect(() => parseTariffTable(rows)).toThrow(message);
  });

  it('lets windows meet, and cross midnight on neighbouring days', () => {
    const rows: Rows = [base, [hour(22), hour(2), 'Sun', 9], [hour(2), hour(5), 'Mon', 8], [0, 1, 'Sat', 7]];
    expect(parseTariffTable(rows).windows).toHaveLength(3);
  });
});

describe('a tariff from elsewhere', () => {
  const tariff = parseTariffTable([[null, null, null, 28, null, 50]]);
  const period = tariff.ratePeriods[0]!;

  it('is refused with the place that the caller knows', () => {
    const wrong = { ...tariff, ratePeriods: [{ ...period, baseRatePence: Number.NaN }] };
    const placeOf = (path: string) => ({
      file: 'home.xlsx',
      line: path === 'ratePeriods[0].baseRatePence' ? 'Tariffs!C12' : path,
    });
    expect(() => validateTariff(wrong, placeOf)).toThrow('home.xlsx, Tariffs!C12: the base rate is missing');
  });

  it.each([
    [
      'dates out of order',
      { ...tariff, ratePeriods: [{ ...period, validFromSerial: APRIL }, period] },
      /stand after those from 2026-04-01/,
    ],
    ['no rates', { ...tariff, ratePeriods: [] }, /has no rate/],
    ['no name', { ...tariff, name: ' ' }, /has no name/],
    ['a negative exit fee', { ...tariff, exitFeePounds: -1 }, /exit fee is -1/],
    [
      'a rate too many',
      { ...tariff, ratePeriods: [{ ...period, windowRatesPence: [9] }] },
      /1 window rates for 0 windows/,
    ],
  ])('is refused: %s', (_, wrong, message) => {
    expect(() => validateTariff(wrong)).toThrow(message);
  });

  it.each([-0.01, 1, 5, Number.NaN])('a VAT share of %d is refused', (share) => {
    expect(() => validateVatShare(share)).toThrow('Write 5 % as 5% or 0.05');
  });
});
