import { InputError, type Place } from '../errors.js';
import { SLOTS_PER_DAY, serialToIsoDate } from '../time/serial.js';
import { formatClock } from './clock-text.js';
import { windowWeekSlots } from './rate-grid.js';
import { MAX_RATE_PERIODS, MAX_WINDOWS, type RateWindow, type Tariff } from './tariff.js';
import { DAY_NAMES, formatDays } from './weekdays.js';

/**
 * Checks a tariff: windows on the half-hour that don't overlap, a rate for each, dates in order.
 *
 * @param tariff as read from a workbook or a file
 * @param placeOf turns the path of a part (`windows[1].fromMinutes`, `ratePeriods[0].baseRatePence`) into its place,
 *   for the message; by default the path itself is the place
 * @throws InputError at the first thing that is wrong
 * @example validateTariff(tariff, (path) => ({ file: 'home.xlsx', line: cellOf(path) }))
 */
export function validateTariff(
  tariff: Tariff,
  placeOf: (path: string) => Place = (path) => ({ line: path }),
): void {
  if (typeof tariff.name !== 'string' || tariff.name.trim() === '') {
    throw new InputError('the tariff has no name', 'Give it one.', placeOf('name'));
  }
  assertNumber(tariff.exitFeePounds, 'exit fee', placeOf('exitFeePounds'));
  if (tariff.exitFeePounds < 0) {
    throw new InputError(
      `the exit fee is ${tariff.exitFeePounds}`,
      'Give it in £, 0 for none.',
      placeOf('exitFeePounds'),
    );
  }
  validateWindows(tariff.windows, placeOf);
  validateRatePeriods(tariff, placeOf);
}

/**
 * Checks the windows of a tariff.
 *
 * @param windows in any order
 * @param placeOf as for {@link validateTariff}
 * @throws InputError when one is off the half-hour or has no length or no day, when two overlap, or there are too many
 * @example validateWindows([{ fromMinutes: 30, toMinutes: 270, days: EVERY_DAY }])
 */
export function validateWindows(
  windows: readonly RateWindow[],
  placeOf: (path: string) => Place = (path) => ({ line: path }),
): void {
  if (windows.length > MAX_WINDOWS) {
    throw new InputError(
      `there are ${windows.length} windows, and a tariff has at most ${MAX_WINDOWS}`,
      'Join windows that have the same rate, or use half-hourly prices.',
      placeOf(`windows[${MAX_WINDOWS}]`),
    );
  }
  const takenBy = new Map<number, RateWindow>();
  windows.forEach((window, index) => {
    const path = `windows[${index}]`;
    assertOnHalfHour(window.fromMinutes, 'start', placeOf(`${path}.fromMinutes`));
    assertOnHalfHour(window.toMinutes, 'end', placeOf(`${path}.toMinutes`));
    if (window.fromMinutes === 1440) {
      throw new InputError(
        'the window starts at 24:00',
        'Write 00:00 for a start at midnight.',
        placeOf(`${path}.fromMinutes`),
      );
    }
    if (window.fromMinutes === window.toMinutes) {
      throw new InputError(
        `the window starts and ends at ${formatClock(window.fromMinutes)}: it has no length`,
        'Change one of the times; a window of the whole day is 00:00 to 24:00.',
        placeOf(`${path}.toMinutes`),
      );
    }
    if (!window.days.includes(true)) {
      throw new InputError(
        'the window holds on no day',
        'Name a day, or leave the days blank for every day.',
        placeOf(`${path}.days`),
      );
    }
    for (const slot of windowWeekSlots(window)) {
      const other = takenBy.get(slot);
      if (other !== undefined) {
        throw new InputError(
          `the windows ${windowText(other)} and ${windowText(window)} overlap on ${slotText(slot)}`,
          'Change the times or days of one of them.',
          placeOf(path),
        );
      }
      takenBy.set(slot, window);
    }
  });
}

/**
 * Checks a VAT rate.
 *
 * @param vatShare share of the price before VAT, 0.05 for 5 %
 * @param place where it stands, for the message
 * @throws InputError when it is no number from 0 up to, and not including, 1
 * @example validateVatShare(0.05)
 */
