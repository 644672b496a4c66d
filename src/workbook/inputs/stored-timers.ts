import type { CellValue } from '../fields/cell-value.js';
import { TARIFF_COUNT } from '../layout.js';
import type { TimerColumn } from '../model/timers/timer-places.js';

/** What a fill worked out of the timers beside the battery for one tariff, which is not live. */
export interface StoredTimerResult {
  /** Total of the period with the battery and the timers off, and with those that are told of, in the currency. */
  offPounds: CellValue;
  onPounds: CellValue;
  /** The workbook’s marks of what they hang on, with the timers off and on. */
  offMark: CellValue;
  onMark: CellValue;
  /** Local date and time, serial. */
  computedAt: CellValue;
}

/** One entry a column of the tariffs sheet. */
export type StoredTimerResults = StoredTimerResult[];

/** Where each figure stands on the sheet of timers. */
const COLUMN_OF = {
  offPounds: 'offTotal',
  onPounds: 'onTotal',
  offMark: 'offMark',
  onMark: 'onMark',
  computedAt: 'computedAt',
} as const satisfies Readonly<Record<keyof StoredTimerResult, TimerColumn>>;

/**
 * Something of every figure that is stored.
 *
 * @param of what to take of a figure, by its column on the sheet
 */
export function ofStoredTimers<T>(of: (column: TimerColumn) => T): Record<keyof StoredTimerResult, T> {
  return Object.fromEntries(Object.entries(COLUMN_OF).map(([key, column]) => [key, of(column)])) as Record<
    keyof StoredTimerResult,
    T
  >;
}

/** Nothing worked out. */
export const NO_STORED_TIMERS: StoredTimerResult = ofStoredTimers(() => null);

/** Nothing worked out yet, on any tariff. */
export function blankStoredTimerResults(): StoredTimerResults {
  return Array.from({ length: TARIFF_COUNT }, () => NO_STORED_TIMERS);
}
