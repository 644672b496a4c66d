import { SHEETS } from '../../layout.js';
import { sheetTop } from '../column-headers.js';
import type { SheetModel } from '../sheet-model.js';

export function heatingMonthsSheet(): SheetModel {
  return {
    name: SHEETS.heatingMonths,
    tab: 'workings',
    widths: { A: 14 },
    protected: true,
    landscape: true,
    cells: sheetTop('heatingMonths', ''),
    formulaColumns: [],
    inputColumns: [],
    conditional: [],
  };
}
