import { z } from 'zod';
import { BATTERY_FIELDS, type BatteryKey } from '../fields/battery-fields.js';
import type { BatteryCells } from './battery-cells.js';
import { numberSchema } from './number-schema.js';

const figure = (key: BatteryKey) => numberSchema(BATTERY_FIELDS[key]).optional();

/** The battery of the starting inputs; energy in kWh, power in AC kW, efficiencies as shares. A figure left out stays blank. */
export const startingBatterySchema = z.strictObject({
  usableKwh: figure('usableKwh'),
  chargeKw: figure('chargeKw'),
  dischargeKw: figure('dischargeKw'),
  chargeEfficiency: figure('chargeEfficiency'),
  dischargeEfficiency: figure('dischargeEfficiency'),
  reserveKwh: figure('reserveKwh'),
  startKwh: figure('startKwh'),
  wearPencePerKwh: figure('wearPencePerKwh'),
  chargeFromGrid: z.boolean(),
  mayFeedCar: z.boolean(),
  mayExport: z.boolean(),
  priceFixedPounds: figure('priceFixed'),
  pricePoundsPerKwh: figure('pricePerKwh'),
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
