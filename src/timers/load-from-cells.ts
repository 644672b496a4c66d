import { InputError } from '../errors.js';
import { type CellReader, cellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription, CellArgument } from '../functions/described-function.js';
import { requireHalfHours } from '../functions/require-half-hours.js';
import type { MovableLoad, Timer } from './timer.js';

const START: ArgumentDescription = {
  name: 'localStart',
  unit: 'date and time',
  kind: 'dateTime',
  shape: 'column',
  description: 'Start of each half-hour by the wall clock, in order.',
};
const LOAD: ArgumentDescription = {
  name: 'loadKwh',
  unit: 'kWh',
  kind: 'number',
  shape: 'column',
  description: 'What the load took in each half-hour; 0 where it is missing.',
};
const RATE: ArgumentDescription = {
  name: 'unitRatePence',
  unit: 'p/kWh',
  kind: 'number',
  shape: 'column',
  description: 'Unit rate of each half-hour.',
};
const TIMER: readonly ArgumentDescription[] = [
  {
    name: 'allowedFrom',
    unit: 'time of day',
    kind: 'time',
    shape: 'cell',
    description: 'Start of the hours in which it may run, on the half-hour.',
  },
  {
    name: 'allowedTo',
    unit: 'time of day',
    kind: 'time',
    shape: 'cell',
    description: 'End of those hours, up to 24:00; before the start: on the next day.',
  },
  {
    name: 'powerKw',
    unit: 'kW',
    kind: 'number',
    shape: 'cell',
    description: 'Power at which it runs.',
  },
];

/** Arguments of a load and its timer. */
export const LOAD_ARGUMENTS: readonly ArgumentDescription[] = [START, LOAD, ...TIMER];
/** Arguments of a load, its timer and what a kWh costs. */
export const PRICED_LOAD_ARGUMENTS: readonly ArgumentDescription[] = [START, LOAD, RATE, ...TIMER];

/**
 * The load and the timer out of cells.
 *
 * @param args as the cell gives them
 * @param described {@link LOAD_ARGUMENTS} or {@link PRICED_LOAD_ARGUMENTS}
 * @returns kWh, hours in minutes, kW, and the reader for arguments beyond
 * @throws InputError naming the argument that can't be used
 * @example loadFromCells(args, LOAD_ARGUMENTS).timer.powerKw
 */
export function loadFromCells(
  args: readonly CellArgument[],
  described: readonly ArgumentDescription[],
): { load: MovableLoad; timer: Timer; read: CellReader } {
  const read = cellReader(args, described);
  const localSerial = requireHalfHours(read.numbers('localStart'));
  const load = { localSerial, loadKwh: read.numbers('loadKwh') };
  const hours = { fromMinutes: minutesOf(read, 'allowedFrom'), toMinutes: minutesOf(read, 'allowedTo') };
  if (hours.fromMinutes === 1440) {
    throw new InputError('allowedFrom is 24:00', 'Write 00:00 for a start at midnight.');
  }
  if (hours.fromMinutes === hours.toMinutes) {
    throw new InputError(
      'allowedFrom and allowedTo are the same: the hours have no length',
      'The whole day is 00:00 to 24:00.',
    );
  }
  return { load, timer: { isOn: true, hours, powerKw: read.number('powerKw') }, read };
}

/** Minutes after midnight of a time of day on the half-hour; a typed 0.0208333 is 00:30. */
function minutesOf(read: CellReader, name: string): number {
  const time = read.number(name);
  const minutes = Math.round(time * 1440);
  if (time >= 0 && time <= 1 && minutes % 30 === 0) return minutes;
  throw new InputError(
    `${name} is ${time}`,
    'Give a time of day from 00:00 to 24:00 on the half-hour, without a date.',
  );
}
