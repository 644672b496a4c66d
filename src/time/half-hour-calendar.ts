import { InputError } from '../errors.js';
import { DAY_MS, HALF_HOUR_MS, localMsToSerial, SLOTS_PER_DAY, serialToLocalMs } from './serial.js';
import { startOfLocalDay } from './start-of-local-day.js';
import { ZoneClock } from './zone-clock.js';

/** Slots in a week: weekday × half-hour of the day. */
export const SLOTS_PER_WEEK = 7 * SLOTS_PER_DAY;

/** Where each half-hour of a series stands in day, week and month, worked out once for all tariffs. */
export interface HalfHourCalendar {
  readonly timeZone: string;
  readonly startUtcMs: Float64Array;
  /** Wall-clock start of each half-hour, spreadsheet serial. */
  readonly localSerial: Float64Array;
  /** Offset from UTC at each start, minutes. */
  readonly utcOffsetMinutes: Int16Array;
  /** Weekday (Monday 0) × 48 + half-hour of the day, by the home's wall clock. */
  readonly weekSlotLocal: Uint16Array;
  /** The same by UTC; the slot in which the half-hour starts. */
  readonly weekSlotUtc: Uint16Array;
  /** Place of each half-hour's local day in `daySerials`. */
  readonly dayIndex: Int32Array;
  /** Every local day from the first to the last, with or without half-hours, serial days. */
  readonly daySerials: Float64Array;
  /** Half-hours that each of those days has by the clock: 46, 48, 50 and the like. */
  readonly expectedHalfHoursOfDay: Uint8Array;
  /** Place of each half-hour's local month in `monthStartSerials`. */
  readonly monthIndex: Int32Array;
  /** First day of every month from the first to the last, serial days. */
  readonly monthStartSerials: Float64Array;
}

/**
 * Places each half-hour in its local day, week and month.
 * Source: IANA time zone database; the rest is arithmetic.
 *
 * @param startUtcMs start of each half-hour, epoch ms, ascending; gaps are allowed
 * @param timeZone IANA name of the home's zone
 * @returns one entry a half-hour, beside the days and months that they span
 * @throws InputError when the zone is unknown, the starts do not ascend, or one is off the local half-hour
 * @example halfHourCalendar(Float64Array.of(Date.UTC(2026, 0, 1)), 'Europe/London').weekSlotLocal[0] // 144: Thursday 00:00
 */
export function halfHourCalendar(startUtcMs: Float64Array, timeZone: string): HalfHourCalendar {
  const count = startUtcMs.length;
  const clock = new ZoneClock(timeZone, startUtcMs[0] ?? 0, startUtcMs[count - 1] ?? 0);
  const localSerial = new Float64Array(count);
  const utcOffsetMinutes = new Int16Array(count);
  const weekSlotLocal = new Uint16Array(count);
  const weekSlotUtc = new Uint16Array(count);
  const dayIndex = new Int32Array(count);
  const monthIndex = new Int32Array(count);

  let utcMsBefore: number | undefined;
  for (const [i, utcMs] of startUtcMs.entries()) {
    if (utcMsBefore !== undefined && !(utcMs > utcMsBefore)) {
      throw new InputError(
        `half-hour ${i + 1} starts at ${instantText(utcMs)}, not after the one before it`,
        'Sort the half-hours by time and take out duplicates.',
      );
    }
    utcMsBefore = utcMs;
    const offsetMinutes = clock.offsetMinutesAt(utcMs);
    const localMs = utcMs + offsetMinutes * 60_000;
    if (localMs % HALF_HOUR_MS !== 0) {
      throw new InputError(
        `the half-hour that starts at ${instantText(utcMs)} is off the half-hour by the clock of ${timeZone}`,
        'Check the time zone; half-hours start at :00 and :30 local time.',
      );
    }
    utcOffsetMinutes[i] = offsetMinutes;
    localSerial[i] = localMsToSerial(localMs);
    weekSlotLocal[i] = weekSlotOfMs(localMs);
    weekSlotUtc[i] = weekSlotOfMs(utcMs);
  }

  const days = daysOf(localSerial, clock);
  const firstDay = days.serials[0] ?? 0;
  const monthStartSerials: number[] = [];
  const monthOfDay = new Int32Array(days.serials.length);
  for (const [day, serial] of days.serials.entries()) {
    const monthStart = startOfMonth(serial);
    if (day === 0 || monthStart === serial) monthStartSerials.push(monthStart);
    monthOfDay[day] = monthStartSerials.length - 1;
  }
  for (const [i, serial] of localSerial.entries()) {
    const day = Math.floor(serial) - firstDay;
    dayIndex[i] = day;
    monthIndex[i] = monthOfDay[day]!;
  }
  return {
    timeZone,
    startUtcMs,
    localSerial,
    utcOffsetMinutes,
    weekSlotLocal,
    weekSlotUtc,
    dayIndex,
    daySerials: days.serials,
    expectedHalfHoursOfDay: days.expectedHalfHours,
    monthIndex,
    monthStartSerials: Float64Array.from(monthStartSerials),
  };
}

/**
 * Slot of the week of a wall-clock time.
 *
 * @param localMs wall-clock ms, as if UTC
 * @returns weekday (Monday 0) × 48 + half-hour of the day, 0 to 335
 * @example weekSlotOfMs(Date.UTC(2026, 0, 1, 0, 30)) // 145: Thursday 00:30
 */
export function weekSlotOfMs(localMs: number): number {
  // 1970-01-01 was a Thursday.
  const slot = (Math.floor(localMs / HALF_HOUR_MS) + 3 * SLOTS_PER_DAY) % SLOTS_PER_WEEK;
  return slot < 0 ? slot + SLOTS_PER_WEEK : slot;
}

function daysOf(
  localSerial: Float64Array,
  clock: ZoneClock,
): { serials: Float64Array; expectedHalfHours: Uint8Array } {
  const [firstStart] = localSerial;
  const lastStart = localSerial.at(-1);
  if (firstStart === undefined || lastStart === undefined) {
    return { serials: new Float64Array(0), expectedHalfHours: new Uint8Array(0) };
  }
  const first = Math.floor(firstStart);
  const count = Math.floor(lastStart) - first + 1;
  const serials = Float64Array.from({ length: count }, (_, day) => first + day);
  const startOf = (serial: number): number => startOfLocalDay(clock, serialToLocalMs(serial));
  const expectedHalfHours = Uint8Array.from(
    serials,
    (serial) => (startOf(serial + 1) - startOf(serial)) / HALF_HOUR_MS,
  );
  return { serials, expectedHalfHours };
}

function startOfMonth(serial: number): number {
  return serial - (new Date(serialToLocalMs(serial)).getUTCDate() - 1);
}

function instantText(utcMs: number): string {
  return Math.abs(utcMs) <= 1e8 * DAY_MS ? new Date(utcMs).toISOString() : String(utcMs);
}
