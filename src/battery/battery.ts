import { InputError } from '../errors.js';
import { TOLERANCE } from './battery-constants.js';

/** A home battery as the meter sees it: energy and power on the AC side, level inside. */
export interface Battery {
  /** Energy between empty and full, stored kWh; 0: no battery. */
  usableKwh: number;
  /** Most AC power taken while charging, kW. */
  chargeKw: number;
  /** Most AC power given while discharging, kW. */
  dischargeKw: number;
  /** Stored kWh per AC kWh taken, above 0, at most 1. */
  chargeEfficiency: number;
  /** AC kWh given per stored kWh, above 0, at most 1. */
  dischargeEfficiency: number;
  /** Level below which it does not discharge, stored kWh. */
  reserveKwh: number;
  /** Level before the first half-hour, stored kWh; more than usable counts as full, less than the reserve is allowed. */
  startKwh: number;
  /** Wear, p per kWh delivered AC. */
  wearPencePerKwh: number;
  chargeFromGrid: boolean;
  mayFeedCar: boolean;
  mayExport: boolean;
}

/** What the battery meets, half-hour by half-hour; all arrays have the same length, a missing half-hour is 0 kWh. */
export interface BatteryInput {
  /** Grid import without a battery, after solar, kWh. */
  importKwh: Float64Array;
  /** Surplus exported without a battery, kWh. */
  exportKwh: Float64Array;
  /** Part of the import that is the car, kWh. */
  carKwh: Float64Array;
  /** p/kWh of import. */
  unitRatePence: Float64Array;
  /** p/kWh paid for export. */
  exportRatePence: Float64Array;
  /**
   * Day by which the rule decides, of each half-hour, counted from 0, never falling: the local day, or that of the
   * tariff's clock.
   */
  dayIndex: Int32Array;
  /**
   * p/kWh by which the rule decides; by default `unitRatePence`. The workbook takes the half-hourly price alone for tariffs
   * that follow one.
   */
  ruleRatePence?: Float64Array;
  /**
   * Rates of each whole day, p/kWh, in any order, by which the rule finds the day's thresholds; by default those of its
   * half-hours. A span may begin or end within a day of the tariff's clock.
   */
  dayRatesPence?: readonly Float64Array[];
  /** false where the rule does not sell, whatever the battery may; by default true. */
  ruleSells?: boolean;
}

/** Hours in a half-hour: AC kW times this is the most kWh of one half-hour. */
export const HALF_HOUR_HOURS = 0.5;

/**
 * Two equal efficiencies that make one round trip, for a battery whose maker states only that. Common practice, no source.
 *
 * @param roundTripEfficiency AC kWh out per AC kWh in, above 0, at most 1
 * @returns efficiency of charging and of discharging, each its square root
 * @throws InputError when the share is not above 0 and at most 1
 * @example splitRoundTrip(0.81) // { chargeEfficiency: 0.9, dischargeEfficiency: 0.9 }
 */
export function splitRoundTrip(roundTripEfficiency: number): {
  chargeEfficiency: number;
  dischargeEfficiency: number;
} {
  assertEfficiency('round-trip efficiency', roundTripEfficiency);
  const oneWay = Math.sqrt(roundTripEfficiency);
  return { chargeEfficiency: oneWay, dischargeEfficiency: oneWay };
}

/**
 * Checks a battery.
 *
 * A reserve above the usable capacity is no error: such a battery never discharges, as in the workbook while a
 * user tries small capacities.
 *
 * @param battery units as in {@link Battery}
 * @throws InputError naming the figure that can't be used
 * @example assertBattery({ ...battery, chargeEfficiency: 90 }) // throws: charge efficiency is 90 ...
 */
export function assertBattery(battery: Battery): void {
  const notNegative: [string, number, string][] = [
    ['usable capacity', battery.usableKwh, 'kWh'],
    ['charge power', battery.chargeKw, 'kW'],
    ['discharge power', battery.dischargeKw, 'kW'],
    ['reserve', battery.reserveKwh, 'kWh'],
    ['starting level', battery.startKwh, 'kWh'],
    ['wear', battery.wearPencePerKwh, 'p/kWh'],
  ];
  for (const [name, value, unit] of notNegative) {
    if (!(Number.isFinite(value) && value >= 0)) {
      throw new InputError(`the battery's ${name} is ${value} ${unit}`, `Give 0 ${unit} or more.`);
    }
  }
  assertEfficiency('charge efficiency', battery.chargeEfficiency);
  assertEfficiency('discharge efficiency', battery.dischargeEfficiency);
  if (battery.usableKwh > 0 && (battery.chargeKw === 0 || battery.dischargeKw === 0)) {
    const name = battery.chargeKw === 0 ? 'charge' : 'discharge';
    throw new InputError(
      `the battery holds ${battery.usableKwh} kWh but its ${name} power is 0 kW`,
      `Give its AC ${name} power, or a usable capacity of 0 kWh for no battery.`,
    );
  }
}

