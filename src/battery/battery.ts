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
  /** Local day of each half-hour, counted from 0, never falling. */
  dayIndex: Int32Array;
  /** Half-hour of the local day, from 0, as time goes by; by default the place among those of its day. */
  halfHourOfDay?: Int32Array;
  /** Month of each half-hour, counted from 0, whose average day the rule knows; by default all are one month. */
  monthIndex?: Int32Array;
  /** The weeks of rates that the rule knows; by default each day's own and those of the six days after it. */
  weeks?: RateWeeks;
  /**
   * p/kWh of a half-hourly price: where it is given, the rule decides by it alone, knowing each day's at its start, and doesn't sell.
   */
  ruleRatePence?: Float64Array;
}

/** Weeks of rates, and which half-hour of which of them each half-hour is. */
export interface RateWeeks {
  /** p/kWh of 336 half-hours each, by the tariff's clock. */
  ratesPence: readonly Float64Array[];
  /** p/kWh paid for export under each. */
  exportRatePence: Float64Array;
  /** Week that holds in each half-hour, from 0. */
  index: Int32Array;
  /** Half-hour of the week that each half-hour is, 0 to 335. */
  slot: Int32Array;
  /** Half-hours by which the home's clock is ahead of the tariff's in each month; by default 0. */
  aheadHalfHours?: readonly number[];
}

const WEEK_HALF_HOURS = 336;

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
  const places = [
    ['halfHourOfDay', input.halfHourOfDay, 100],
    ['monthIndex', input.monthIndex, count],
    ['weeks.index', input.weeks?.index, input.weeks?.ratesPence.length ?? 0],
    ['weeks.slot', input.weeks?.slot, WEEK_HALF_HOURS],
  ] as const;
  for (const [name, values, below] of places) {
    if (values === undefined) continue;
    if (values.length !== count) {
      throw new InputError(
        `${name} has ${values.length} half-hours and importKwh ${count}`,
        'Give all columns over the same half-hours.',
      );
    }
    const wrong = values.findIndex((value) => value < 0 || value >= below);
    if (wrong >= 0) {
      throw new InputError(
        `${name} is ${values[wrong]} in half-hour ${wrong + 1}`,
        `Give 0 to ${below - 1}.`,
        { line: wrong + 1 },
      );
    }
  }
  const short = input.weeks?.ratesPence.find(({ length }) => length !== WEEK_HALF_HOURS);
  if (short !== undefined) {
    throw new InputError(`a week has ${short.length} rates`, 'Give 336, one each half-hour.');
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
