import type { Draft } from './draft.js';
import type { DecimalMark, StampPosition } from './import-options.js';
import type { Stamps } from './read-stamps.js';

/** A file with all that needed settling settled. */
export interface Settled<C extends string> {
  draft: Draft<C>;
  stamps: Stamps;
  position: StampPosition;
  /** Why the position was taken, where nothing states it. */
  positionAssumed: string | undefined;
  stepMs: number;
  /** Whether its lines are sessions of their own lengths, to be spread over half-hours. */
  sessions: boolean;
  decimalMark: DecimalMark;
  /** Offset of stamps without one, minutes; undefined for the home's clock. */
  fixedOffsetMinutes: number | undefined;
}
