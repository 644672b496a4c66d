import { requirePositive } from '../functions/require-number.js';
import { assertColumn } from './timer.js';

/** The most that the grid connection carries. */
export interface LargestImport {
  /** Place of the half-hour with the largest import, the first of equals; −1 without half-hours. */
  halfHour: number;
  /** Its import as a mean power over the half-hour, kW. */
  importKw: number;
  /** Half-hours above the supply's limit; undefined where no limit is known: not checked. */
  halfHoursAboveLimit: number | undefined;
}

/**
 * The largest import of any half-hour, against the limit of the supply. A mean over half an hour: within it the power may
 * have been higher. Common practice, no source.
 *
 * @param importKwh import, kWh, 0 or more, one a half-hour
 * @param supplyLimitKw what the supply may carry, kW, above 0; undefined: not checked
 * @returns place of the half-hour from 0, its mean power in kW, and a count of the half-hours above the limit
 * @throws InputError when an import is missing or negative or the limit is not above 0
 * @example largestImport(Float64Array.of(1, 5, 2), 9) // { halfHour: 1, importKw: 10, halfHoursAboveLimit: 1 }
 */
export function largestImport(importKwh: Float64Array, supplyLimitKw?: number): LargestImport {
  assertColumn('importKwh', importKwh, importKwh.length, 0);
  let halfHour = importKwh.length === 0 ? -1 : 0;
  for (let i = 1; i < importKwh.length; i++) if (importKwh[i]! > importKwh[halfHour]!) halfHour = i;
  const importKw = 2 * (importKwh[halfHour] ?? 0);
  if (supplyLimitKw === undefined) return { halfHour, importKw, halfHoursAboveLimit: undefined };
  const limitKw = requirePositive(supplyLimitKw, 'supplyLimitKw');
  const halfHoursAboveLimit = importKwh.filter((kwh) => 2 * kwh > limitKw).length;
  return { halfHour, importKw, halfHoursAboveLimit };
}
