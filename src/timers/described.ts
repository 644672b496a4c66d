import type { CellScalar, DescribedFunction } from '../functions/described-function.js';
import { cheapestHours } from './cheapest-hours.js';
import { leastCostOfLoad } from './least-cost-of-load.js';
import { leastCostOfSessionFunction } from './least-cost-of-session.js';
import { LOAD_ARGUMENTS, loadFromCells, PRICED_LOAD_ARGUMENTS } from './load-from-cells.js';
import { movedLoad } from './moved-load.js';

type Rows = readonly (readonly CellScalar[])[];

const column = (...values: CellScalar[]): Rows => values.map((value) => [value]);

// A car charged at 18:00 for an hour; the night has three half-hours, of which the last two are cheap.
const STARTS = column(46_000.75, 46_000 + 37 / 48, 46_001, 46_001 + 1 / 48, 46_001 + 2 / 48);
const LOAD = column(3, 2, 0, 0, 0);
const RATES = column(30, 30, 20, 8, 8);

const movedLoadFunction: DescribedFunction = {
  name: 'movedLoad',
  cellName: 'MOVED_LOAD',
  category: 'timers',
  summary:
    'What a car or a hot-water tank takes half-hour by half-hour when a timer lets it run in some hours only.',
  arguments: LOAD_ARGUMENTS,
  result: {
    unit: 'kWh',
    shape: 'column',
    description:
      'From noon to noon the same kWh, from the start of the hours on, up to the power; what does not fit stays where it was.',
  },
  source: 'common practice, no source',
  example: { arguments: [STARTS, LOAD, 0, 1.5 / 24, 7], result: column(0, 0, 3.5, 1.5, 0) },
  compute: (args) => {
    const { load, timer } = loadFromCells(args, LOAD_ARGUMENTS);
    return Array.from(movedLoad(load, timer).movedKwh, (kwh) => [kwh]);
  },
};

const leastCostOfLoadFunction: DescribedFunction = {
  name: 'leastCostOfLoad',
  cellName: 'LOAD_LEAST_COST',
  category: 'timers',
  summary: 'The least that a car or a hot-water tank can cost within the hours in which it may run.',
  arguments: PRICED_LOAD_ARGUMENTS,
  result: {
    unit: 'p',
    shape: 'cell',
    description:
      'From noon to noon the cheapest half-hours first, up to the power; what does not fit is priced where it was.',
  },
  source:
    'a linear programme with one sum and upper limits, filled in order of cost (the fractional knapsack)',
  example: { arguments: [STARTS, LOAD, RATES, 0, 1.5 / 24, 7], result: 40 },
  compute: (args) => {
    const { load, timer, read } = loadFromCells(args, PRICED_LOAD_ARGUMENTS);
    return leastCostOfLoad(load, timer, read.numbers('unitRatePence')).costPence;
  },
};

const cheapestHoursFunction: DescribedFunction = {
  name: 'cheapestHours',
  cellName: 'CHEAPEST_HOURS',
  category: 'timers',
  summary:
    'The hours to set a timer to: one start and one end at which a car or a hot-water tank costs least.',
  arguments: PRICED_LOAD_ARGUMENTS,
  result: {
    unit: 'none',
    shape: 'cell',
    description: 'As a clock says it, 00:30 to 04:30; empty where the load costs least as it was metered.',
  },
  source: 'arithmetic',
  example: { arguments: [STARTS, LOAD, RATES, 0, 1.5 / 24, 7], result: '00:30 to 01:30' },
  compute: (args) => {
    const { load, timer, read } = loadFromCells(args, PRICED_LOAD_ARGUMENTS);
    return cheapestHours(load, timer, read.numbers('unitRatePence')).text;
  },
};

/** Every function about timers in its two faces, in the order of the documentation. */
export const TIMER_FUNCTIONS: readonly DescribedFunction[] = [
  movedLoadFunction,
  cheapestHoursFunction,
  leastCostOfLoadFunction,
  leastCostOfSessionFunction,
];
