import { leastCostSchedule } from '../../src/battery/least-cost-schedule.js';
import { linearProgramme, loadSolver, solveLinearProgramme } from './linear-programme.js';
import { type BatteryCase, randomBatteryCase } from './random-battery-case.js';

/** Both ways to the least cost of a year, timed. */
export interface LeastCostTimes {
  halfHours: number;
  /** Mean of several runs after warming up, ms. */
  ownMs: number;
  /** First run in this process, ms. */
  ownFirstMs: number;
  /** HiGHS on the finished model, ms, once. */
  solverMs: number;
  /** Difference of the two costs over the larger. */
  relativeDifference: number;
}

/** A year at half-hourly prices: the slowest kind, because no two slopes are equal. */
export function yearCase(): BatteryCase {
  const { input, battery } = randomBatteryCase(14, 17_520);
  return {
    input,
    battery: { ...battery, usableKwh: 10, reserveKwh: 1, startKwh: 1, chargeKw: 3, dischargeKw: 3 },
  };
}

/**
 * Times the library's least cost against HiGHS, for the benchmark.
 *
 * @param year half-hours and battery; by default {@link yearCase}
 */
export async function timeLeastCost({ input, battery }: BatteryCase = yearCase()): Promise<LeastCostTimes> {
  const RUNS = 20;
  const first = performance.now();
  const { totals } = leastCostSchedule(input, battery);
  const ownFirstMs = performance.now() - first;
  for (let run = 0; run < RUNS; run++) leastCostSchedule(input, battery);
  const own = performance.now();
  for (let run = 0; run < RUNS; run++) leastCostSchedule(input, battery);
  const ownMs = (performance.now() - own) / RUNS;

  const solver = await loadSolver();
  const model = linearProgramme(input, battery, totals.endValuePencePerKwh);
  const started = performance.now();
  const reference = solveLinearProgramme(solver, model);
  return {
    halfHours: input.importKwh.length,
    ownMs,
    ownFirstMs,
    solverMs: performance.now() - started,
    relativeDifference:
      Math.abs(totals.netCostPence - reference) /
      Math.max(Math.abs(totals.netCostPence), Math.abs(reference)),
  };
}
