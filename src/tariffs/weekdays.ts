import { InputError, type Place } from '../errors.js';
import { EVERY_DAY, type Weekdays } from './tariff.js';

/** English three-letter names, Monday first. */
export const DAY_NAMES = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const;

const EVERY_DAY_TEXT = 'Every day';
const RANGES: readonly { text: string; days: Weekdays }[] = [
  { text: EVERY_DAY_TEXT, days: EVERY_DAY },
  { text: 'Mon-Fri', days: [true, true, true, true, true, false, false] },
  { text: 'Sat-Sun', days: [false, false, false, false, false, true, true] },
];

/**
 * Reads the days on which a window starts.
 *
 * @param text blank or `Every day`; `Mon-Fri`; `Sat-Sun`; or day names such as `Mon, Wed, Sat`, in any case
 * @param place where the text stands, for the message
 * @returns seven flags, Monday first
 * @throws InputError when the text says anything else
 * @example parseDays('Sat-Sun') // [false, false, false, false, false, true, true]
 */
export function parseDays(text: string, place: Place = {}): Weekdays {
  const normal = normaliseDaysText(text);
  if (normal === '') return EVERY_DAY;
  const range = RANGES.find((candidate) => normaliseDaysText(candidate.text) === normal);
  if (range !== undefined) return range.days;
  const flags = [false, false, false, false, false, false, false];
  for (const name of text.split(/[\s,]+/).filter((part) => part !== '')) {
    const day = DAY_NAMES.findIndex((known) => known.toUpperCase() === name.toUpperCase());
    if (day === -1) {
      throw new InputError(
        `the days "${text}" are not understood ("${name}")`,
        'Write Every day, Mon-Fri, Sat-Sun, or list the days: Mon, Tue, Wed, Thu.',
        place,
      );
    }
    flags[day] = true;
  }
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

/** Upper case without blanks: what the spreadsheet formulas make of the text. */
function normaliseDaysText(text: string): string {
  return text.replaceAll(' ', '').toUpperCase();
}
