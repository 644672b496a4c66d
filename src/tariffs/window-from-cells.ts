import { InputError } from '../errors.js';
import type { CellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription } from '../functions/described-function.js';
import type { RateWindow } from './tariff.js';
import { parseDays } from './weekdays.js';

/** The arguments by which a cell gives a window. */
export const WINDOW_ARGUMENTS: readonly ArgumentDescription[] = [
  {
    name: 'windowFrom',
    unit: 'time of day',
    kind: 'time',
    shape: 'cell',
    description: 'Start of the window by the same clock as the times.',
  },
  {
    name: 'windowTo',
    unit: 'time of day',
    kind: 'time',
    shape: 'cell',
    description: 'End of the window, up to 24:00; before the start: the window ends on the next day.',
  },
  {
    name: 'days',
    unit: 'none',
    kind: 'text',
    shape: 'cell',
    optional: true,
    description:
      'Days on which the window starts: Every day (or blank), Mon-Fri, Sat-Sun, or a list such as Mon, Wed, Sat.',
  },
];

/**
 * The window that a cell function was given.
 *
 * @param read reader of its arguments, among them {@link WINDOW_ARGUMENTS}
 * @returns the window, its times to the second
 * @throws InputError naming the argument that can't be used
 * @example windowFromCells(cellReader([0, 7 / 24, 'Mon-Fri'], WINDOW_ARGUMENTS)).toMinutes // 420
 */
export function windowFromCells(read: CellReader): RateWindow {
  const minutesOf = (name: string): number => {
    const time = read.number(name);
    if (time >= 0 && time <= 1) return Math.floor(time * 86_400 + 0.5) / 60;
    throw new InputError(`${name} is ${time}`, 'Give a time of day from 00:00 to 24:00, without a date.');
  };
  const window = {
    fromMinutes: minutesOf('windowFrom'),
    toMinutes: minutesOf('windowTo'),
    days: parseDays(read.text('days'), { line: 'days' }),
  };
  if (window.fromMinutes === 1440) {
    throw new InputError('windowFrom is 24:00', 'Write 00:00 for a start at midnight.');
  }
  if (window.fromMinutes === window.toMinutes) {
    throw new InputError(
      'windowFrom and windowTo are the same: the window has no length',
      'A window of the whole day is 00:00 to 24:00.',
    );
  }
  return window;
}
