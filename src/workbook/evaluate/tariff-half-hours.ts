import type { ReadingRows } from '../inputs/workbook-inputs.js';
import { BANDS, READING_ROWS } from '../layout.js';
import type { TariffDayLines } from './day-lines.js';
import type { HalfHourLines } from './half-hour-lines.js';
import type { RateLines } from './rate-lines.js';

/** What the half-hours cost on one tariff; one entry a row of the half-hours sheet. */
export interface TariffHalfHours {
  /** p/kWh with VAT. */
  unitRatePence: Float64Array;
  /** Import without a battery × unit rate, pence. */
  energyCostPence: Float64Array;
  /** Import without a battery in half-hours at the tariff's lowest rate, kWh. */
  offPeakKwh: Float64Array;
}

export function tariffHalfHours(
  halfHours: HalfHourLines,
  readings: ReadingRows,
  rates: RateLines,
  days: TariffDayLines,
): TariffHalfHours {
  const unitRatePence = new Float64Array(READING_ROWS);
  const energyCostPence = new Float64Array(READING_ROWS);
  const offPeakKwh = new Float64Array(READING_ROWS);
  const weekSlot = rates.clockIsUtc ? halfHours.weekSlotUtc : halfHours.weekSlotLocal;
  const price = readings.values.pricePence;
  for (let row = 0; row < READING_ROWS; row++) {
    const day = halfHours.dayNumber[row]!;
    if (day === 0) continue;
    const period = days.ratePeriod[day - 1]! - 1;
    const banded = rates.rateWithVat[period * BANDS + rates.band[weekSlot[row]! - 1]!]!;
    const rate = banded + (rates.isHalfHourly ? (price[row]! || 0) * rates.vatFactor : 0);
    const importKwh = halfHours.importKwh[row]!;
    unitRatePence[row] = rate;
    energyCostPence[row] = rate * importKwh;
    offPeakKwh[row] = rate === rates.offPeakRate[period] ? importKwh : 0;
  }
  return { unitRatePence, energyCostPence, offPeakKwh };
}
