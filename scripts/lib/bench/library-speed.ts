import { parse } from 'csv-parse/sync';
import { parseTariffsFile } from '../../../src/tariffs/parse-tariffs-file.js';
import { priceYear } from '../../../src/tariffs/rate-series.js';
import type { Tariff } from '../../../src/tariffs/tariff.js';
import { halfHourCalendar } from '../../../src/time/half-hour-calendar.js';
import { compareTimes, type Measured, timeBoth } from './measure.js';
import { importOne, meterYear } from './sample-input.js';

/** A year's file through the whole import, against the bare CSV parser on the same bytes. */
export function measureImport(): Measured {
  const file = meterYear();
  const { oursMs, baselineMs } = timeBoth(
    () => importOne(file),
    () => parse(file.bytes as Buffer),
  );
  return compareTimes('Import a year / csv-parse', oursMs, baselineMs, 3);
}

const TARIFFS = 100;

/** A year against a hundred tariffs, against as many bare loops over as many half-hours. */
export function measurePricing(): Measured {
  const { readings } = importOne(meterYear());
  const kwh = readings.channels.importKwh!;
  const calendar = halfHourCalendar(readings.startUtcMs, readings.timeZone);
  const tariffs = hundredTariffs();
  const rates = Float64Array.from(kwh, (_, i) => 10 + (i % 48));
  let sum = 0;
  const { oursMs, baselineMs } = timeBoth(
    () => {
      for (const tariff of tariffs) sum += priceYear(tariff, calendar, kwh, 0.05).energyPence;
    },
    () => {
      for (let t = 0; t < TARIFFS; t++) {
        let cost = 0;
        for (let i = 0; i < kwh.length; i++) cost += kwh[i]! * rates[i]!;
        sum += cost;
      }
    },
  );
  if (!(sum > 0)) throw new Error('the year cost nothing');
  return compareTimes(`Price a year × ${TARIFFS} / bare loop`, oursMs, baselineMs, 5);
}

/** Tariffs of one to five windows and one to four changes of rates. */
function hundredTariffs(): Tariff[] {
  const time = (slot: number): string =>
    `${String(slot >> 1).padStart(2, '0')}:${slot % 2 === 0 ? '00' : '30'}`;
  const tariffs = Array.from({ length: TARIFFS }, (_, t) => {
    const windows = Array.from({ length: t % 5 }, (_, k) => ({
      from: time(8 * k + (t % 4)),
      to: time(8 * k + 4 + (t % 4)),
      days: t % 3 === 0 ? 'Mon-Fri' : undefined,
    }));
    return {
      name: `Tariff ${t}`,
      clock: t % 7 === 0 ? 'utc' : 'local',
      windows,
      ratePeriods: Array.from({ length: 1 + (t % 4) }, (_, p) => ({
        ...(p === 0 ? {} : { validFrom: `2026-0${2 * p}-01` }),
        standingChargePencePerDay: 50,
        baseRatePence: 20 + (t % 15) + p,
        windowRatesPence: windows.map((_, k) => 5 + k + p),
      })),
    };
  });
  return parseTariffsFile(JSON.stringify({ tariffs }), 'benchmark');
}
