import { tzOffset } from '@date-fns/tz';
import type { CellScalar } from '../../src/functions/described-function.js';
import { sampleYear } from '../../src/sample/sample-year.js';

/** A two-rate tariff whose rates change once, as a person types it. */
export const SAMPLE_TARIFF_TABLE: readonly (readonly CellScalar[])[] = [
  [null, null, null, 28.5, null, 52],
  [0.5 / 24, 5.5 / 24, 'Every day', 11.25, null, null],
  [22 / 24, 1, 'Sat, Sun', 19.75, null, null],
];

/** The sample home's year as columns of a sheet, times by the wall clock. */
export function sampleColumns(): {
  localStart: number[];
  importKwh: number[];
  unitRatePence: number[];
  battery: (readonly CellScalar[])[];
} {
  const { startUtcMs, importKwh, pricePence, timeZone } = sampleYear();
  return {
    localStart: [...startUtcMs].map(
      (utcMs) => (utcMs + tzOffset(timeZone, new Date(utcMs)) * 60_000) / 86_400_000 + 25_569,
    ),
    importKwh: [...importKwh],
    unitRatePence: [...pricePence],
    battery: [10, 5, 5, 0.95, 0.95, 1, 5, 0.5, 'yes', 'no', 'no'].map((value) => [value]),
  };
}
