import { DAY_MS } from '../time/serial.js';
import type { ZoneClock } from '../time/zone-clock.js';
import type { Draft } from './draft.js';
import { fixedOffsetOf } from './fixed-offset.js';
import type { StampPosition } from './import-options.js';
import type { Stamps } from './read-stamps.js';
import { positionFromSpan, type StampSpan } from './settle-interval.js';
import type { Settled } from './settled.js';

const MINUTE_MS = 60_000;

type Position = Pick<Settled<string>, 'position' | 'positionAssumed'>;

/**
 * Start or end, file by file: as headers or options state it, else as the stamps show it, else the start, said as assumed.
 *
 * @param drafts the files
 * @param stamps their stamps
 * @param steps their intervals, ms
 * @param snapped what moving stamps to the grid showed, see snapToGrid
 * @param clock clock of the home
 * @returns positions, and why where nothing states them
 * @example settlePositions(drafts, stamps, steps, snapped, clock)[0].position // 'start'
 */
export function settlePositions<C extends string>(
  drafts: readonly Draft<C>[],
  stamps: readonly Stamps[],
  steps: readonly number[],
  snapped: readonly number[],
  clock: ZoneClock,
): Position[] {
  const stated = (position: StampPosition): Position => ({ position, positionAssumed: undefined });
  const assumed = (position: StampPosition, why: string): Position => {
    const other = position === 'start' ? 'end' : 'start';
    return {
      position,
      positionAssumed: `stamps mark the ${position} of the interval, ${why} (--stamp ${other} says otherwise)`,
    };
  };
  return drafts.map((draft, i) => {
    if (draft.slots !== undefined || draft.stamps.period !== undefined) return stated('start');
    if (draft.stamps.position !== undefined) return stated(draft.stamps.position);
    if (snapped[i]! > 0) return assumed('end', 'as they stand just before it');
    // A value of a day or a month is of the day or month that it names.
    if (steps[i]! >= DAY_MS) return stated('start');
    const span = spanOfExport(draft, drafts, stamps, clock);
    const shown = positionFromSpan(span, steps[i]!);
    if (shown === undefined) return assumed('start', 'as nothing says which');
    const [first, last] = [span.firstMs, span.lastMs].map((ms) => new Date(ms).toISOString().slice(11, 16));
    return assumed(shown, `as they run from ${first} to ${span.has24 ? '24:00' : last}`);
  });
}

/** First and last wall-clock stamp over all files of the same export: a cut of it shows neither. */
function spanOfExport<C extends string>(
  draft: Draft<C>,
  drafts: readonly Draft<C>[],
  stamps: readonly Stamps[],
  clock: ZoneClock,
): StampSpan {
  const span = { firstMs: Number.POSITIVE_INFINITY, lastMs: Number.NEGATIVE_INFINITY, has24: false };
  drafts.forEach((other, k) => {
    if (other.signature !== draft.signature) return;
    const { ms, instants, has24 } = stamps[k]!;
    const offset = instants ? 0 : fixedOffsetOf(other);
    for (let j = 0; j < ms.length; j++) {
      const local = offset === undefined ? ms[j]! : clock.localMsAt(ms[j]! - offset * MINUTE_MS);
      if (local < span.firstMs) span.firstMs = local;
      if (local > span.lastMs) span.lastMs = local;
    }
    span.has24 ||= has24;
  });
  return span;
}
