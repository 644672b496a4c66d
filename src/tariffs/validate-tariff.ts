import { type Fault, faultsFoundBy, InputError, type Place } from '../errors.js';
import { SLOTS_PER_DAY, serialToIsoDate } from '../time/serial.js';
import { formatClock } from './clock-text.js';
import { windowWeekSlots } from './rate-grid.js';
import { MAX_RATE_PERIODS, MAX_WINDOWS, type RateWindow, type Tariff } from './tariff.js';
import { DAY_NAMES, formatDays } from './weekdays.js';

type PlaceOf = (path: string) => Place;
const pathAsPlace: PlaceOf = (path) => ({ line: path });

/**
 * Checks a tariff: windows on the half-hour that don't overlap, a rate for each, dates in order.
 *
 * @param tariff as read from a workbook or a file
 * @param placeOf turns the path of a part (`windows[1].fromMinutes`, `ratePeriods[0].baseRatePence`) into its place,
 *   for the message; by default the path itself is the place
 * @throws InputError at the first thing that is wrong
 * @example validateTariff(tariff, (path) => ({ file: 'home.xlsx', line: cellOf(path) }))
 */
export function validateTariff(tariff: Tariff, placeOf: PlaceOf = pathAsPlace): void {
  throwFirst(faultsOfTariff(tariff, placeOf));
}

/**
 * All that is wrong with a tariff. A window whose times are none is held against no other, since where it lies is not known.
 *
 * @param tariff as read from a workbook or a file
 * @param placeOf as for {@link validateTariff}
 * @returns the faults in the order of the tariff's parts; none where it can be used
 * @example faultsOfTariff(tariff).length // 0
 */
export function faultsOfTariff(tariff: Tariff, placeOf: PlaceOf = pathAsPlace): Fault[] {
  return [
    ...faultsFoundBy([
      () => {
        if (typeof tariff.name === 'string' && tariff.name.trim() !== '') return;
        throw new InputError('the tariff has no name', 'Give it one.', placeOf('name'));
      },
      () => {
        assertNumber(tariff.exitFeePounds, 'exit fee', placeOf('exitFeePounds'));
        if (tariff.exitFeePounds >= 0) return;
        throw new InputError(
          `the exit fee is ${tariff.exitFeePounds}`,
          'Give it in £, 0 for none.',
          placeOf('exitFeePounds'),
        );
      },
    ]),
    ...faultsOfWindows(tariff.windows, placeOf),
    ...faultsOfRatePeriods(tariff, placeOf),
  ];
}

/**
 * Checks the windows of a tariff.
 *
 * @param windows in any order
 * @param placeOf as for {@link validateTariff}
 * @throws InputError when one is off the half-hour or has no length or no day, when two overlap, or there are too many
 * @example validateWindows([{ fromMinutes: 30, toMinutes: 270, days: EVERY_DAY }])
 */
export function validateWindows(windows: readonly RateWindow[], placeOf: PlaceOf = pathAsPlace): void {
  throwFirst(faultsOfWindows(windows, placeOf));
}

function throwFirst([first]: readonly Fault[]): void {
  if (first !== undefined) throw new InputError(first.found, first.whatToDo, first.place);
}

function faultsOfWindows(windows: readonly RateWindow[], placeOf: PlaceOf): Fault[] {
  const faults: Fault[] = [];
  if (windows.length > MAX_WINDOWS) {
    faults.push({
      found: `there are ${windows.length} windows, and a tariff has at most ${MAX_WINDOWS}`,
      whatToDo: 'Join windows that have the same rate, or use half-hourly prices.',
      place: placeOf(`windows[${MAX_WINDOWS}]`),
    });
  }
  const takenBy = new Map<number, RateWindow>();
  windows.forEach((window, index) => {
    const path = `windows[${index}]`;
    const own = faultsOfWindow(window, path, placeOf);
    faults.push(...own);
    if (own.length > 0) return;
    const slots = windowWeekSlots(window);
    const taken = slots.find((slot) => takenBy.has(slot));
    const other = taken === undefined ? undefined : takenBy.get(taken);
    if (taken !== undefined && other !== undefined) {
      faults.push({
        found: `the windows ${windowText(other)} and ${windowText(window)} overlap on ${slotText(taken)}`,
        whatToDo: 'Change the times or days of one of them.',
        place: placeOf(path),
      });
    }
    for (const slot of slots) takenBy.set(slot, window);
  });
  return faults;
}

