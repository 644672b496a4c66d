import type { ArgumentDescription, CellScalar, DescribedFunction } from '../functions/described-function.js';
import type { BatteryInput } from './battery.js';
import { batteryCost, leastBatteryCost } from './battery-cost.js';
import { BATTERY_RUN_ARGUMENTS, batteryRunFromCells } from './battery-from-cells.js';
import { runBatteryRule } from './battery-rule.js';
import { breakEvenSpreadFunction } from './break-even-spread.js';
import { costByCapacity } from './cost-by-capacity.js';
import { deliveredUnitCostFunction } from './delivered-unit-cost.js';
import { leastCostSchedule } from './least-cost-schedule.js';

type Rows = readonly (readonly CellScalar[])[];

const column = (...values: CellScalar[]): Rows => values.map((value) => [value]);

// An evening of four half-hours: 1 kWh stored at 8 p (1.25 kWh AC), kept while a kWh is 20 p, given back at 40 p.
const EXAMPLE_RUN = [
  column(46_000, 46_000 + 1 / 48, 46_000 + 2 / 48, 46_000 + 3 / 48),
  column(0, 1, 1, 0),
  column(0, 0, 0, 0),
  column(0, 0, 0, 0),
  column(8, 20, 40, 40),
  column(0, 0, 0, 0),
  column(1, 4, 4, 0.8, 1, 0, 0, 0, 'yes', 'yes', 'no'),
] as const;

const FLOW_COLUMNS =
  'One row a half-hour: AC kWh charged (below 0: discharged), stored kWh at its end, import kWh, export kWh, cost p.';

/** Rows of a schedule: battery, level, import, export, cost. */
function scheduleRows(
  input: BatteryInput,
  flows: {
    batteryKwh: Float64Array;
    levelKwh: Float64Array;
    importKwh: Float64Array;
    exportKwh: Float64Array;
  },
): Rows {
  return Array.from(flows.levelKwh, (level, i) => {
    const imported = flows.importKwh[i]!;
    const exported = flows.exportKwh[i]!;
    const cost = imported * input.unitRatePence[i]! - exported * input.exportRatePence[i]!;
    // + 0: a cell has no negative zero.
    return [flows.batteryKwh[i]! + 0, level, imported, exported, cost];
  });
}

const batteryScheduleFunction: DescribedFunction = {
  name: 'runBatteryRule',
  cellName: 'BATTERY_SCHEDULE',
  category: 'battery',
  summary: 'What a home battery does by the stated rule, half-hour by half-hour.',
  arguments: BATTERY_RUN_ARGUMENTS,
  result: { unit: 'kWh and p', shape: 'table', description: FLOW_COLUMNS },
  source: 'common practice, no source',
  example: {
    arguments: EXAMPLE_RUN,
    result: [
      [1.25, 1, 1.25, 0, 10],
      [0, 1, 1, 0, 20],
      [-1, 0, 0, 0, 0],
      [0, 0, 0, 0, 0],
    ],
  },
  compute: (args) => {
    const { input, battery } = batteryRunFromCells(args, BATTERY_RUN_ARGUMENTS);
    return scheduleRows(input, runBatteryRule(input, battery));
  },
};

const leastCostScheduleFunction: DescribedFunction = {
  name: 'leastCostSchedule',
  cellName: 'BATTERY_LEAST_COST_SCHEDULE',
  category: 'battery',
  summary: 'The schedule of least cost that a home battery could follow, knowing everything beforehand.',
  arguments: BATTERY_RUN_ARGUMENTS,
  result: { unit: 'kWh and p', shape: 'table', description: FLOW_COLUMNS },
  source: 'dynamic programming on convex piecewise linear costs; equal to a linear programme',
  example: {
    arguments: EXAMPLE_RUN,
    result: [
      [1.25, 1, 1.25, 0, 10],
      [0, 1, 1, 0, 20],
      [-1, 0, 0, 0, 0],
      [0, 0, 0, 0, 0],
    ],
  },
  compute: (args) => {
    const { input, battery } = batteryRunFromCells(args, BATTERY_RUN_ARGUMENTS);
    const schedule = leastCostSchedule(input, battery);
    const batteryKwh = schedule.chargeKwh.map((kwh, i) => kwh - schedule.dischargeKwh[i]!);
    return scheduleRows(input, { ...schedule, batteryKwh });
  },
};

