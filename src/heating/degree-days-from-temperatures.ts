import { InputError } from '../errors.js';
import type { DescribedFunction } from '../functions/described-function.js';
import { requireNumber, requirePositive } from '../functions/require-number.js';
import { columnAt, numberAt } from './cell-arguments.js';

/**
 * Heating degree days from temperatures at even steps: the sum of base − temperature over the steps below the
 * base, each counting for its share of a day. Half-hours of a day: 1/48; hours: 1/24; daily means: 1.
 * Steps without a temperature (NaN) count nothing: show how many there are beside the result.
 * Source: the integral that defines degree days (CIBSE TM41, from memory).
 *
 * @param temperaturesC temperatures, °C, one a step, NaN where missing
 * @param baseC base temperature, °C
 * @param stepHours length of a step in hours: 0.5, 1 or 24
 * @returns heating degree days of the steps that have a temperature, °C·day
 * @throws InputError when no step has a temperature, one is infinite, or the step is not above 0
 * @example degreeDaysFromTemperatures([5.5, 15.5, 20, 25.5], 15.5, 6) // 2.5
 */
export function degreeDaysFromTemperatures(
  temperaturesC: ArrayLike<number>,
  baseC: number,
  stepHours: number,
): number {
  requireNumber(baseC, 'baseC');
  requirePositive(stepHours, 'stepHours');
  let sum = 0;
  let known = 0;
  for (let i = 0; i < temperaturesC.length; i++) {
    const temperature = temperaturesC[i]!;
    if (Number.isNaN(temperature)) continue;
    requireNumber(temperature, 'temperaturesC');
    known++;
    if (temperature < baseC) sum += baseC - temperature;
  }
  if (known === 0) throw new InputError('there is no temperature', 'Give at least one.');
  return (sum * stepHours) / 24;
}

const args = [
  {
    name: 'temperaturesC',
    unit: '°C',
    kind: 'number',
    shape: 'column',
    description: 'Temperatures at even steps; blanks count nothing.',
  },
  { name: 'baseC', unit: '°C', kind: 'number', shape: 'cell', description: 'Base temperature.' },
  {
    name: 'stepHours',
    unit: 'hours',
    kind: 'number',
    shape: 'cell',
    description: 'Length of a step: 0.5 for half-hours, 1 for hours, 24 for daily means.',
  },
] as const;

export const degreeDaysFromTemperaturesDescribed: DescribedFunction = {
  name: 'degreeDaysFromTemperatures',
  cellName: 'DEGREE_DAYS_FROM_TEMPERATURES',
  category: 'heating',
  summary: 'Heating degree days from half-hourly, hourly or daily mean temperatures, over any period.',
  arguments: args,
  result: {
    unit: '°C·day',
    shape: 'cell',
    description: 'Heating degree days of the steps that have a temperature.',
  },
  source: 'the integral that defines degree days (CIBSE TM41, from memory)',
  example: { arguments: [[[5.5], [15.5], [20], [25.5]], 15.5, 6], result: 2.5 },
  compute: (a) =>
    degreeDaysFromTemperatures(columnAt(a, args, 0), numberAt(a, args, 1), numberAt(a, args, 2)),
  // The same sum as base × count − temperatures, below the base: these functions pass over blanks in every program.
  formula: ([temperatures, base, step]) =>
    `(COUNTIF(${temperatures},"<"&${base})*${base}-SUMIF(${temperatures},"<"&${base}))*${step}/24`,
};
