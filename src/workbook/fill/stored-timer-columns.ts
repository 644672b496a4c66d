import { parseCell } from '../cell-address.js';
import { ofStoredTimers, type StoredTimerResult, type StoredTimerResults } from '../inputs/stored-timers.js';
import { timerCell } from '../model/timers/timer-places.js';
import type { InputColumn } from '../package/index.js';

/** What the fill writes on the sheet of timers. */
export function storedTimerColumns(stored: StoredTimerResults): InputColumn[] {
  const first = ofStoredTimers((column) => parseCell(timerCell(column, 0)));
  return Object.entries(first).map(([key, { row, column }]) => ({
    column,
    firstRow: row,
    values: stored.map((of) => of[key as keyof StoredTimerResult]),
  }));
}
