import { SHEETS } from '../../layout.js';
import { sheetTop } from '../column-headers.js';
import type { SheetModel } from '../sheet-model.js';

export function heatingDaysSheet(): SheetModel {
  return {
    name: SHEETS.heatingDays,
    tab: 'workings',
    widths: { A: 14 },
    protected: true,
    landscape: true,
    cells: sheetTop('heatingDays', ''),
    formulaColumns: [],
    inputColumns: [],
    conditional: [],
  };
}
