import { SHEETS } from '../../layout.js';
import { sheetTop } from '../column-headers.js';
import type { SheetModel } from '../sheet-model.js';

export function heatingSheet(): SheetModel {
  return {
    name: SHEETS.heating,
    tab: 'answer',
    widths: { A: 14 },
    protected: true,
    landscape: true,
    cells: sheetTop('heating', ''),
    formulaColumns: [],
    inputColumns: [],
    conditional: [],
  };
}
