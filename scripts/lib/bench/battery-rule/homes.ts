import { sampleYear } from '../../../../src/sample/sample-year.js';
import { type HalfHourCalendar, halfHourCalendar } from '../../../../src/time/half-hour-calendar.js';

/** A year of a home as the meters would show it without a battery, kWh a half-hour. */
export interface BenchHome {
  name: string;
  calendar: HalfHourCalendar;
  importKwh: Float64Array;
  exportKwh: Float64Array;
  carKwh: Float64Array;
  /** Half-hourly price with VAT, p/kWh. */
  pricePence: Float64Array;
}

/** How much of each part of the sample home a home has. */
interface Parts {
  household: number;
  heatPump: number;
  car: number;
  solar: number;
}

const HOMES: Record<string, Parts> = {
  'heat pump, car, small roof': { household: 1, heatPump: 1, car: 1, solar: 1 },
  'gas, no roof, no car': { household: 1.3, heatPump: 0, car: 0, solar: 0 },
  'heat pump, large roof, no car': { household: 1.1, heatPump: 0.8, car: 0, solar: 2.2 },
};

/**
 * Three invented homes: the sample home, and two made of its parts.
 *
 * @returns a year of each
 * @example benchHomes()[1].exportKwh.every((kwh) => kwh === 0) // true
 */
export function benchHomes(): BenchHome[] {
  const year = sampleYear();
  const calendar = halfHourCalendar(year.startUtcMs, year.timeZone);
  return Object.entries(HOMES).map(([name, { household, heatPump, car, solar }]) => {
    const count = year.startUtcMs.length;
    const home: BenchHome = {
      name,
      calendar,
      importKwh: new Float64Array(count),
      exportKwh: new Float64Array(count),
      carKwh: new Float64Array(count),
      pricePence: year.pricePence,
    };
    for (let i = 0; i < count; i++) {
      const charge = car * year.carKwh[i]!;
      const used = household * year.householdKwh[i]! + heatPump * year.heatPumpKwh[i]! + charge;
      const net = used - solar * year.solarKwh[i]!;
      home.importKwh[i] = Math.max(0, net);
      home.exportKwh[i] = Math.max(0, -net);
      home.carKwh[i] = Math.min(charge, home.importKwh[i]!);
    }
    return home;
  });
}
