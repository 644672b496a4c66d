import { z } from 'zod';
import type { BatteryCells } from './battery-cells.js';

const notNegative = z.number().min(0);
const share = z.number().gt(0).max(1);

/** The battery of the starting inputs; energy in kWh, power in AC kW, efficiencies as shares. */
export const startingBatterySchema = z.strictObject({
  usableKwh: notNegative,
  chargeKw: z.number().positive(),
  dischargeKw: z.number().positive(),
  chargeEfficiency: share,
  dischargeEfficiency: share,
  reserveKwh: notNegative,
  startKwh: notNegative,
  wearPencePerKwh: notNegative,
  chargeFromGrid: z.boolean(),
  mayFeedCar: z.boolean(),
  mayExport: z.boolean(),
  priceFixedPounds: notNegative,
  pricePoundsPerKwh: notNegative,
});

/** The starting battery as cells. */
export function startingBatteryCells(battery: z.infer<typeof startingBatterySchema>): BatteryCells {
  const { priceFixedPounds, pricePoundsPerKwh, chargeFromGrid, mayFeedCar, mayExport, ...figures } = battery;
  const yesNo = (flag: boolean): string => (flag ? 'yes' : 'no');
  return {
    ...figures,
    roundTripEfficiency: null,
    chargeFromGrid: yesNo(chargeFromGrid),
    mayFeedCar: yesNo(mayFeedCar),
    mayExport: yesNo(mayExport),
    priceFixed: priceFixedPounds,
    pricePerKwh: pricePoundsPerKwh,
    tariff: null,
  };
}
