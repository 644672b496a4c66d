import { FIRST_ROW, SheetBuilder } from '../book/sheet-builder.js';
import type { Column } from '../book/terms.js';
import { FIRST_COLUMN, WORKING_SHEETS } from './sheet-names.js';

/** Clock changes that the sheet holds. */
export const CLOCK_ROWS = 40;

/** The clock changes of the home's zone, written by the build and the fill. */
export interface ClockSheet {
  sheet: SheetBuilder;
  from: Column;
  before: Column;
  after: Column;
  gained: Column;
  day: Column;
}

export function clockSheet(): ClockSheet {
  const sheet = new SheetBuilder(WORKING_SHEETS.clock, FIRST_ROW, FIRST_COLUMN.clock, 'Clock');
  const column = (
    label: string,
    unit: string,
    style: 'dateTime' | 'rate' | 'integer' | 'date',
    name: string,
  ): Column => sheet.column({ label, unit, description: '', style, rows: CLOCK_ROWS, name });
  return {
    sheet,
    from: column('New offset from', 'local time', 'dateTime', 'clock_from'),
    before: column('Offset before', 'h from UTC', 'rate', 'clock_before'),
    after: column('Offset after', 'h from UTC', 'rate', 'clock_after'),
    gained: column('Day gains', 'minutes', 'integer', 'clock_gained'),
    day: column('Day of the change', 'local date', 'date', 'clock_day'),
  };
}
