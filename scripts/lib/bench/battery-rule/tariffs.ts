import { EVERY_DAY, type RateWindow, type Tariff, type Weekdays } from '../../../../src/tariffs/tariff.js';

const WORKDAYS: Weekdays = [true, true, true, true, true, false, false];
const WEEKEND: Weekdays = [false, false, false, false, false, true, true];

/** A window in hours, with its rate. */
type Window = readonly [from: number, to: number, rate: number, days?: Weekdays];

/** A tariff to try the rule on; `sells`: the battery may export. */
export interface BenchTariff {
  tariff: Tariff;
  sells: boolean;
}

function tariff(
  name: string,
  base: number,
  windows: readonly Window[],
  { exportRate = 4, sells = false, priced = false, clock = 'local' as Tariff['clock'] } = {},
): BenchTariff {
  return {
    sells,
    tariff: {
      name,
      clock,
      includesVat: true,
      priceIncludesVat: true,
      halfHourlyPriced: priced,
      exitFeePounds: 0,
      windows: windows.map(
        ([from, to, , days]): RateWindow => ({
          fromMinutes: from * 60,
          toMinutes: to * 60,
          days: days ?? EVERY_DAY,
        }),
      ),
      ratePeriods: [
        {
          validFromSerial: 0,
          standingChargePencePerDay: 50,
          baseRatePence: base,
          windowRatesPence: windows.map(([, , rate]) => rate),
          exportRatePence: exportRate,
        },
      ],
    },
  };
}

/** Invented tariffs of every kind: one to four rates, by the day and by the week, selling, by a half-hourly price. */
export const BENCH_TARIFFS: readonly BenchTariff[] = [
  tariff('one rate', 26, []),
  tariff('one rate, export 15', 26, [], { exportRate: 15 }),
  tariff('night 4 h, wide', 28, [[0.5, 4.5, 8.5]]),
  tariff('night 4 h, export 15', 28, [[0.5, 4.5, 8.5]], { exportRate: 15 }),
  tariff('night 7 h', 29, [[0, 7, 14]]),
  tariff('night 7 h by UTC', 29, [[0, 7, 14]], { clock: 'utc' }),
  tariff('night 7 h, narrow', 27, [[0, 7, 20]]),
  tariff('night 5 h past midnight', 30, [[23.5, 5.5, 7]]),
  tariff('night 2 h', 27, [[2, 4, 9]]),
  tariff('midday 3 h', 27, [[12, 15, 12]]),
  tariff('night and midday', 28, [
    [1, 5, 12],
    [13, 16, 12],
  ]),
  tariff('evening peak', 24, [[16, 19, 38]]),
  tariff('evening peak, mild', 25, [[17, 20, 31]]),
  tariff('two peaks', 22, [
    [7, 9, 34],
    [17, 20, 34],
  ]),
  tariff('night and peak', 24, [
    [2, 5, 10],
    [16, 20, 38],
  ]),
  tariff('night and peak, wide', 26, [
    [2, 5, 13],
    [16, 19, 42],
  ]),
  tariff('night, midday, peak', 27, [
    [1, 5, 14],
    [13, 16, 14],
    [16, 19, 40],
  ]),
  tariff('three rates', 22, [
    [0, 6, 15],
    [7, 10, 30],
    [16, 20, 36],
  ]),
  tariff('four rates', 24, [
    [0, 5, 9],
    [5, 7, 16],
    [12, 15, 16],
    [16, 20, 39],
  ]),
  tariff('four rates, close', 25, [
    [0, 6, 17],
    [10, 15, 21],
    [16, 20, 33],
  ]),
  tariff('weekend', 29, [[0, 24, 19, WEEKEND]]),
  tariff('weekend, wide', 30, [[0, 24, 9, WEEKEND]]),
  tariff('weekend night', 27, [[0, 6, 10, WEEKEND]]),
  tariff('weekday peak', 23, [[16, 20, 40, WORKDAYS]]),
  tariff('weekday night and peak', 26, [
    [0, 5, 12],
    [16, 19, 38, WORKDAYS],
  ]),
  tariff('weekend and night', 28, [
    [0, 5, 13, WORKDAYS],
    [0, 24, 16, WEEKEND],
  ]),
  tariff('sells, narrow', 22, [[1, 6, 11]], { exportRate: 23, sells: true }),
  tariff('sells all day', 24, [[0, 5, 8]], { exportRate: 25, sells: true }),
  tariff('night, sells what is left', 28, [[0.5, 5.5, 8]], { exportRate: 15, sells: true }),
  tariff(
    'night and peak, sells what is left',
    27,
    [
      [2, 5, 12],
      [16, 19, 38],
    ],
    { exportRate: 20, sells: true },
  ),
  tariff('may export, does not pay', 26, [[0.5, 4.5, 9]], { exportRate: 6, sells: true }),
  tariff('half-hourly price', 0, [], { priced: true }),
  tariff('half-hourly price, export 12', 0, [], { priced: true, exportRate: 12 }),
  tariff('half-hourly price and peak', 1, [[16, 19, 12]], { priced: true }),
];
