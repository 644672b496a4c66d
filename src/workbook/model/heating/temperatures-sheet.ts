import { TEMPERATURE_ROWS } from '../../inputs/heating-cells.js';
import { FIRST_ROW, SEED_ROW, SHEETS } from '../../layout.js';
import { label } from '../cells.js';
import { sheetTop } from '../column-headers.js';
import type { SheetModel } from '../sheet-model.js';
import { TEMPERATURE as T } from './heating-rows.js';

/** Outdoor temperatures by day. */
export function temperaturesSheet(): SheetModel {
  return {
    name: SHEETS.temperatures,
    tab: 'input',
    widths: { A: 14, B: 12, C: 12, D: 12, E: 14 },
    freeze: { columns: 1, rows: SEED_ROW },
    protected: true,
    landscape: false,
    cells: [...sheetTop('Temperatures', 'Outdoor temperature by day.'), label('A5', 'Day', 'header')],
    formulaColumns: [],
    inputColumns: [T.date, T.meanC, T.maxC, T.minC].map((letters) => ({
      letters,
      firstRow: FIRST_ROW,
      rows: TEMPERATURE_ROWS,
      style: letters === T.date ? ('inputDate' as const) : ('inputNumber' as const),
    })),
    conditional: [],
  };
}
