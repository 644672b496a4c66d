import { SHEETS } from '../../layout.js';
import { sheetTop } from '../column-headers.js';
import type { SheetModel } from '../sheet-model.js';

export function heatingFiguresSheet(): SheetModel {
  return {
    name: SHEETS.heatingFigures,
    tab: 'workings',
    widths: { A: 14 },
    protected: true,
    landscape: true,
    cells: sheetTop('heatingFigures', ''),
    formulaColumns: [],
    inputColumns: [],
    conditional: [],
  };
}
