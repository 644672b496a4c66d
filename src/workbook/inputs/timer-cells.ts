import type { CellsOf } from '../fields/field.js';
import { blankCells } from '../fields/rule.js';
import { TIMER_FIELDS } from '../fields/timer-fields.js';

/** What the sheet of timers holds. */
export type TimerCells = CellsOf<typeof TIMER_FIELDS>;

/** The sheet of timers of a workbook into which no timer was typed. */
export function blankTimerCells(): TimerCells {
  return blankCells(TIMER_FIELDS);
}