const NET_COST =
  'Import less export credit, with wear, less the value of the level gained at the average day’s lowest unit rate ÷ charge efficiency.';

const batteryCostFunction: DescribedFunction = {
  name: 'batteryCost',
  cellName: 'BATTERY_COST',
  category: 'battery',
  summary: 'What the half-hours cost with a home battery that follows the stated rule.',
  arguments: BATTERY_RUN_ARGUMENTS,
  result: { unit: 'p', shape: 'cell', description: NET_COST },
  source: 'common practice, no source',
  example: { arguments: EXAMPLE_RUN, result: 30 },
  compute: (args) => {
    const { input, battery } = batteryRunFromCells(args, BATTERY_RUN_ARGUMENTS);
    return batteryCost(input, battery);
  },
};

const leastCostFunction: DescribedFunction = {
  name: 'leastBatteryCost',
  cellName: 'BATTERY_LEAST_COST',
  category: 'battery',
  summary: 'The least that the half-hours could cost with a home battery, whatever its schedule.',
  arguments: BATTERY_RUN_ARGUMENTS,
  result: { unit: 'p', shape: 'cell', description: NET_COST },
  source: 'dynamic programming on convex piecewise linear costs; equal to a linear programme',
  example: { arguments: EXAMPLE_RUN, result: 30 },
  compute: (args) => {
    const { input, battery } = batteryRunFromCells(args, BATTERY_RUN_ARGUMENTS);
    return leastBatteryCost(input, battery);
  },
};

const CAPACITY_ARGUMENTS: readonly ArgumentDescription[] = [
  ...BATTERY_RUN_ARGUMENTS,
  {
    name: 'capacitiesKwh',
    unit: 'kWh',
    kind: 'number',
    shape: 'column',
    description: 'Usable capacities to try; powers stay, reserve and start keep their share.',
  },
];

const costByCapacityFunction: DescribedFunction = {
  name: 'costByCapacity',
  cellName: 'BATTERY_COST_BY_CAPACITY',
  category: 'battery',
  summary: 'What the half-hours cost with each capacity, by the stated rule and at the least.',
  arguments: CAPACITY_ARGUMENTS,
  result: {
    unit: 'kWh and p',
    shape: 'table',
    description:
      'One row a capacity: usable kWh, cost by the rule p, least cost p, cycles a year by the rule.',
  },
  source: 'common practice, no source',
  example: {
    // 4 half-hours are a twelfth of a day: one cycle in them is 12 × 365 a year.
    arguments: [...EXAMPLE_RUN, column(0, 1)],
    result: [
      [0, 60, 60, 0],
      [1, 30, 30, 4380],
    ],
  },
  compute: (args) => {
    const { input, battery, read } = batteryRunFromCells(args, CAPACITY_ARGUMENTS);
    const capacities = [...read.numbers('capacitiesKwh')];
    return costByCapacity(input, battery, capacities, { fixedPounds: 0, poundsPerKwh: 0 }).map((row) => [
      row.usableKwh,
      row.ruleCostPence,
      row.leastCostPence,
      row.ruleCyclesPerYear,
    ]);
  },
};

/** Every battery function in its two faces, in the order of the documentation. */
export const BATTERY_FUNCTIONS: readonly DescribedFunction[] = [
  deliveredUnitCostFunction,
  breakEvenSpreadFunction,
  batteryCostFunction,
  leastCostFunction,
  batteryScheduleFunction,
  leastCostScheduleFunction,
  costByCapacityFunction,
];
