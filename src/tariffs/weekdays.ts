import { InputError, type Place } from '../errors.js';
import { EVERY_DAY, type Weekdays } from './tariff.js';

/** English three-letter names, Monday first. */
export const DAY_NAMES = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const;

/** Long names that are not the short ones and `DAY`. */
export const LONG_NAMES = { TUESDAY: 'TUE', WEDNESDAY: 'WED', THURSDAY: 'THU', SATURDAY: 'SAT' } as const;
const NAME = `(${DAY_NAMES.join('|').toUpperCase()})`;

const EVERY_DAY_TEXT = 'Every day';
const RANGES: readonly { text: string; days: Weekdays }[] = [
  { text: EVERY_DAY_TEXT, days: EVERY_DAY },
  { text: 'Mon-Fri', days: [true, true, true, true, true, false, false] },
  { text: 'Sat-Sun', days: [false, false, false, false, false, true, true] },
];

/**
 * Reads the days on which a window starts.
 *
 * @param text blank or `Every day`; from one day to another such as `Mon-Fri` or `Sat-Sun`; or a list of days such as
 *   `Mon, Wed, Saturday`; in any case
 * @param place where the text stands, for the message
 * @returns seven flags, Monday first
 * @throws InputError when the text says anything else
 * @example parseDays('Sat-Sun') // [false, false, false, false, false, true, true]
 */
export function parseDays(text: string, place: Place = {}): Weekdays {
  const normal = normaliseDaysText(text);
  if (normal === '' || normal === 'EVERY') return EVERY_DAY;
  const [, first, last] = new RegExp(`^${NAME}-${NAME}$`).exec(normal) ?? [];
  if (first !== undefined && last !== undefined) {
    const [from, to] = [dayNamed(first), dayNamed(last)];
    const length = (to - from + 7) % 7;
    return DAY_NAMES.map((_, day) => (day - from + 7) % 7 <= length) as unknown as Weekdays;
  }
  const list = normal.replaceAll(',', '');
  if (!new RegExp(`^${NAME}*$`).test(list)) {
    const unknown = text
      .split(/[\s,]+/)
      .find((part) => !new RegExp(`^${NAME}*$`).test(normaliseDaysText(part)));
    throw new InputError(
      `the days "${text}" are not understood${unknown === undefined ? '' : ` ("${unknown}")`}`,
      'Write Every day, Mon-Fri, Sat-Sun, or list the days: Mon, Tue, Wed, Thu.',
      place,
    );
  }
  const flags = DAY_NAMES.map((name) => list.includes(name.toUpperCase()));
  if (!flags.includes(true)) {
    throw new InputError(
      `the days "${text}" name no day`,
      'List the days, for example Mon, Wed, Sat.',
      place,
    );
  }
  return flags as unknown as Weekdays;
}

/**
 * Writes the days on which a window starts, so that {@link parseDays} reads them back.
 *
 * @param days seven flags, Monday first
 * @returns `Every day`, `Mon-Fri`, `Sat-Sun` or a list such as `Mon, Wed`
 * @example formatDays([true, false, true, false, false, false, false]) // 'Mon, Wed'
 */
export function formatDays(days: Weekdays): string {
  const range = RANGES.find((candidate) => candidate.days.every((flag, day) => flag === days[day]));
  return range?.text ?? DAY_NAMES.filter((_, day) => days[day]).join(', ');
}

const dayNamed = (name: string): number => DAY_NAMES.findIndex((known) => known.toUpperCase() === name);

/** Upper case without blanks, names of three letters: what the spreadsheet formulas make of the text. */
function normaliseDaysText(text: string): string {
  const plain = text.replaceAll(' ', '').replaceAll('–', '-').toUpperCase();
  return Object.entries(LONG_NAMES)
    .reduce((rest, [long, short]) => rest.replaceAll(long, short), plain)
    .replaceAll('DAY', '');
}
