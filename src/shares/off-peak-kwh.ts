import { cellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription, DescribedFunction } from '../functions/described-function.js';
import { requireSameLength } from '../functions/require-number.js';
import { isInWindow } from '../tariffs/is-in-window.js';
import type { RateWindow } from '../tariffs/tariff.js';
import { inWindowFormula } from '../tariffs/window-formula.js';
import { WINDOW_ARGUMENTS, windowFromCells } from '../tariffs/window-from-cells.js';

/**
 * Energy used in a window.
 * Source: arithmetic.
 *
 * @param localStartSerial start of each interval by the window's clock, spreadsheet serial; an interval counts as a whole
 *   by its start, so intervals should not straddle the window's ends
 * @param kwh energy of each interval, kWh
 * @param window times in minutes after midnight
 * @returns kWh in the window
 * @throws InputError when the lengths differ or a value is missing
 * @example offPeakKwh([46023, 46023.5], [0.4, 0.6], { fromMinutes: 0, toMinutes: 420, days: EVERY_DAY }) // 0.4
 */
export function offPeakKwh(
  localStartSerial: ArrayLike<number>,
  kwh: ArrayLike<number>,
  window: RateWindow,
): number {
  requireSameLength(localStartSerial, 'localStart', kwh, 'kwh');
  let inside = 0;
  for (let i = 0; i < kwh.length; i++) {
    if (isInWindow(localStartSerial[i]!, window)) inside += kwh[i]!;
  }
  return inside;
}

/** Arguments of the functions that look at readings and a window. */
export const READINGS_AND_WINDOW: readonly ArgumentDescription[] = [
  {
    name: 'localStart',
    unit: 'date and time',
    kind: 'dateTime',
    shape: 'column',
    description: 'Start of each interval, by the clock of the window.',
  },
  {
    name: 'kwh',
    unit: 'kWh',
    kind: 'number',
    shape: 'column',
    description: 'Energy of each interval, as many rows.',
  },
  ...WINDOW_ARGUMENTS,
];

export const offPeakKwhFunction: DescribedFunction = {
  name: 'offPeakKwh',
  cellName: 'OFF_PEAK_KWH',
  category: 'shares',
  summary: 'Adds up the energy used in a window of the day.',
  arguments: READINGS_AND_WINDOW,
  result: { unit: 'kWh', shape: 'cell', description: 'Energy of the intervals that start in the window.' },
  source: 'arithmetic',
  example: { arguments: [[[46023], [46023.5]], [[0.4], [0.6]], 0, 7 / 24, 'Every day'], result: 0.4 },
  compute: (args) => {
    const read = cellReader(args, READINGS_AND_WINDOW);
    return offPeakKwh(read.numbers('localStart'), read.numbers('kwh'), windowFromCells(read));
  },
  formula: ([start, kwh, from, to, days]: readonly [string, string, string, string, ...string[]]) =>
    `SUMPRODUCT(${inWindowFormula(start, from, to, days ?? '""')}*${kwh})`,
};
