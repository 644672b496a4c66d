import { batteryAnswer, STATUS } from '../../evaluate/battery/battery-answers.js';
import type { WorkbookResults } from '../../evaluate/workbook-results.js';
import type { BatteryCells, StoredBatteryResults } from '../../inputs/battery-cells.js';
import { SHEETS, TARIFF_COUNT } from '../../layout.js';
import { formula, label } from '../cells.js';
import { CELL } from '../columns.js';
import { amountText } from '../sentences.js';
import type { SheetModel } from '../sheet-model.js';
import { fact } from './battery-columns.js';
import { batteryInputCells } from './battery-inputs.js';
import { batteryRealCostCells } from './battery-real-cost-cells.js';
import { batteryResultCells } from './battery-result-cells.js';
import { BATTERY_RESULTS, REAL_COST, SIZING } from './battery-rows.js';
import { batterySizingCells } from './battery-sizing-cells.js';
import { batteryWordCells } from './battery-words.js';
import { hoursInWordsFormula } from './profile-sheet.js';

const NO_ANSWER = 'Choose a tariff below, and fill in readings, to see what the battery changes.';

/** What the battery changes on the tariff looked at, in one sentence. */
function sentenceFormula(): string {
  const last = BATTERY_RESULTS.first + TARIFF_COUNT - 1;
  const of = (letters: string): string =>
    `INDEX($${letters}$${BATTERY_RESULTS.first}:$${letters}$${last},MAX(1,${fact('chosen')}))`;
  const amount = (text: string): string => `${CELL.currency}&FIXED(${text},2)`;
  return (
    `IF(OR(${fact('chosen')}=0,${fact('halfHours')}=0),"${NO_ANSWER}",` +
    `"On "&${of('B')}&" this battery makes "&${amount(of('C'))}&" into "&${amount(of('D'))}&": "` +
    `&${amount(`ABS(${of('E')})`)}&IF(${of('E')}<0," more."," saved.")` +
    `&IF(${hoursInWordsFormula()}="",""," On an average day it charges from the grid "&${hoursInWordsFormula()}&"."))`
  );
}

function sentenceOf(results: WorkbookResults): string {
  const { chosen, period } = results.battery;
  if (chosen < 0 || period.halfHours === 0) return NO_ANSWER;
  const { withoutPounds, withPounds, savingPounds } = batteryAnswer(results, chosen);
  const amount = (pounds: number | null): string => amountText(results, pounds ?? 0);
  const name = String(results.inputs.tariffs[chosen]!.name);
  const { hoursInWords } = results.battery.profile;
  const hours = hoursInWords === '' ? '' : ` On an average day it charges from the grid ${hoursInWords}.`;
  return `On ${name} this battery makes ${amount(withoutPounds)} into ${amount(withPounds)}: ${amount(Math.abs(savingPounds ?? 0))}${(savingPounds ?? 0) < 0 ? ' more.' : ' saved.'}${hours}`;
}

/** The battery: its inputs, what it changes on every tariff, what energy really cost, what other sizes would do. */
export function batterySheet(start: BatteryCells, stored: StoredBatteryResults): SheetModel {
  const first = BATTERY_RESULTS.first;
  const last = first + TARIFF_COUNT - 1;
  return {
    name: SHEETS.battery,
    tab: 'input',
    widths: {
      A: 3,
      B: 36,
      ...Object.fromEntries([...'CDEFGHIJKLM'].map((letters) => [letters, letters === 'E' ? 17 : 13])),
      N: 26,
      O: 15,
      P: 20,
      Q: 18,
    },
    heights: {
      2: 30,
      [BATTERY_RESULTS.header]: 48,
      [REAL_COST.header]: 34,
      [SIZING.header]: 48,
    },
    freeze: { columns: 0, rows: 3 },
    protected: true,
    landscape: true,
    printArea: `A1:N${SIZING.first + 21}`,
    cells: [
      label('A1', 'Battery', 'title'),
      formula('A2', sentenceFormula(), sentenceOf, 'sentence', { name: 'battery_sentence', mergeTo: 'M2' }),
      label('A3', 'Coloured cells are yours to change; a capacity of 0 kWh is no battery.', 'hint'),
      ...batteryInputCells(start),
      ...batteryWordCells(),
      ...batteryResultCells(stored),
      ...batteryRealCostCells(),
      ...batterySizingCells(stored),
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [
      { range: `N${first}:N${last}`, formula: `$N${first}="${STATUS.stale}"`, style: 'bad' },
      {
        range: `C${SIZING.status}:C${SIZING.status}`,
        formula: `$C$${SIZING.status}="${STATUS.stale}"`,
        style: 'bad',
      },
      {
        range: `B${first}:M${last}`,
        formula: `AND($B${first}<>"",ROW($B${first})-${first - 1}=${fact('chosen')})`,
        style: 'best',
      },
    ],
  };
}
