import { MAX_RATE_PERIODS } from '../../tariffs/tariff.js';
import { DAY_NAMES } from '../../tariffs/weekdays.js';
import { all, type Column, f, named } from '../book/terms.js';
import type { Calendar } from './days.js';
import { type RatesSheets, SET_ROWS } from './rates.js';
import { BLOCK_ROWS, type Shape, WEEK_ROWS, WEEK_SLOTS } from './shape.js';

const DAYS = DAY_NAMES.length;
const SET_DAYS = MAX_RATE_PERIODS * DAYS;
const SLOTS = WEEK_SLOTS / DAYS;

/** The lowest rate of each weekday under each set of rates, and of each day with a clock change: what a stored kWh is worth. */
export interface RateDays {
  /** The day of each row of the grid, a row of the days beside it. */
  dayOfRow: Column;
  /** By tariff. */
  lowest: readonly Column[];
}

/** Declares the days of the rates right of them, on the sheet of the grid. */
export function rateDays({ grid: sheet, tariffs }: RatesSheets, calendar: Calendar, shape: Shape): RateDays {
  const gridRows = SET_ROWS + shape.changes * BLOCK_ROWS;
  const dayOfRow = sheet.numbers(
    'Day of the rates',
    'row of the days beside',
    'Weekday under a set of rates, or day with a clock change',
    gridRows,
    (row) =>
      row < SET_ROWS
        ? Math.floor(row / WEEK_ROWS) * DAYS + Math.floor(((row % WEEK_ROWS) % WEEK_SLOTS) / SLOTS) + 1
        : SET_DAYS + Math.floor((row - SET_ROWS) / BLOCK_ROWS) + 1,
    'rate_day_of_row',
  );
  const dayRows = SET_DAYS + shape.changes;
  const start = sheet.numbers('Begins', 'row of the grid', 'First half-hour of the day', dayRows, (row) =>
    row < SET_DAYS
      ? Math.floor(row / DAYS) * WEEK_ROWS + (row % DAYS) * SLOTS + 1
      : SET_ROWS + (row - SET_DAYS) * BLOCK_ROWS + 1,
  );
  const change = sheet.numbers('Clock change of the day', 'no.', '0: any week', dayRows, (row) =>
    Math.max(0, row - SET_DAYS + 1),
  );
  const dayOfChange = sheet.numbers('Its day', 'row of Days', '0: any week', SET_DAYS, () => 0);
  sheet.continued(dayOfChange, shape.changes, f`IFERROR(MATCH(${change},${all(calendar.change)},0),1)`);
  const length = sheet.numbers(
    'Half-hours of the day',
    'count',
    '48, or those of the day with a clock change',
    SET_DAYS,
    () => SLOTS,
  );
  sheet.continued(length, shape.changes, f`MAX(1,SUM(INDEX(${all(calendar.length)},${dayOfChange})))`);
  return {
    dayOfRow,
    lowest: tariffs.map(({ grid }, t) =>
      sheet.column({
        label: `Lowest rate of the day, tariff ${t + 1}`,
        unit: '{minor}/kWh',
        description: 'Of its half-hours',
        style: 'rate',
        rows: dayRows,
        name: `lowest_rate_of_grid_day_${t + 1}`,
        is: f`MIN(${named(`rates_of_grid_day_${t + 1}`, f`INDEX(${all(grid)},${start}):INDEX(${all(grid)},${start}+${length}-1)`)})`,
      }),
    ),
  };
}
