import type { BatteryCells, StoredBatteryResults } from '../../inputs/battery-cells.js';
import { SHEETS } from '../../layout.js';
import { sheetTop } from '../column-headers.js';
import type { SheetModel } from '../sheet-model.js';
import { batteryInputCells } from './battery-inputs.js';

/** The battery: its inputs, and what it changes on every tariff. */
export function batterySheet(start: BatteryCells, _stored: StoredBatteryResults): SheetModel {
  return {
    name: SHEETS.battery,
    tab: 'input',
    widths: {
      A: 3,
      B: 34,
      ...Object.fromEntries([...'CDEFGHIJKLMNOPQR'].map((letters) => [letters, 13])),
    },
    freeze: { columns: 0, rows: 3 },
    protected: true,
    landscape: true,
    cells: [
      ...sheetTop('Battery', 'What a home battery changes. Coloured cells are yours to change.'),
      ...batteryInputCells(start),
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [],
  };
}
