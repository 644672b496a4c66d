import { CLOCK_ROWS, FIRST_ROW, SEED_ROW, SHEETS } from '../layout.js';
import { formula, input, label } from './cells.js';
import { clockTable } from './clock-table.js';
import { sheetTop } from './column-headers.js';
import { CLOCK as C, CELL } from './columns.js';
import type { Cell, SheetModel } from './sheet-model.js';

/** The clock changes of the home's zone, written by the build and the fill. */
export function clockSheet(timeZone: string): SheetModel {
  const table = clockTable(timeZone);
  const rows: Cell[] = [];
  for (let i = 0; i < CLOCK_ROWS; i++) {
    const row = FIRST_ROW + i;
    rows.push(
      input(`${C.from}${row}`, table.fromLocalSerial[i]!, 'dateTime'),
      input(`${C.before}${row}`, table.offsetBeforeHours[i]!, 'rate'),
      input(`${C.after}${row}`, table.offsetAfterHours[i]!, 'rate'),
      input(`${C.gained}${row}`, table.minutesGained[i]!, 'integer'),
      input(`${C.day}${row}`, table.daySerial[i]!, 'date'),
    );
  }
  const header = (letters: string, text: string, unit: string): Cell[] => [
    label(`${letters}${SEED_ROW - 1}`, text, 'header'),
    label(`${letters}${SEED_ROW}`, unit, 'headerUnit'),
  ];
  return {
    name: SHEETS.clock,
    tab: 'workings',
    widths: { A: 20, B: 16, C: 16, D: 16, E: 16 },
    heights: { [SEED_ROW]: 30 },
    freeze: { columns: 0, rows: SEED_ROW },
    protected: true,
    landscape: false,
    cells: [
      ...sheetTop(
        'Clock',
        'Clock changes of the home’s time zone. Written by the build and the fill; source: IANA time zone database.',
      ),
      label('A3', 'Zone of this table', 'label'),
      input('B3', timeZone, 'text', undefined, { name: 'clock_time_zone' }),
      label('A4', 'Zone of the home', 'label'),
      formula(
        'B4',
        `IF(${CELL.timeZone}="","",${CELL.timeZone})`,
        (r) => r.inputs.home.timeZone ?? '',
        'text',
      ),
      ...header(C.from, 'New offset from', 'local time'),
      ...header(C.before, 'Offset before', 'h from UTC'),
      ...header(C.after, 'Offset after', 'h from UTC'),
      ...header(C.gained, 'Day gains', 'minutes'),
      ...header(C.day, 'Day of the change', 'local date'),
      ...rows,
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [],
  };
}
