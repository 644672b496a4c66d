import { z } from 'zod';
import type { BatteryCells } from './battery-cells.js';

const notNegative = z.number().min(0).optional();
const positive = z.number().positive().optional();
const share = z.number().gt(0).max(1).optional();

/** The battery of the starting inputs; energy in kWh, power in AC kW, efficiencies as shares. A figure left out stays blank. */
export const startingBatterySchema = z.strictObject({
  usableKwh: notNegative,
  chargeKw: positive,
  dischargeKw: positive,
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
  const yesNo = (flag: boolean): string => (flag ? 'yes' : 'no');
  return {
    usableKwh: battery.usableKwh ?? null,
    chargeKw: battery.chargeKw ?? null,
    dischargeKw: battery.dischargeKw ?? null,
    chargeEfficiency: battery.chargeEfficiency ?? null,
    dischargeEfficiency: battery.dischargeEfficiency ?? null,
    roundTripEfficiency: null,
    reserveKwh: battery.reserveKwh ?? null,
    startKwh: battery.startKwh ?? null,
    wearPencePerKwh: battery.wearPencePerKwh ?? null,
    chargeFromGrid: yesNo(battery.chargeFromGrid),
    mayFeedCar: yesNo(battery.mayFeedCar),
    mayExport: yesNo(battery.mayExport),
    priceFixed: battery.priceFixedPounds ?? null,
    pricePerKwh: battery.pricePoundsPerKwh ?? null,
    tariff: null,
  };
}
