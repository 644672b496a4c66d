import { InputError } from '../errors.js';
import { DAY_MS } from '../time/serial.js';
import type { GasChannel } from './gas-vocabulary.js';
import type { Series } from './series.js';
import type { ReadFiles } from './settle-files.js';

/** More gas in a day than a boiler of 40 kW burns without a pause, kWh; a cubic metre holds about eleven (common practice, no source). */
const MOST_KWH_A_DAY = 960;
const KWH_PER_M3 = 11;
/** Of so many steps, rises and falls, one in six may fall (a meter exchanged) before they are taken for gas used. */
const MANY_STEPS = 6;

/**
 * Asks about gas that may be the reads of a register: values that only rise, however few, or that no boiler burns.
 * Two values alone may rise by chance: they are asked about where the second is less than half as much again.
 *
 * @param read files of the import
 * @param series interval values of gas, ascending in time, m³ or kWh
 * @throws InputError saying how to tell register from use
 * @example askWhetherRegister(read, series) // throws for 1000, 1042, 1075
 */
export function askWhetherRegister(read: ReadFiles<GasChannel>, series: Series<GasChannel>): void {
  const open = Array.from(series.files.keys()).filter(
    (i) => read.settled[series.files[i]!]!.draft.options.register === undefined,
  );
  if (open.length === 0) return;
  const values = open.map((i) => series.values[i]!);
  const rising = rises(values);
  if (!rising && !isBeyondAnyBoiler(read, series, open)) return;
  const { table, columns, values: understood } = read.settled[series.files[open[0]!]!]!.draft;
  const { column } = understood.values[0]!;
  const name = columns.header[column] || `column ${column + 1}`;
  throw new InputError(
    rising
      ? `"${name}" only ever rises, like a cumulative register`
      : `"${name}" holds more gas than a home can burn, as a cumulative register does`,
    'Say what it is: --register yes or --register no.',
    { file: table.file, line: table.lineOf(columns.headerRecord ?? columns.rows[0]!) },
  );
}

function rises(values: readonly number[]): boolean {
  const steps = values.slice(1).map((value, i) => value - values[i]!);
  const up = steps.filter((step) => step > 0).length;
  const down = steps.filter((step) => step < 0).length;
  if (up + down >= MANY_STEPS) return up >= 5 * down;
  if (down > 0 || up === 0) return false;
  const at = steps.findIndex((step) => step > 0);
  return up > 1 || steps[at]! < values[at]! / 2;
}

function isBeyondAnyBoiler(
  read: ReadFiles<GasChannel>,
  series: Series<GasChannel>,
  positions: readonly number[],
): boolean {
  const perDay = positions
    .map((i) => {
      const { draft, stamps } = read.settled[series.files[i]!]!;
      // Lines with both ends have lengths of their own.
      if (stamps.endMs !== undefined) return 0;
      const isVolume = draft.values.values[0]!.unit.quantity === 'volume';
      return (series.values[i]! * (isVolume ? KWH_PER_M3 : 1)) / (series.stepMs / DAY_MS);
    })
    .sort((a, b) => a - b);
  return perDay[Math.floor(perDay.length / 2)]! > MOST_KWH_A_DAY;
}
