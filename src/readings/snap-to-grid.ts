import type { Draft } from './draft.js';
import type { Findings } from './findings.js';
import { lineText } from './place-text.js';
import type { Stamps } from './read-stamps.js';

const MINUTE_MS = 60_000;

const GRID_MS = 5 * MINUTE_MS;

/**
 * Moves stamps such as 00:29:59 or 00:30:01, in place, to the five minutes that they stand next to, where all of a file stand so.
 *
 * @param stamps stamps of the file
 * @param draft the file
 * @param findings where to say that it was done
 * @returns 1 where every stamp moved forward, as ends written as their last second do; -1 where not; 0 where none moved
 * @example snapToGrid(stamps, draft, findings) // 0
 */
export function snapToGrid<C extends string>(
  { ms, endMs }: Stamps,
  draft: Draft<C>,
  findings: Findings,
): number {
  const off = (at: number): number => at - Math.round(at / GRID_MS) * GRID_MS;
  // An end written as the last second (23:59:59) is the next midnight.
  if (endMs?.every((at) => Math.abs(off(at)) <= MINUTE_MS))
    for (let i = 0; i < endMs.length; i++) endMs[i] = endMs[i]! - off(endMs[i]!);
  const first = ms.findIndex((at) => off(at) !== 0);
  if (first < 0 || ms.some((at) => Math.abs(off(at)) > MINUTE_MS)) return 0;
  let forward = true;
  for (let i = 0; i < ms.length; i++) {
    const by = off(ms[i]!);
    if (by >= 0) forward = false;
    ms[i] = ms[i]! - by;
  }
  const line = lineText(draft.table.lineOf(draft.columns.rows[first]!));
  findings.assume(
    draft.index,
    `stamps up to a minute off are read as the nearest five minutes, first on ${line}`,
  );
  return forward ? 1 : -1;
}
