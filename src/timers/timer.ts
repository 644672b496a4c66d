import { InputError } from '../errors.js';
import { windowMinutes } from '../tariffs/rate-grid.js';
import { SLOTS_PER_DAY } from '../time/serial.js';

/** A load that may run at other hours than it did, such as a car's charger or a hot-water tank. */
export interface MovableLoad {
  /**
   * Wall-clock start of each half-hour, spreadsheet serial, in order of time: autumn says two half-hours twice, spring leaves two
   * out, and so do readings with a gap.
   */
  localSerial: Float64Array;
  /** What the load took in each half-hour, kWh; a missing half-hour is 0. */
  loadKwh: Float64Array;
}

/** Hours of the day by the home's clock, on the half-hour; an end at or before the start is on the next day. */
export interface TimerHours {
  /** Start, minutes after midnight, 0 to 1410. */
  fromMinutes: number;
  /** End, minutes after midnight, 0 to 1440 (both mean midnight). */
  toMinutes: number;
}

/** The timer of one load. */
export interface Timer {
  /** false: the load stays as it was metered. */
  isOn: boolean;
  /** Hours in which the load may run. */
  hours: TimerHours;
  /** Power at which the load runs, kW. */
  powerKw: number;
}

/** kWh below this are none: sums of readings differ in their last digits. */
export const NO_KWH = 1e-9;

/**
 * The most that a load takes in one half-hour. Source: arithmetic.
 *
 * @param powerKw its power, kW, above 0
 * @returns energy, kWh
 * @throws InputError when the power is not above 0
 * @example halfHourKwh(7) // 3.5
 */
export function halfHourKwh(powerKw: number): number {
  if (Number.isFinite(powerKw) && powerKw > 0) return powerKw / 2;
  throw new InputError(
    `the load's power is ${powerKw} kW`,
    'Give the kW that it draws while it runs, above 0.',
  );
}

/**
 * Which half-hours of the day are within hours. Source: arithmetic.
 *
 * @param hours by the home's clock, minutes after midnight
 * @returns 48 flags from midnight on, 1 within
 * @throws InputError when a time is no half-hour of the day, or the hours have no length
 * @example hoursMask({ fromMinutes: 1410, toMinutes: 30 }) // 1 at 0 (00:00) and at 47 (23:30)
 */
export function hoursMask(hours: TimerHours): Uint8Array {
  const { fromMinutes, toMinutes } = hours;
  assertHalfHour('from', fromMinutes, 1410);
  assertHalfHour('to', toMinutes, 1440);
  if (fromMinutes === toMinutes && fromMinutes !== 0) {
    throw new InputError(
      'the hours have no length: they end as they start',
      'The whole day is 00:00 to 24:00.',
    );
  }
  const mask = new Uint8Array(SLOTS_PER_DAY);
  const first = fromMinutes / 30;
  const count = windowMinutes(hours) / 30;
  for (let slot = first; slot < first + count; slot++) mask[slot % SLOTS_PER_DAY] = 1;
  return mask;
}

function assertHalfHour(end: string, minutes: number, latest: number): void {
  if (Number.isInteger(minutes / 30) && minutes >= 0 && minutes <= latest) return;
  throw new InputError(
    `the hours' "${end}" is ${minutes} minutes after midnight`,
    `Give a time on the half-hour, 0 to ${latest} minutes.`,
  );
}

/**
 * Half-hour of the day of a wall-clock time.
 *
 * @param localSerial spreadsheet serial
 * @returns 0 (midnight) to 47
 * @example slotOfDay(46_023.5) // 24
 */
export function slotOfDay(localSerial: number): number {
  return Math.round((localSerial - Math.floor(localSerial)) * SLOTS_PER_DAY) % SLOTS_PER_DAY;
}

/**
 * Checks a load.
 *
 * @param load units and shapes as in {@link MovableLoad}
 * @throws InputError when lengths differ or an energy is missing or negative
 * @example assertLoad({ localSerial, loadKwh })
 */
export function assertLoad({ localSerial, loadKwh }: MovableLoad): void {
  assertColumn('loadKwh', loadKwh, localSerial.length, 0);
}

/**
 * Checks one column over the half-hours.
 *
 * @param name its name with its unit
 * @param values one a half-hour
 * @param count how many half-hours there are
 * @param least smallest value allowed; by default any number
 * @throws InputError when the length differs, or a value is missing or too small
 * @example assertColumn('unitRatePence', unitRatePence, localSerial.length)
 */
export function assertColumn(
  name: string,
  values: Float64Array,
  count: number,
  least = Number.NEGATIVE_INFINITY,
): void {
  if (values.length !== count) {
    throw new InputError(
      `${name} has ${values.length} half-hours and localStart ${count}`,
      'Give all columns over the same half-hours.',
    );
  }
  const wrong = values.findIndex((value) => !(Number.isFinite(value) && value >= least));
  if (wrong === -1) return;
  throw new InputError(
    `${name} is ${values[wrong]} in half-hour ${wrong + 1}`,
    least === 0 ? 'Give 0 or more; a missing half-hour counts as 0.' : 'Give every half-hour a number.',
    { line: wrong + 1 },
  );
}
