import type { ClockRows } from '../inputs/workbook-inputs.js';
import { FIRST_ROW, partLetters, SEED_ROW, SHEETS } from '../layout.js';
import type { ClockSheet } from '../sheets/clock.js';
import type { Book } from './book.js';
import { formula, input, label } from './cells.js';
import { clockTable } from './clock-table.js';
import { sheetTop } from './column-headers.js';
import { CELL, CLOCK_COVERS, CLOCK_ZONE } from './columns.js';
import type { Cell, InputColumn, SheetModel } from './sheet-model.js';

/** Which values of the table each column holds. */
const VALUES = {
  from: 'fromLocalSerial',
  before: 'offsetBeforeHours',
  after: 'offsetAfterHours',
  gained: 'minutesGained',
  day: 'daySerial',
} as const satisfies Record<
  Exclude<keyof ClockSheet, 'sheet'>,
  Exclude<keyof ClockRows, 'coversFrom' | 'coversUntil'>
>;
const own = (column: number): string => partLetters('clock', column);
const KEYS = Object.keys(VALUES) as (keyof typeof VALUES)[];

/** The clock changes of the home's zone, written by the build and the fill. */
export function clockSheet(
  book: Book,
  timeZone: string,
  table: ClockRows = clockTable(timeZone),
): SheetModel {
  const { clock } = book.workings;
  const rows: Cell[] = KEYS.flatMap((key) => {
    const { letters, rows: count, style } = clock[key];
    return Array.from({ length: count }, (_, i) =>
      input(`${letters}${FIRST_ROW + i}`, table[VALUES[key]][i] ?? 0, style),
    );
  });
  const headers: Cell[] = clock.sheet.columns.flatMap(({ letters, text }) => [
    label(`${letters}${SEED_ROW - 1}`, text.label, 'header'),
    label(`${letters}${SEED_ROW}`, text.unit, 'headerUnit'),
  ]);
  const inputColumns = clock.sheet.columns.map(
    ({ letters, firstRow, rows: count, style, name }): InputColumn => ({
      letters,
      firstRow,
      rows: count,
      style,
      ...(name === undefined ? {} : { name }),
    }),
  );
  return {
    name: SHEETS.clock,
    tab: 'workings',
    widths: { [own(1)]: 20, ...Object.fromEntries([2, 3, 4, 5].map((column) => [own(column), 16])) },
    heights: { [SEED_ROW]: 30 },
    freeze: { columns: 0, rows: SEED_ROW },
    protected: true,
    landscape: false,
    cells: [
      ...sheetTop(
        'Clock',
        'Clock changes of the home’s time zone. Written by the build and the fill; source: IANA time zone database.',
        own(1),
      ),
      label(`${own(1)}3`, 'Zone of this table', 'label'),
      input(CLOCK_ZONE, timeZone, 'text', undefined, { name: 'clock_time_zone' }),
      label(`${own(1)}4`, 'Zone of the home', 'label'),
      formula(`${own(2)}4`, `IF(${CELL.timeZone}="","",${CELL.timeZone})`, 'text'),
      label(`${own(1)}5`, 'Covers, first and last day', 'label'),
      input(CLOCK_COVERS.from, table.coversFrom, 'date', undefined, { name: 'clock_covers_from' }),
      input(CLOCK_COVERS.until, table.coversUntil, 'date', undefined, { name: 'clock_covers_until' }),
      ...headers,
      ...rows,
    ],
    formulaColumns: [],
    inputColumns,
    conditional: [],
  };
}
