import { InputError } from '../errors.js';
import { cellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription, DescribedFunction } from '../functions/described-function.js';
import { requireNumber } from '../functions/require-number.js';
import { weekdayOfSerial } from './is-in-window.js';
import { windowMinutes } from './rate-grid.js';
import type { RateWindow } from './tariff.js';
import { daysFormula, secondsFormula } from './window-formula.js';
import { WINDOW_ARGUMENTS, windowFromCells } from './window-from-cells.js';

const DAY_SECONDS = 86_400;

/**
 * How much of an interval lies in a window.
 * Source: arithmetic.
 *
 * @param startSerial start of the interval by the window's clock, spreadsheet serial
 * @param endSerial its end, up to 24 hours later
 * @param window times in minutes after midnight; one that crosses midnight belongs to the day on which it starts
 * @returns share of the interval's time, 0–1
 * @throws InputError when the end is not after the start or more than 24 hours after it
 * @example windowShare(46023, 46023 + 1 / 24, { fromMinutes: 30, toMinutes: 270, days: EVERY_DAY }) // 0.5
 */
export function windowShare(startSerial: number, endSerial: number, window: RateWindow): number {
  const start = secondsOf(startSerial, 'intervalStart');
  const end = secondsOf(endSerial, 'intervalEnd');
  if (end <= start || end - start > DAY_SECONDS) {
    throw new InputError(
      'intervalEnd is not within 24 hours after intervalStart',
      'Give an interval of at most a day.',
    );
  }
  const firstDay = Math.floor(start / DAY_SECONDS);
  const length = windowMinutes(window) * 60;
  let inside = 0;
  // Yesterday's window can reach over midnight, and the interval can reach into tomorrow.
  for (const day of [firstDay - 1, firstDay, firstDay + 1]) {
    if (!window.days[weekdayOfSerial(day)]) continue;
    const from = day * DAY_SECONDS + window.fromMinutes * 60;
    inside += Math.max(0, Math.min(end, from + length) - Math.max(start, from));
  }
  return inside / (end - start);
}

function secondsOf(serial: number, name: string): number {
  return Math.floor(requireNumber(serial, name, 0) * DAY_SECONDS + 0.5);
}

const ARGUMENTS: readonly ArgumentDescription[] = [
  {
    name: 'intervalStart',
    unit: 'date and time',
    kind: 'dateTime',
    shape: 'cell',
    description: 'Start of the interval, by the clock of the window.',
  },
  {
    name: 'intervalEnd',
    unit: 'date and time',
    kind: 'dateTime',
    shape: 'cell',
    description: 'End of the interval, up to 24 hours after its start.',
  },
  ...WINDOW_ARGUMENTS,
];

export const windowShareFunction: DescribedFunction = {
  name: 'windowShare',
  cellName: 'WINDOW_SHARE',
  category: 'shares',
  summary: 'Says how much of an interval lies in a window of the day.',
  arguments: ARGUMENTS,
  result: { unit: 'share 0–1', shape: 'cell', description: "Share of the interval's time." },
  source: 'arithmetic',
  example: { arguments: [46023, 46023 + 1 / 24, 0.5 / 24, 4.5 / 24, 'Every day'], result: 0.5 },
  compute: (args) => {
    const read = cellReader(args, ARGUMENTS);
    return windowShare(read.number('intervalStart'), read.number('intervalEnd'), windowFromCells(read));
  },
  formula: ([intervalStart, intervalEnd, windowFrom, windowTo, days]: readonly [
    string,
    string,
    string,
    string,
    ...string[],
  ]) => {
    const start = secondsFormula(intervalStart);
    const end = secondsFormula(intervalEnd);
    const from = secondsFormula(windowFrom);
    const length = `(MOD(${secondsFormula(windowTo)}-${from}-1,86400)+1)`;
    const insideOn = (shift: string): string => {
      const day = `(INT(${start}/86400)${shift})`;
      const first = `(${day}*86400+${from})`;
      const inside = `MAX(0,MIN(${end},${first}+${length})-MAX(${start},${first}))`;
      return `${daysFormula(days ?? '""', `MOD(${day}-2,7)`)}*${inside}`;
    };
    const inside = `${insideOn('-1')}+${insideOn('')}+${insideOn('+1')}`;
    return `IF((${end}>${start})*(${end}-${start}<=86400),(${inside})/(${end}-${start}),NA())`;
  },
};
