import type { BatteryCells, StoredBatteryResults } from '../../inputs/battery-cells.js';
import { SHEETS } from '../../layout.js';
import type { Book } from '../book.js';
import { formula, label } from '../cells.js';
import { ref } from '../references.js';
import type { SheetModel } from '../sheet-model.js';
import { noTariffFormula } from './asked-for-words.js';
import { batteryInputCells, batteryInputLooks } from './battery-inputs.js';
import { batteryRealCostCells } from './battery-real-cost-cells.js';
import { batteryResultCells } from './battery-result-cells.js';
import { BATTERY_RESULTS, REACHED, REAL_COST, sizingRows } from './battery-rows.js';
import { batterySizingCells } from './battery-sizing-cells.js';
import { STATUS } from './battery-status.js';
import { batteryWordCells } from './battery-words.js';
import { LEFT_OUT_NAME } from './left-out-words.js';
import { SPAN_WORDS } from './span-words.js';

const NO_TARIFF = 'Choose a tariff to see what the battery changes.';
const NO_BATTERY = 'No battery is entered: type its capacity.';

/** What the battery changes on the tariff looked at, in one sentence. */
function sentenceFormula(book: Book): string {
  const { looked, battery } = book.workings;
  const none = `IF(${LEFT_OUT_NAME}="","${NO_BATTERY}",${LEFT_OUT_NAME})`;
  const ofBattery = `IF(${ref(battery.usableKwh)}=0,${none},${SPAN_WORDS.answer})`;
  return `IF(no_readings_words<>"",no_readings_words,IF(${ref(looked)}=0,${noTariffFormula(NO_TARIFF)},${ofBattery}))`;
}

/** The battery: its inputs, what it changes on every tariff, what energy really cost, what other sizes would do. */
export function batterySheet(book: Book, start: BatteryCells, stored: StoredBatteryResults): SheetModel {
  const { first, last } = BATTERY_RESULTS;
  const sizing = sizingRows(book.shape);
  return {
    name: SHEETS.battery,
    tab: 'input',
    widths: {
      A: 3,
      B: 34,
      ...Object.fromEntries([...'CDEFGHIJKLM'].map((letters) => [letters, letters === 'E' ? 16 : 10.5])),
      N: 10.5,
      O: 21,
      P: 15,
      Q: 20,
      R: 18,
    },
    heights: {
      2: 30,
      [BATTERY_RESULTS.header]: 48,
      [REAL_COST.header]: 34,
      [sizing.header]: 66,
    },
    freeze: { columns: 0, rows: 3 },
    protected: true,
    landscape: true,
    // Pages of their own, so that no chart is split.
    printArea: `A1:O${REAL_COST.heading - 1}&&A${REAL_COST.heading}:O${sizing.heading - 1}&&A${sizing.heading}:O${sizing.first + 21}`,
    cells: [
      label('A1', 'Battery', 'title'),
      formula('A2', sentenceFormula(book), 'sentence', { name: 'battery_sentence', mergeTo: 'M2' }),
      label('A3', 'Framed cells are yours to change; a capacity of 0 kWh is no battery.', 'hint'),
      ...batteryInputCells(start),
      ...batteryWordCells(),
      ...batteryResultCells(book, stored),
      ...batteryRealCostCells(book),
      ...batterySizingCells(book, stored),
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [
      ...batteryInputLooks(),
      {
        range: `${REACHED.status}${first}:${REACHED.status}${last}`,
        formula: `$${REACHED.status}${first}="${STATUS.stale}"`,
        style: 'bad',
      },
      {
        range: `C${sizing.status}:C${sizing.status}`,
        formula: `$C$${sizing.status}="${STATUS.stale}"`,
        style: 'bad',
      },
      {
        range: `B${first}:N${last}`,
        formula: `AND($B${first}<>"",ROW($B${first})-${first - 1}=${ref(book.workings.looked)})`,
        style: 'best',
      },
    ],
  };
}
