import { READING_ROWS } from '../../layout.js';
import type { HalfHourLines } from '../half-hour-lines.js';
import type { BatteryTariffLines, PricedTariff } from './battery-tariff-lines.js';

/** Half-hours of the tariff looked at; one entry a row. */
export interface LookedAtLines {
  unitRatePence: Float64Array;
  batteryKwh: Float64Array;
  levelKwh: Float64Array;
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
    const none = new Float64Array(READING_ROWS);
    return { unitRatePence: none, batteryKwh: none, levelKwh: none, importKwh: halfHours.importKwh };
  }
  const { batteryKwh, levelKwh, importKwh } = tariff.lines.halfHours;
  return { unitRatePence: tariff.priced.halfHours.unitRatePence, batteryKwh, levelKwh, importKwh };
}
