import { cellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription, DescribedFunction } from '../functions/described-function.js';
import { requireNumber } from '../functions/require-number.js';
import type { RateWindow, Weekday } from './tariff.js';
import { inWindowFormula } from './window-formula.js';
import { WINDOW_ARGUMENTS, windowFromCells } from './window-from-cells.js';

const DAY_SECONDS = 86_400;

/**
 * Whether a time is in a window. The start belongs to the window, the end does not; times count to the second.
 * Source: common practice, no source.
 *
 * @param localSerial time by the window's clock, spreadsheet serial
 * @param window times in minutes after midnight; one that crosses midnight belongs to the day on which it starts
 * @returns true inside
 * @throws InputError when the time is no number
 * @example isInWindow(46023.0208333, { fromMinutes: 30, toMinutes: 270, days: EVERY_DAY }) // true: 00:30
 */
export function isInWindow(localSerial: number, window: RateWindow): boolean {
  const seconds = Math.floor(requireNumber(localSerial, 'localTime', 0) * DAY_SECONDS + 0.5);
  const day = Math.floor(seconds / DAY_SECONDS);
  const second = seconds - day * DAY_SECONDS;
  const start = window.fromMinutes * 60;
  const end = window.toMinutes * 60;
  const crosses = end <= start;
  if (start <= second && (second < end || crosses) && window.days[weekdayOfSerial(day)]) return true;
  return crosses && second < end && window.days[weekdayOfSerial(day - 1)];
}

/**
 * Weekday of a serial day.
 *
 * @param serial days since 1899-12-30, a Saturday
 * @returns 0 Monday to 6 Sunday
 * @example weekdayOfSerial(46023) // 3: Thursday 1 January 2026
 */
export function weekdayOfSerial(serial: number): Weekday {
  return ((((Math.floor(serial) - 2) % 7) + 7) % 7) as Weekday;
}

const ARGUMENTS: readonly ArgumentDescription[] = [
  {
    name: 'localTime',
    unit: 'date and time',
    kind: 'dateTime',
    shape: 'cell',
    description: 'The time to ask about, by the clock of the window.',
  },
  ...WINDOW_ARGUMENTS,
];

export const isInWindowFunction: DescribedFunction = {
  name: 'isInWindow',
  cellName: 'IS_IN_WINDOW',
  category: 'time',
  summary: 'Says whether a time is in a window of the day; the start is inside, the end is not.',
  arguments: ARGUMENTS,
  result: { unit: 'yes/no', shape: 'cell', description: 'TRUE inside the window.' },
  source: 'common practice, no source',
  example: { arguments: [46023.0208333, 0.5 / 24, 4.5 / 24, 'Every day'], result: true },
  compute: (args) => {
    const read = cellReader(args, ARGUMENTS);
    return isInWindow(read.number('localTime'), windowFromCells(read));
  },
  formula: ([time, from, to, days]: readonly [string, string, string, ...string[]]) =>
    `${inWindowFormula(time, from, to, days ?? '""')}>0`,
};
