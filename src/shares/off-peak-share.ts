import { InputError } from '../errors.js';
import { cellReader } from '../functions/cell-reader.js';
import type { DescribedFunction } from '../functions/described-function.js';
import type { RateWindow } from '../tariffs/tariff.js';
import { inWindowFormula } from '../tariffs/window-formula.js';
import { windowFromCells } from '../tariffs/window-from-cells.js';
import { offPeakKwh, READINGS_AND_WINDOW } from './off-peak-kwh.js';

/**
 * Share of the energy that is used in a window.
 * Source: arithmetic.
 *
 * @param localStartSerial start of each interval by the window's clock, spreadsheet serial
 * @param kwh energy of each interval, kWh
 * @param window times in minutes after midnight
 * @returns share 0–1
 * @throws InputError when the lengths differ, a value is missing, or nothing was used
 * @example offPeakShare([46023, 46023.5], [0.4, 0.6], { fromMinutes: 0, toMinutes: 420, days: EVERY_DAY }) // 0.4
 */
export function offPeakShare(
  localStartSerial: ArrayLike<number>,
  kwh: ArrayLike<number>,
  window: RateWindow,
): number {
  const inside = offPeakKwh(localStartSerial, kwh, window);
  let total = 0;
  for (let i = 0; i < kwh.length; i++) total += kwh[i]!;
  if (total === 0) throw new InputError('kwh adds up to 0: there is no share of nothing', 'Give readings.');
  return inside / total;
}

export const offPeakShareFunction: DescribedFunction = {
  name: 'offPeakShare',
  cellName: 'OFF_PEAK_SHARE',
  category: 'shares',
  summary: 'Says which share of the energy is used in a window of the day.',
  arguments: READINGS_AND_WINDOW,
  result: { unit: 'share 0–1', shape: 'cell', description: 'Energy in the window ÷ all energy.' },
  source: 'arithmetic',
  example: { arguments: [[[46023], [46023.5]], [[0.4], [0.6]], 0, 7 / 24, 'Every day'], result: 0.4 },
  compute: (args) => {
    const read = cellReader(args, READINGS_AND_WINDOW);
    return offPeakShare(read.numbers('localStart'), read.numbers('kwh'), windowFromCells(read));
  },
  formula: ([start, kwh, from, to, days]: readonly [string, string, string, string, ...string[]]) =>
    `SUMPRODUCT(${inWindowFormula(start, from, to, days ?? '""')}*${kwh})/SUM(${kwh})`,
};
