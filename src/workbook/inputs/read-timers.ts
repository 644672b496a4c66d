import { TARIFF_COUNT } from '../layout.js';
import type { CellValue } from '../model/sheet-model.js';
import { timerCell } from '../model/timers/timer-places.js';
import { ofStoredTimers, type StoredTimerResults } from './stored-timers.js';

/**
 * What an earlier fill stored on the sheet of timers.
 *
 * @param cell value of a cell of the sheet, by name
 * @returns stored values, blank where no fill has run
 */
export function readStoredTimerResults(cell: (at: string) => CellValue): StoredTimerResults {
  return Array.from({ length: TARIFF_COUNT }, (_, t) =>
    ofStoredTimers((column) => cell(timerCell(column, t))),
  );
}
