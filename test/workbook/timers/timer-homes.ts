import type { Tariff } from '../../../src/tariffs/tariff.js';
import { singleRate } from '../../tariffs/single-rate.js';

/** Zones whose clocks change in spring and autumn, by half an hour, at midnight, or never. */
export const PLACES = [
  { zone: 'Europe/London', first: Date.UTC(2026, 2, 25) },
  { zone: 'Europe/London', first: Date.UTC(2026, 9, 19, 23) },
  { zone: 'Australia/Lord_Howe', first: Date.UTC(2027, 3, 1, 13) },
  // Santiago's clock changes at midnight: spring's day begins at 01:00, autumn's has 23:00 twice.
  { zone: 'America/Santiago', first: Date.UTC(2026, 8, 1, 4) },
  { zone: 'America/Santiago', first: Date.UTC(2027, 2, 30, 3) },
  { zone: 'Asia/Kathmandu', first: Date.UTC(2026, 5, 30, 18, 15) },
] as const;

const everyDay = [true, true, true, true, true, true, true] as const;

/** A tariff of one rate. */
export const FLAT = singleRate('One rate', 28, 50, 10);

/** One with cheap hours in the night and dear ones at tea-time. */
export const NIGHTS: Tariff = {
  ...FLAT,
  name: 'Cheap nights',
  windows: [
    { fromMinutes: 30, toMinutes: 270, days: everyDay },
    { fromMinutes: 960, toMinutes: 1140, days: everyDay },
  ],
  ratePeriods: FLAT.ratePeriods.map((period) => ({ ...period, windowRatesPence: [7, 41] })),
};

/** One that follows the half-hourly price. */
export const PRICE: Tariff = { ...FLAT, name: 'By the half-hour', halfHourlyPriced: true };
