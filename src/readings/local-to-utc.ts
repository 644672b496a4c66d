import type { ZoneClock } from '../time/zone-clock.js';

const MINUTE_MS = 60_000;

/** Wall-clock stamps of a file as instants, and what could not be settled. */
interface ResolvedStamps {
  /** Epoch ms; NaN for a label that the clock skipped. */
  utcMs: Float64Array;
  /** Positions of labels in a skipped hour. */
  skipped: number[];
  /** Positions of labels of a repeated hour that occur once, with nothing before or after to tell which of the two it is: taken as the first. */
  undecided: number[];
  /** Positions of labels of a repeated hour that stand before an earlier one: which of the two they are is the file's order alone. */
  unordered: number[];
}

/**
 * Turns the wall-clock stamps of a file into instants. In the hour that autumn repeats, a label that occurs twice is its first and its
 * second occurrence in the order of the file; one that occurs once is settled by its neighbours where they leave one choice.
 *
 * @param localMs wall-clock ms as if UTC, in the order of the file
 * @param clock clock of the zone, covering them
 * @param stepMs length of an interval, ms
 * @returns instants by position
 * @example resolveLocal(Float64Array.of(Date.UTC(2026, 6, 1)), clock, 1_800_000).utcMs[0] // 2026-06-30T23:00Z in London
 */
export function resolveLocal(localMs: Float64Array, clock: ZoneClock, stepMs: number): ResolvedStamps {
  const n = localMs.length;
  const utcMs = new Float64Array(n);
  const skipped: number[] = [];
  const repeated: number[] = [];
  const pairs = new Map<number, [number, number]>();
  const descending = descends(localMs);
  let from = 0;
  let to = 0;
  let offsetMs = 0;
  for (let k = 0; k < n; k++) {
    const i = descending ? n - 1 - k : k;
    const local = localMs[i]!;
    if (!(local >= from && local < to)) {
      [from, to, offsetMs] = plainSpan(clock, local);
      if (!(local >= from && local < to)) {
        const instants = clock.instantsOf(local);
        if (instants.length === 2) {
          repeated.push(i);
          pairs.set(local, [instants[0]!, instants[1]!]);
        } else {
          if (instants.length === 0) skipped.push(i);
          utcMs[i] = instants[0] ?? Number.NaN;
        }
        to = from;
        continue;
      }
    }
    utcMs[i] = local - offsetMs;
  }
  const undecided = settleRepeated(localMs, utcMs, repeated, pairs, stepMs, descending);
  const unordered = repeated.filter((i, k) => k > 0 && utcMs[i]! < utcMs[repeated[k - 1]!]!);
  return { utcMs, skipped, undecided, unordered };
}

/** The span of wall-clock times around one, in which each label is one instant at one offset. */
function plainSpan(clock: ZoneClock, local: number): [number, number, number] {
  let from = Number.NEGATIVE_INFINITY;
  let to = Number.POSITIVE_INFINITY;
  let offset = clock.offsetMinutesAt(Number.NEGATIVE_INFINITY);
  for (const change of clock.changes) {
    const before = change.utcMs + change.offsetBeforeMinutes * MINUTE_MS;
    const after = change.utcMs + change.offsetAfterMinutes * MINUTE_MS;
    if (local >= Math.max(before, after)) {
      from = Math.max(before, after);
      offset = change.offsetAfterMinutes;
    } else {
      to = Math.min(before, after);
      break;
    }
  }
  return [from, to, offset * MINUTE_MS];
}

function descends(values: Float64Array): boolean {
  let down = 0;
  for (let i = 1; i < values.length; i++)
    down += values[i]! < values[i - 1]! ? 1 : values[i]! > values[i - 1]! ? -1 : 0;
  return down > 0;
}

function settleRepeated(
  localMs: Float64Array,
  utcMs: Float64Array,
  repeated: readonly number[],
  pairs: ReadonlyMap<number, [number, number]>,
  stepMs: number,
  descending: boolean,
): number[] {
  if (repeated.length === 0) return [];
  const places = new Map<number, number[]>();
  for (const i of repeated) {
    const list = places.get(localMs[i]!);
    if (list === undefined) places.set(localMs[i]!, [i]);
    else list.push(i);
  }
  const single: number[] = [];
  for (const [local, list] of places) {
    const pair = pairs.get(local)!;
    if (list.length === 1) {
      single.push(list[0]!);
      utcMs[list[0]!] = Number.NaN;
    } else {
      list.forEach((i, k) => {
        utcMs[i] = pair[k % 2]!;
      });
    }
  }
  const forward = descending ? -1 : 1;
  single.sort((a, b) => (a - b) * forward);
  const undecided: number[] = [];
  for (let k = 0; k < single.length; ) {
    // A run of neighbours in the file is settled together.
    let end = k;
    while (end + 1 < single.length && single[end + 1] === single[end]! + forward) end++;
    const run = single.slice(k, end + 1);
    const firstPair = pairs.get(localMs[run[0]!]!)!;
    const lastPair = pairs.get(localMs[run.at(-1)!]!)!;
    const before = utcMs[run[0]! - forward];
    const after = utcMs[run.at(-1)! + forward];
    const followsAsFirst = before !== undefined && firstPair[0] - before === stepMs;
    const leadsAsSecond = after !== undefined && after - lastPair[1] === stepMs;
    const tooLateForFirst = before !== undefined && firstPair[0] <= before;
    const second = tooLateForFirst || (leadsAsSecond && !followsAsFirst);
    if (!second && (!followsAsFirst || leadsAsSecond)) undecided.push(...run);
    for (const i of run) utcMs[i] = pairs.get(localMs[i]!)![second ? 1 : 0];
    k = end + 1;
  }
  return undecided;
}