function faultsOfWindow(window: RateWindow, path: string, placeOf: PlaceOf): Fault[] {
  const times = faultsFoundBy([
    () => {
      assertOnHalfHour(window.fromMinutes, 'start', placeOf(`${path}.fromMinutes`));
      if (window.fromMinutes !== 1440) return;
      throw new InputError(
        'the window starts at 24:00',
        'Write 00:00 for a start at midnight.',
        placeOf(`${path}.fromMinutes`),
      );
    },
    () => assertOnHalfHour(window.toMinutes, 'end', placeOf(`${path}.toMinutes`)),
  ]);
  if (times.length === 0 && window.fromMinutes === window.toMinutes) {
    times.push({
      found: `the window starts and ends at ${formatClock(window.fromMinutes)}: it has no length`,
      whatToDo: 'Change one of the times; a window of the whole day is 00:00 to 24:00.',
      place: placeOf(`${path}.toMinutes`),
    });
  }
  if (window.days.includes(true)) return times;
  return [
    ...times,
    {
      found: 'the window holds on no day',
      whatToDo: 'Name a day, or leave the days blank for every day.',
      place: placeOf(`${path}.days`),
    },
  ];
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

function faultsOfRatePeriods(tariff: Tariff, placeOf: PlaceOf): Fault[] {
  const { ratePeriods } = tariff;
  if (ratePeriods.length === 0) {
    return [
      {
        found: `the tariff "${tariff.name}" has no rate`,
        whatToDo: 'Give it a unit rate.',
        place: placeOf('ratePeriods'),
      },
    ];
  }
  const tooMany =
    ratePeriods.length > MAX_RATE_PERIODS
      ? [
          {
            found: `there are rates from ${ratePeriods.length} dates, and a tariff has at most ${MAX_RATE_PERIODS}`,
            whatToDo: 'Take out the oldest that you no longer need.',
            place: placeOf(`ratePeriods[${MAX_RATE_PERIODS}]`),
          },
        ]
      : [];
  return [...tooMany, ...ratePeriods.flatMap((_, index) => faultsOfRatePeriod(tariff, index, placeOf))];
}

function faultsOfRatePeriod({ ratePeriods, windows }: Tariff, index: number, placeOf: PlaceOf): Fault[] {
  const [period, before] = [ratePeriods[index], ratePeriods[index - 1]];
  if (period === undefined) return [];
  const at = (part: string): Place => placeOf(`ratePeriods[${index}].${part}`);
  const { validFromSerial, windowRatesPence } = period;
  return faultsFoundBy([
    () => {
      if (Number.isInteger(validFromSerial) && validFromSerial >= 0) return;
      throw new InputError(
        `${found(validFromSerial)} is not a date from which rates hold`,
        'Give a date without a time of day.',
        at('validFromSerial'),
      );
    },
    () => {
      if (before === undefined || validFromSerial > before.validFromSerial) return;
      throw new InputError(
        `the rates from ${serialToIsoDate(validFromSerial)} stand after those from ${serialToIsoDate(before.validFromSerial)}`,
        'Put the dates in order, each once.',
        at('validFromSerial'),
      );
    },
    () => assertNumber(period.standingChargePencePerDay, 'standing charge', at('standingChargePencePerDay')),
    () => assertNumber(period.baseRatePence, 'base rate', at('baseRatePence')),
    () => assertNumber(period.exportRatePence, 'export rate', at('exportRatePence')),
    ...windows.map((window, band) => () => {
      const name = `rate of the window ${windowText(window)}`;
      assertNumber(windowRatesPence[band], name, at(`windowRatesPence[${band}]`));
    }),
    () => {
      if (windowRatesPence.length <= windows.length) return;
      throw new InputError(
        `there are ${windowRatesPence.length} window rates for ${windows.length} windows`,
        'Give one rate for each window.',
        at('windowRatesPence'),
      );
    },
  ]);
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