export function validateVatShare(vatShare: number, place: Place = {}): void {
  if (typeof vatShare === 'number' && vatShare >= 0 && vatShare < 1) return;
  throw new InputError(
    `the VAT rate ${found(vatShare)} is not a share from 0 to 1`,
    'Write 5 % as 5% or 0.05.',
    place,
  );
}

function validateRatePeriods(tariff: Tariff, placeOf: (path: string) => Place): void {
  const { ratePeriods, windows } = tariff;
  if (ratePeriods.length === 0) {
    throw new InputError(
      `the tariff "${tariff.name}" has no rate`,
      'Give it a unit rate.',
      placeOf('ratePeriods'),
    );
  }
  if (ratePeriods.length > MAX_RATE_PERIODS) {
    throw new InputError(
      `there are rates from ${ratePeriods.length} dates, and a tariff has at most ${MAX_RATE_PERIODS}`,
      'Take out the oldest that you no longer need.',
      placeOf(`ratePeriods[${MAX_RATE_PERIODS}]`),
    );
  }
  ratePeriods.forEach((period, index) => {
    const path = `ratePeriods[${index}]`;
    if (!Number.isInteger(period.validFromSerial) || period.validFromSerial < 0) {
      throw new InputError(
        `${found(period.validFromSerial)} is not a date from which rates hold`,
        'Give a date without a time of day.',
        placeOf(`${path}.validFromSerial`),
      );
    }
    const before = ratePeriods[index - 1];
    if (before !== undefined && period.validFromSerial <= before.validFromSerial) {
      throw new InputError(
        `the rates from ${serialToIsoDate(period.validFromSerial)} stand after those from ${serialToIsoDate(before.validFromSerial)}`,
        'Put the dates in order, each once.',
        placeOf(`${path}.validFromSerial`),
      );
    }
    assertNumber(
      period.standingChargePencePerDay,
      'standing charge',
      placeOf(`${path}.standingChargePencePerDay`),
    );
    assertNumber(period.baseRatePence, 'base rate', placeOf(`${path}.baseRatePence`));
    assertNumber(period.exportRatePence, 'export rate', placeOf(`${path}.exportRatePence`));
    windows.forEach((window, band) => {
      assertNumber(
        period.windowRatesPence[band],
        `rate of the window ${windowText(window)}`,
        placeOf(`${path}.windowRatesPence[${band}]`),
      );
    });
    if (period.windowRatesPence.length > windows.length) {
      throw new InputError(
        `there are ${period.windowRatesPence.length} window rates for ${windows.length} windows`,
        'Give one rate for each window.',
        placeOf(`${path}.windowRatesPence`),
      );
    }
  });
}

/** A window in words. */
function windowText(window: RateWindow): string {
  return `${formatClock(window.fromMinutes)}–${formatClock(window.toMinutes)} (${formatDays(window.days)})`;
}

function slotText(weekSlot: number): string {
  return `${DAY_NAMES[Math.floor(weekSlot / SLOTS_PER_DAY)]} at ${formatClock((weekSlot % SLOTS_PER_DAY) * 30)}`;
}

function assertOnHalfHour(minutes: number, which: string, place: Place): void {
  if (!Number.isFinite(minutes) || minutes < 0 || minutes > 1440) {
    throw new InputError(
      `the window's ${which} ${found(minutes)} is not a time of day`,
      'Write a time from 00:00 to 24:00.',
      place,
    );
  }
  if (minutes % 30 !== 0) {
    throw new InputError(
      `the window's ${which} ${formatClock(Math.round(minutes))} is off the half-hour`,
      'Meters count half-hours: write a time that ends in :00 or :30.',
      place,
    );
  }
}

function assertNumber(value: unknown, what: string, place: Place): void {
  if (value === undefined || value === null || value === '' || Number.isNaN(value)) {
    throw new InputError(`the ${what} is missing`, 'Type a number, 0 if nothing is charged.', place);
  }
  if (typeof value !== 'number' || !Number.isFinite(value)) {
    throw new InputError(
      `the ${what} ${found(value)} is not a number`,
      'Type a number without a unit.',
      place,
    );
  }
}

function found(value: unknown): string {
  return typeof value === 'string' ? `"${value}"` : String(value);
}
