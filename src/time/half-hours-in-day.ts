import { InputError } from '../errors.js';
import { cellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription, DescribedFunction } from '../functions/described-function.js';
import { requireNumber } from '../functions/require-number.js';
import { tableColumn } from '../functions/table-column.js';
import { SLOTS_PER_DAY } from './serial.js';

/**
 * Half-hours in a local day by a table of clock changes, as {@link clockChangeTable} makes it.
 * Source: IANA time zone database, by way of the table.
 *
 * @param day spreadsheet serial; the time of day is dropped
 * @param clockChanges rows of [serial day, minutes by which the day is longer than 24 hours]
 * @returns 48, or 46 and 50 where the clock moves an hour
 * @throws InputError when the day is no number or a row of the table is not two numbers
 * @example halfHoursInDay(46320, [[46110, -60], [46320, 60]]) // 50
 */
export function halfHoursInDay(day: number, clockChanges: readonly (readonly [number, number])[]): number {
  const serial = Math.floor(requireNumber(day, 'day', 0));
  const minutes = clockChanges.reduce((sum, [date, gained]) => sum + (date === serial ? gained : 0), 0);
  return SLOTS_PER_DAY + minutes / 30;
}

const ARGUMENTS: readonly ArgumentDescription[] = [
  { name: 'day', unit: 'date', kind: 'date', shape: 'cell', description: 'The local calendar day.' },
  {
    name: 'clockChanges',
    unit: 'none',
    kind: 'number',
    shape: 'table',
    columns: [
      { name: 'date', unit: 'date', kind: 'date' },
      { name: 'minutesGained', unit: 'minutes', kind: 'number' },
    ],
    description:
      'Days on which the clock changes and by how many minutes each is longer than 24 hours: −60 in a usual spring, 60 in autumn.',
  },
];

export const halfHoursInDayFunction: DescribedFunction = {
  name: 'halfHoursInDay',
  cellName: 'HALF_HOURS_IN_DAY',
  category: 'time',
  summary: 'Counts the half-hours of a local day: 48, or 46 and 50 where the clock changes by an hour.',
  arguments: ARGUMENTS,
  result: { unit: 'half-hours', shape: 'cell', description: 'From local midnight to the next.' },
  source: 'IANA time zone database, by way of the table of clock changes',
  example: {
    arguments: [
      46320,
      [
        [46110, -60],
        [46320, 60],
      ],
    ],
    result: 50,
  },
  compute: (args) => {
    const read = cellReader(args, ARGUMENTS);
    const changes = read
      .rows('clockChanges')
      .flatMap(([date = null, gained = null], row): [number, number][] => {
        if (date === null && gained === null) return [];
        if (typeof date === 'number' && typeof gained === 'number') return [[date, gained]];
        throw new InputError(
          `clockChanges has no date and minutes in row ${row + 1}`,
          'Give a real date and a number of minutes.',
        );
      });
    return halfHoursInDay(read.number('day'), changes);
  },
  formula: ([day, changes]: readonly [string, string]) =>
    `48+SUMIFS(${tableColumn(changes, 2)},${tableColumn(changes, 1)},INT(${day}))/30`,
};
