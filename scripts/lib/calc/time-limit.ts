import { availableParallelism, loadavg } from 'node:os';

/** How much longer than on an idle machine of the usual speed work takes here and now. */
export interface MachinePace {
  /** Processes that want to run, per core: the load average of the last minute. */
  loadPerCore: number;
  /** Processor time of a fixed piece of work over that on the machine of reference: 2 is half as fast. */
  slowness: number;
}

/** No limit grows beyond this many times: a program that hangs is to be noticed on a busy machine too. */
export const LARGEST_GROWTH = 4;

/**
 * A time limit for a request to a spreadsheet program, grown with what else the machine has to do.
 *
 * A limit that serves on an idle machine is right on a busy one only by chance. With `n` others a core, work takes at
 * most `1 + n` times as long.
 *
 * @param limitMs the limit on an idle machine of the usual speed, ms
 * @param pace how the machine does; by default as measured now
 * @returns the limit, ms; never less than given, at most {@link LARGEST_GROWTH} times as much
 * @example scaledLimitMs(120_000, { loadPerCore: 1, slowness: 1 }) // 240000
 */
export function scaledLimitMs(limitMs: number, pace: MachinePace = machinePace()): number {
  const growth = (1 + Math.max(0, pace.loadPerCore)) * Math.max(1, pace.slowness);
  return Math.round(limitMs * Math.min(growth, LARGEST_GROWTH));
}

/** How the machine does now: its load is read anew, its speed is measured once in a process. */
export function machinePace(): MachinePace {
  slowness ??= fixedWorkMs() / REFERENCE_MS;
  return { loadPerCore: (loadavg()[0] ?? 0) / availableParallelism(), slowness };
}

let slowness: number | undefined;

/** Processor time of the fixed work where the limits were chosen, ms. */
const REFERENCE_MS = 20;
const RUNS = 5;

/** Processor time, so that the load is not counted twice; the quickest of a few runs, since the first compiles. */
function fixedWorkMs(): number {
  let quickest = Number.POSITIVE_INFINITY;
  for (let run = 0; run < RUNS; run++) {
    const before = process.cpuUsage();
    const values = Float64Array.from({ length: 60_000 }, (_, i) => Math.sin(i * 12.9898) * 43_758.5453);
    values.sort();
    const { user, system } = process.cpuUsage(before);
    quickest = Math.min(quickest, (user + system) / 1000);
  }
  return quickest;
}
