import { expect, it } from 'vitest';
import { EVERY_DAY, type Tariff } from '../../../src/tariffs/tariff.js';
import { parseDays } from '../../../src/tariffs/weekdays.js';
import { randomRows, workingsCase } from './workings-case.js';

const rows = randomRows(1, 'Europe/London', Date.UTC(2026, 5, 30, 23), 1);
/** A window at noon, on days that the case types. */
const tariff: Tariff = {
  name: 'Noon',
  exitFeePounds: 0,
  clock: 'local',
  includesVat: true,
  halfHourlyPriced: false,
  priceIncludesVat: true,
  windows: [{ fromMinutes: 720, toMinutes: 750, days: EVERY_DAY }],
  ratePeriods: [
    {
      validFromSerial: 0,
      standingChargePencePerDay: 0,
      baseRatePence: 20,
      windowRatesPence: [10],
      exportRatePence: 0,
    },
  ],
};

/** The days as the library reads them; undefined where it refuses. */
function library(text: string): readonly boolean[] | undefined {
  try {
    return parseDays(text);
  } catch {
    return undefined;
  }
}

/** The days as the workings read them. */
function workings(text: string): readonly boolean[] | undefined {
  const { workings: found, of, at } = workingsCase(rows, [tariff], { windowDays: text, days: 31 });
  const [rates] = found.rates.tariffs;
  if (rates === undefined) throw new RangeError('there is no tariff');
  if (of(rates.unreadableDays[0] as never) === 1) return undefined;
  return Array.from({ length: 7 }, (_, day) => at(rates.band, day * 48 + 24) === 1);
}

it.each([
  'Every day',
  'Mon-Fri',
  'Mon-Sat',
  'Fri-Mon',
  'Thu – Tuesday',
  'Wed-Wed',
  'Sat-Sun',
  'Friday',
  'friday, SUNDAY',
  'Mon, Wed, Saturday',
  'Tue Thu',
  'Mon Tue Sat',
  'Tue Sun',
  'workdays',
  'Mon-',
  '-Mon',
  'Mon-Tue-Wed',
  'Mon-Thu, Sat',
  'Mon;Tue',
  ',',
  'Mon-Fr',
  ',,,-Mon',
  'TMonue',
  'Mon|Tue',
  ', Mon',
])('library and workings read the days "%s" alike', (text) => {
  expect(workings(text)).toEqual(library(text));
});
