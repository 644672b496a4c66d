import { READING_ROWS } from '../../layout.js';
import type { HalfHourLines } from '../half-hour-lines.js';
import type { BatteryTariffLines, PricedTariff } from './battery-tariff-lines.js';

/** Half-hours of the tariff looked at; one entry a row. */
export interface LookedAtLines {
  unitRatePence: Float64Array;
  /** Import with the battery, kWh. */
  importKwh: Float64Array;
}

/**
 * The half-hours of the tariff looked at.
 *
 * @param tariff its price and battery lines; undefined where none is chosen
 */
export function lookedAtLines(
  tariff: { priced: PricedTariff; lines: BatteryTariffLines } | undefined,
  halfHours: HalfHourLines,
): LookedAtLines {
  if (tariff === undefined) {
    return { unitRatePence: new Float64Array(READING_ROWS), importKwh: halfHours.importKwh };
  }
  return {
    unitRatePence: tariff.priced.halfHours.unitRatePence,
    importKwh: tariff.lines.halfHours.importKwh,
  };
}
