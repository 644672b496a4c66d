/** One line of the benchmark: a figure, what it is held against, and whether the aim is met. */
export interface Measured {
  what: string;
  /** Figure and baseline with their units, as they are to be read. */
  figure: string;
  baseline: string;
  /** Figure over baseline, where both are of one kind. */
  ratio?: number;
  aim: string;
  /** `not held`: there was nothing to hold it against. Undefined where nothing is asked of the figure. */
  met: boolean | 'skipped' | 'not held' | undefined;
  /** Why it was skipped. */
  why?: string;
}

/**
 * Times two ways of the same length of work in turn, so that both see the same machine.
 *
 * @param ours the work
 * @param baseline what it is held against
 * @param runs how often each is timed, after warming up
 * @returns medians, ms
 */
export function timeBoth(
  ours: () => unknown,
  baseline: () => unknown,
  runs = 9,
): { oursMs: number; baselineMs: number } {
  const times: [number[], number[]] = [[], []];
  const WARM_UP = 3;
  for (let run = 0; run < WARM_UP + runs; run++) {
    for (const [way, work] of [ours, baseline].entries()) {
      const started = performance.now();
      work();
      if (run >= WARM_UP) times[way]!.push(performance.now() - started);
    }
  }
  return { oursMs: median(times[0]), baselineMs: median(times[1]) };
}

/** The middle one of some values. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}

/** A time with three digits that matter. */
export function timeText(ms: number): string {
  if (ms >= 9_995) return `${(ms / 1000).toFixed(1)} s`;
  if (ms >= 999.5) return `${(ms / 1000).toFixed(2)} s`;
  return `${ms < 10 ? ms.toFixed(2) : ms.toFixed(0)} ms`;
}

/** A size in MB of 1,000,000 bytes. */
export function megabytesText(megabytes: number): string {
  return `${megabytes < 10 ? megabytes.toFixed(1) : megabytes.toFixed(0)} MB`;
}

/** A count with its thousands marked. */
export function countText(count: number): string {
  return count.toLocaleString('en-GB');
}

/** A comparison of two times with the most that the ratio may be. */
export function compareTimes(what: string, oursMs: number, baselineMs: number, most: number): Measured {
  return compareFigures(what, oursMs, baselineMs, most, timeText);
}

/**
 * A figure beside a baseline of the same kind, with the most that the ratio may be.
 *
 * @param what name of the line
 * @param value the figure
 * @param baseline what it is held against; undefined where there is none, and then the aim stays open
 * @param most the aim: figure over baseline
 * @param text writes both
 */
export function compareFigures(
  what: string,
  value: number,
  baseline: number | undefined,
  most: number,
  text: (value: number) => string,
): Measured {
  const line = { what, figure: text(value), aim: `≤ ${most}×` };
  if (baseline === undefined) return { ...line, baseline: '', met: 'not held' };
  const ratio = value / baseline;
  return { ...line, baseline: text(baseline), ratio, met: ratio <= most };
}

/** A figure with a limit of its own. */
export function atMost(
  what: string,
  value: number,
  limit: number,
  text: (value: number) => string,
): Measured {
  return { what, figure: text(value), baseline: '', aim: `≤ ${text(limit)}`, met: value <= limit };
}

/** A line for what could not be measured. */
export function skipped(what: string, why: string): Measured {
  return { what, figure: '', baseline: '', aim: '', met: 'skipped', why };
}
