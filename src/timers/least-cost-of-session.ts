import { cellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription, DescribedFunction } from '../functions/described-function.js';
import { requireNumbers } from '../functions/require-number.js';
import { leastCostByBands } from './least-cost-by-bands.js';
import { halfHourKwh } from './timer.js';

/**
 * The least that the kWh of one session cost in the half-hours in which the load may run.
 * Source of the method: the fractional knapsack.
 *
 * @param sessionKwh kWh to be had, 0 or more
 * @param powerKw power of the load, kW, above 0
 * @param allowedRatesPence p/kWh, one a half-hour in which it may run, in any order
 * @returns cost, p
 * @throws InputError when a number is missing, the energy is negative, the power is not above 0, or the kWh do not fit
 * @example leastCostOfSession(5, 7, [30, 7, 9]) // 38: 3.5 kWh at 7 p, 1.5 kWh at 9 p
 */
export function leastCostOfSession(
  sessionKwh: number,
  powerKw: number,
  allowedRatesPence: ArrayLike<number>,
): number {
  requireNumbers(allowedRatesPence, 'allowedRatesPence');
  const capacityKwh = halfHourKwh(powerKw);
  return leastCostByBands(
    sessionKwh,
    Array.from(allowedRatesPence, (ratePence) => ({ ratePence, capacityKwh })),
  );
}

const ARGUMENTS: readonly ArgumentDescription[] = [
  {
    name: 'sessionKwh',
    unit: 'kWh',
    kind: 'number',
    shape: 'cell',
    description: 'Energy that the load is to have.',
  },
  {
    name: 'powerKw',
    unit: 'kW',
    kind: 'number',
    shape: 'cell',
    description: 'Power at which it runs.',
  },
  {
    name: 'allowedRatesPence',
    unit: 'p/kWh',
    kind: 'number',
    shape: 'column',
    description: 'Unit rate of each half-hour in which it may run.',
  },
];

export const leastCostOfSessionFunction: DescribedFunction = {
  name: 'leastCostOfSession',
  cellName: 'SESSION_LEAST_COST',
  category: 'timers',
  summary:
    'The least that one charge of a car, or one heating of a tank, costs in the half-hours in which it may run.',
  arguments: ARGUMENTS,
  result: {
    unit: 'p',
    shape: 'cell',
    description: 'Cheapest half-hours first, each up to the power; an error where the energy does not fit.',
  },
  source:
    'a linear programme with one sum and upper limits, filled in order of cost (the fractional knapsack)',
  example: { arguments: [5, 7, [[30], [7], [9]]], result: 38 },
  compute: (args) => {
    const read = cellReader(args, ARGUMENTS);
    return leastCostOfSession(
      read.number('sessionKwh'),
      read.number('powerKw'),
      read.numbers('allowedRatesPence'),
    );
  },
  // All kWh at the rate of the last half-hour needed, less what each cheaper one saves against it.
  formula: ([kwh, kw, rates]: readonly [string, string, string, ...string[]]) => {
    const last = `SMALL(${rates},MIN(COUNT(${rates}),INT(${kwh}/(${kw}/2))+1))`;
    const cost = `${kwh}*${last}-${kw}/2*SUMPRODUCT((${rates}<${last})*(${last}-${rates}))`;
    return `IF(${kwh}<=COUNT(${rates})*${kw}/2+1E-9,${cost},NA())`;
  },
};