function assertEfficiency(name: string, value: number): void {
  if (!(value > 0 && value <= 1)) {
    throw new InputError(
      `the battery's ${name} is ${value}`,
      'Give a share above 0 and at most 1, for example 0.95 for 95%.',
    );
  }
}

/**
 * Checks what a battery meets.
 *
 * @param input units and shapes as in {@link BatteryInput}
 * @throws InputError when lengths differ, a number is missing, energy is negative or days run backwards
 * @example assertBatteryInput(input)
 */
export function assertBatteryInput(input: BatteryInput): void {
  const count = input.importKwh.length;
  const rates = ['unitRatePence', 'exportRatePence', 'ruleRatePence'] as const;
  for (const name of ['importKwh', 'exportKwh', 'carKwh', 'dayIndex', ...rates] as const) {
    const values = input[name];
    if (values === undefined) continue;
    if (values.length !== count) {
      throw new InputError(
        `${name} has ${values.length} half-hours and importKwh ${count}`,
        'Give all columns over the same half-hours.',
      );
    }
    const mayBeNegative = rates.some((rate) => rate === name);
    for (let i = 0; i < count; i++) {
      const value = values[i]!;
      if (!Number.isFinite(value) || (value < 0 && !mayBeNegative)) {
        throw new InputError(
          `${name} is ${value} in half-hour ${i + 1}`,
          mayBeNegative ? 'Give every half-hour a rate.' : 'Give 0 or more; a missing half-hour counts as 0.',
          { line: i + 1 },
        );
      }
    }
  }
  const days = count === 0 ? 0 : (input.dayIndex[count - 1] ?? 0) + 1;
  if (input.dayRatesPence !== undefined && input.dayRatesPence.length !== days) {
    throw new InputError(
      `dayRatesPence has ${input.dayRatesPence.length} days and dayIndex ${days}`,
      'Give the rates of every day.',
    );
  }
  for (let i = 0; i < count; i++) {
    const step = input.dayIndex[i]! - (i === 0 ? 0 : input.dayIndex[i - 1]!);
    if (step < 0 || step > (i === 0 ? 0 : 1)) {
      throw new InputError(
        `dayIndex is ${input.dayIndex[i]} in half-hour ${i + 1}`,
        'Count the days from 0, one up at each local midnight.',
        { line: i + 1 },
      );
    }
  }
}

/** The level before the first half-hour, stored kWh, no more than fits. */
export function startLevelKwh(battery: Battery): number {
  return Math.min(battery.startKwh, battery.usableKwh);
}

/**
 * Import that the battery may meet, kWh: the net demand of a half-hour less the car where that is barred.
 *
 * @param importKwh import of the half-hour without a battery, kWh
 * @param exportKwh export of the half-hour without a battery, kWh
 * @param carKwh the car's part of the import, kWh
 * @param mayFeedCar whether the battery may feed the car
 * @returns kWh, 0 or more
 * @example servableKwh(3, 0, 2, false) // 1
 */
export function servableKwh(
  importKwh: number,
  exportKwh: number,
  carKwh: number,
  mayFeedCar: boolean,
): number {
  return Math.max(0, importKwh - exportKwh - (mayFeedCar ? 0 : carKwh));
}

/**
 * Whether a half-hour lets the battery give more than the house takes. While a barred car draws from the same
 * connection nothing can leave through it, so more output would only feed the car.
 *
 * @param battery the battery
 * @param carKwh the car's part of the import, kWh
 * @example maySell({ ...battery, mayExport: true, mayFeedCar: false }, 3.5) // false
 */
export function maySell(battery: Battery, carKwh: number): boolean {
  return battery.mayExport && (battery.mayFeedCar || carKwh <= TOLERANCE);
}
