import highsModule, { type ModelData } from 'highs';
import type { Battery, BatteryInput } from '../../src/battery/battery.js';

/**
 * Least cost by an independent solver: HiGHS on a linear programme that shares no line with the library.
 *
 * Each half-hour is a mixture of steady ways to run the battery (full output, output equal to the demand, rest, all
 * surplus stored, full charge): shares of its time, at most 1 together, the remainder at rest.
 *
 *     minimise  Σ share × cost  − end value × (level at the end − level at the start)
 *     level i = level i−1 + Σ share × gain,   floor ≤ level i ≤ usable,   Σ shares ≤ 1
 *
 * @param input half-hours, kWh and p/kWh
 * @param battery units as in {@link Battery}
 * @param endValuePencePerKwh p per stored kWh
 * @param chargeOnly for a start below the reserve: half-hours of charging only, after which the level is at or above the
 *   reserve; `always` for never reaching it
 * @returns model in compressed columns; its optimum, p, includes the cost without a battery
 */
export function linearProgramme(
  input: BatteryInput,
  battery: Battery,
  endValuePencePerKwh: number,
  chargeOnly: number | 'always' = 0,
): ModelData {
  const count = input.importKwh.length;
  const start = Math.min(battery.startKwh, battery.usableKwh);
  const onlyUntil = chargeOnly === 'always' ? count : chargeOnly;
  const reserveFrom = chargeOnly === 'always' ? Number.POSITIVE_INFINITY : onlyUntil - 1;
  const colCost: number[] = [];
  const colLower: number[] = [];
  const colUpper: number[] = [];
  const starts = [0];
  const indices: number[] = [];
  const values: number[] = [];
  const column = (
    cost: number,
    lower: number,
    upper: number,
    entries: readonly (readonly [number, number])[],
  ): void => {
    colCost.push(cost);
    colLower.push(lower);
    colUpper.push(upper);
    for (const [row, value] of entries) {
      indices.push(row);
      values.push(value);
    }
    starts.push(indices.length);
  };
  let offset = endValuePencePerKwh * start;
  for (let i = 0; i < count; i++) {
    offset += input.importKwh[i]! * input.unitRatePence[i]! - input.exportKwh[i]! * input.exportRatePence[i]!;
    const floor = i >= reserveFrom ? Math.min(battery.reserveKwh, battery.usableKwh) : start;
    const balance: [number, number][] = [[i, 1]];
    if (i + 1 < count) balance.push([i + 1, -1]);
    column(i + 1 === count ? -endValuePencePerKwh : 0, floor, battery.usableKwh, balance);
    for (const ac of steadyWays(input, battery, i, i < onlyUntil)) {
      const gain = ac > 0 ? ac * battery.chargeEfficiency : ac / battery.dischargeEfficiency;
      column(steadyCost(input, battery, i, ac), 0, 1, [
        [i, -gain],
        [count + i, 1],
      ]);
    }
  }
  const numRows = 2 * count;
  const numCols = colCost.length;
  return {
    numCols,
    numRows,
    offset,
    colCost,
    colLower,
    colUpper,
    rowLower: Array.from({ length: numRows }, (_, r) => (r === 0 ? start : r < count ? 0 : -1e30)),
    rowUpper: Array.from({ length: numRows }, (_, r) => (r === 0 ? start : r < count ? 0 : 1)),
    matrix: { format: 'csc', numRows, numCols, starts, indices, values },
  };
}

/** AC kWh of the steady ways other than rest. */
function steadyWays(input: BatteryInput, battery: Battery, i: number, chargeOnly: boolean): number[] {
  const net = input.importKwh[i]! - input.exportKwh[i]!;
  const barredCar = battery.mayFeedCar ? 0 : input.carKwh[i]!;
  const demand = Math.max(0, net - barredCar);
  const mostOut = battery.dischargeKw / 2;
  const mostIn = battery.chargeFromGrid
    ? battery.chargeKw / 2
    : Math.min(battery.chargeKw / 2, Math.max(0, -net));
  const outputs = [Math.min(demand, mostOut), battery.mayExport && barredCar === 0 ? mostOut : 0];
  const ways = [...(chargeOnly ? [] : outputs.map((x) => -x)), Math.min(input.exportKwh[i]!, mostIn), mostIn];
  return [...new Set(ways)].filter((ac) => Math.abs(ac) > 1e-12);
}

/** p more than without a battery, when it runs at so many AC kWh in the half-hour. */
function steadyCost(input: BatteryInput, battery: Battery, i: number, ac: number): number {
  const rate = input.unitRatePence[i]!;
  const exportRate = input.exportRatePence[i]!;
  if (ac > 0) {
    const fromSurplus = Math.min(ac, input.exportKwh[i]!);
    return fromSurplus * exportRate + (ac - fromSurplus) * rate;
  }
  const barredCar = battery.mayFeedCar ? 0 : input.carKwh[i]!;
  const served = Math.min(-ac, Math.max(0, input.importKwh[i]! - input.exportKwh[i]! - barredCar));
  return -served * rate - (-ac - served) * exportRate - ac * battery.wearPencePerKwh;
}

// The package's types say CommonJS, where Node gives an ES module whose default export is the loader itself.
const loadHighs = highsModule as unknown as typeof highsModule.default;

/** A loaded solver. */
export type Solver = Awaited<ReturnType<typeof loadHighs>>;

/** Loads HiGHS (npm `highs`, MIT). */
export function loadSolver(): Promise<Solver> {
  return loadHighs();
}

/**
 * Solves a programme.
 *
 * @param solver from {@link loadSolver}
 * @param model from {@link linearProgramme}
 * @returns least cost, p; infinite where no schedule is possible
 */
export function solveLinearProgramme(solver: Solver, model: ModelData): number {
  return solver.withModel(model, (solved) => {
    solved.options.set({ output_flag: false });
    solved.run();
    const status = solved.getModelStatus();
    const { optimal, infeasible } = solver.constants.modelStatus;
    if (status === infeasible) return Number.POSITIVE_INFINITY;
    if (status !== optimal) throw new Error(`HiGHS ended with status ${status}`);
    return solved.getObjectiveValue();
  });
}
