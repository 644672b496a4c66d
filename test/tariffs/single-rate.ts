import type { Tariff } from '../../src/tariffs/tariff.js';

/** A tariff of one rate from the beginning, with VAT in it; pence a kWh and a day. */
export function singleRate(
  name: string,
  ratePence: number,
  standingPence: number,
  exportPence: number,
): Tariff {
  return {
    name,
    clock: 'local',
    includesVat: true,
    halfHourlyPriced: false,
    priceIncludesVat: true,
    exitFeePounds: 0,
    windows: [],
    ratePeriods: [
      {
        validFromSerial: 0,
        standingChargePencePerDay: standingPence,
        baseRatePence: ratePence,
        windowRatesPence: [],
        exportRatePence: exportPence,
      },
    ],
  };
}
