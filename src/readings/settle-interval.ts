import { DAY_MS } from '../time/serial.js';
import type { Draft } from './draft.js';
import type { StampPosition } from './import-options.js';
import type { Stamps } from './read-stamps.js';

const MINUTE_MS = 60_000;

/** Stands for a calendar month where an interval's length is asked for. */
export const MONTH_MS = 30 * DAY_MS;

/** Lengths of a calendar month are all told as {@link MONTH_MS}. */
function monthsAsOne(stepMs: number | undefined): number | undefined {
  return stepMs !== undefined && stepMs >= 28 * DAY_MS && stepMs <= 31 * DAY_MS ? MONTH_MS : stepMs;
}

/**
 * The usual time between two lines of a file, taken from its stamps: the difference that occurs most often.
 *
 * @param draft the file
 * @param stamps its stamps
 * @returns ms; undefined where it has a single stamp
 * @example usualStepMs(draft, stamps) // 1_800_000
 */
export function usualStepMs<C extends string>(draft: Draft<C>, stamps: Stamps): number | undefined {
  const { ms } = stamps;
  if (stamps.months) return MONTH_MS;
  const counts = new Map<number, number>();
  const count = (step: number): void => {
    const wholeMinutesMs = Math.round(Math.abs(step) / MINUTE_MS) * MINUTE_MS;
    if (wholeMinutesMs > 0) counts.set(wholeMinutesMs, (counts.get(wholeMinutesMs) ?? 0) + 1);
  };
  const channelColumn = draft.values.channelColumn?.column;
  if (stamps.endMs !== undefined) {
    for (let i = 0; i < ms.length; i++) count(stamps.endMs[i]! - ms[i]!);
  } else if (channelColumn === undefined) {
    for (let i = 1; i < ms.length; i++) {
      const step = ms[i]! - ms[i - 1]!;
      if (step !== 0) count(step);
    }
  } else {
    const last = new Map<string, number>();
    for (let i = 0; i < ms.length; i++) {
      const cell = draft.table.records[draft.columns.rows[i]!]![channelColumn] ?? '';
      const before = last.get(cell);
      if (before !== undefined && before !== ms[i]) count(ms[i]! - before);
      last.set(cell, ms[i]!);
    }
  }
  let best: number | undefined;
  for (const [step, times] of counts) {
    const most = best === undefined ? 0 : counts.get(best)!;
    if (times > most || (times === most && step < best!)) best = step;
  }
  return monthsAsOne(best);
}

/** Earliest and latest stamp of files that come from one export. */
export interface StampSpan {
  firstMs: number;
  lastMs: number;
  has24: boolean;
}

/**
 * Start or end, from what the stamps themselves show: an export of whole days begins at 00:00 and ends at 23:30 when stamped by
 * start, begins at 00:30 and ends at 00:00 or 24:00 when stamped by end.
 *
 * @param span earliest and latest wall-clock stamp (ms as if UTC) of the export
 * @param stepMs length of an interval, ms
 * @returns the position that the evidence shows; undefined where it shows none
 * @example positionFromSpan({ firstMs: 1_800_000, lastMs: 86_400_000, has24: false }, 1_800_000) // 'end'
 */
export function positionFromSpan(span: StampSpan, stepMs: number): StampPosition | undefined {
  const timeOfDay = (ms: number): number => ((ms % DAY_MS) + DAY_MS) % DAY_MS;
  if (span.has24) return 'end';
  const first = timeOfDay(span.firstMs);
  const last = timeOfDay(span.lastMs);
  if (first === stepMs % DAY_MS && last === 0) return 'end';
  if (first === 0 && last === DAY_MS - stepMs) return 'start';
  return undefined;
}
