import type { StyleName } from '../build/styles.js';
import { type BatteryAnswer, batteryAnswer } from '../evaluate/battery/battery-answers.js';
import type { TariffTotals } from '../evaluate/tariff-totals.js';
import type { WorkbookResults } from '../evaluate/workbook-results.js';
import { SHEETS, TARIFF_COUNT } from '../layout.js';
import { missingBatteryFormula, missingBatteryText } from './battery/battery-checks.js';
import { formula, input, label } from './cells.js';
import { VERDICT_CELL, verdictOf } from './checks-sheet.js';
import { MONTH as M, monthColumn } from './columns.js';
import { periodFormula, periodText, sentenceFormula, sentenceOf, tariffRow } from './sentences.js';
import type { Cell, CellValue, InputRule, SheetModel } from './sheet-model.js';
import { TARIFF_ROW as T } from './tariff-rows.js';

const HEADER_ROW = 7;
const FIRST = HEADER_ROW + 1;
const LAST = FIRST + TARIFF_COUNT - 1;
/** Column with the place of the tariff on the tariffs sheet; out of sight, right of the table. */
const PLACE = 'N';
/** Last column of the table. */
const LAST_LETTERS = 'L';

/** The ranking's columns: row of the tariffs sheet, label with unit, look. */
const COLUMNS: readonly {
  letters: string;
  row: number;
  text: string;
  style: StyleName;
  pick: (t: TariffTotals, battery: BatteryAnswer) => CellValue;
}[] = [
  { letters: 'C', row: T.total, text: 'Total, {major}', style: 'moneyStrong', pick: (t) => t.totalPounds },
  {
    letters: 'D',
    row: T.difference,
    text: 'Against today’s, {major}',
    style: 'moneySigned',
    pick: (t) => t.differencePounds,
  },
  { letters: 'E', row: T.energy, text: 'Energy, {major}', style: 'money', pick: (t) => t.energyPounds },
  {
    letters: 'F',
    row: T.standing,
    text: 'Standing charge, {major}',
    style: 'money',
    pick: (t) => t.standingPounds,
  },
  {
    letters: 'G',
    row: T.exportCredit,
    text: 'Export credit, {major}',
    style: 'money',
    pick: (t) => t.exportCreditPounds,
  },
  { letters: 'H', row: T.allIn, text: 'All-in, {minor}/kWh', style: 'rate', pick: (t) => t.allInPence },
  {
    letters: 'I',
    row: T.offPeakShare,
    text: 'Off-peak share',
    style: 'percent',
    pick: (t) => t.offPeakShare,
  },
  { letters: 'J', row: T.coverage, text: 'Half-hours metered', style: 'percent', pick: (t) => t.coverage },
  {
    letters: 'K',
    row: T.withBattery,
    text: 'Total with battery, {major}',
    style: 'moneyStrong',
    pick: (_, battery) => battery.withPounds,
  },
  {
    letters: 'L',
    row: T.batterySaving,
    text: 'Battery saves, {major}',
    style: 'money',
    pick: (_, battery) => battery.savingPounds,
  },
];

const MONTH_RULE: InputRule = {
  kind: 'list',
  choices: monthColumn(M.start),
  title: 'Month',
  message: 'Any day of the month; blank takes everything that was metered.',
};

function tariffAt(results: WorkbookResults, rank: number): number {
  return results.tariffs.findIndex((tariff) => tariff.totals.rank === rank);
}

function rankedRow(rank: number): Cell[] {
  const row = FIRST + rank - 1;
  const place = `$${PLACE}${row}`;
  const shown = (text: string): string => `IF(${place}=0,"",${text})`;
  return [
    formula(`A${row}`, shown(String(rank)), (r) => (tariffAt(r, rank) < 0 ? '' : rank), 'integer'),
    formula(
      `B${row}`,
      shown(`INDEX(${tariffRow(T.name)},1,${place})`),
      (r) => (tariffAt(r, rank) < 0 ? '' : r.inputs.tariffs[tariffAt(r, rank)]!.name),
      'textStrong',
    ),
    ...COLUMNS.map((column) =>
      formula(
        `${column.letters}${row}`,
        shown(`INDEX(${tariffRow(column.row)},1,${place})`),
        (r) => {
          const tariff = tariffAt(r, rank);
          if (tariff < 0) return '';
          return column.pick(r.tariffs[tariff]!.totals, batteryAnswer(r, tariff)) ?? '';
        },
        column.style,
      ),
    ),
    formula(
      `${PLACE}${row}`,
      `IFERROR(MATCH(${rank},${tariffRow(T.rank)},0),0)`,
      (r) => tariffAt(r, rank) + 1,
      'integer',
    ),
  ];
}

/** The first sheet to look at: the sentence, the ranking, the verdict of the checks, the period. */
export function answerSheet(fromMonth: CellValue, toMonth: CellValue): SheetModel {
  return {
    name: SHEETS.answer,
    tab: 'answer',
    widths: { A: 6, B: 30, C: 13, D: 13, E: 13, F: 13, G: 13, H: 13, I: 13, J: 13, K: 13, L: 13, M: 3, N: 8 },
    heights: { 2: 42, 3: 22, [HEADER_ROW]: 34 },
    freeze: { columns: 0, rows: HEADER_ROW },
    protected: true,
    landscape: true,
    printArea: `A1:${LAST_LETTERS}40`,
    cells: [
      label('A1', 'What your electricity costs', 'title'),
      formula('A2', sentenceFormula(), sentenceOf, 'sentence', {
        name: 'answer_sentence',
        mergeTo: `${LAST_LETTERS}2`,
      }),
      formula('A3', VERDICT_CELL, verdictOf, 'verdict', { mergeTo: `${LAST_LETTERS}3` }),
      label('B4', 'From month', 'label'),
      input('C4', fromMonth, 'inputMonth', MONTH_RULE, { name: 'from_month' }),
      label('D4', 'to month', 'label'),
      input('E4', toMonth, 'inputMonth', MONTH_RULE, { name: 'to_month' }),
      label('F4', 'blank: everything that was metered', 'hint'),
      formula('A5', periodFormula(), periodText, 'hint', { mergeTo: `${LAST_LETTERS}5` }),
      formula('A6', missingBatteryFormula(), missingBatteryText, 'verdict', { mergeTo: `${LAST_LETTERS}6` }),
      label(`A${HEADER_ROW}`, '', 'header'),
      label(`B${HEADER_ROW}`, 'Tariff, cheapest first', 'headerLeft'),
      ...COLUMNS.map((column) => label(`${column.letters}${HEADER_ROW}`, column.text, 'header')),
      label(`${PLACE}${HEADER_ROW}`, 'column', 'hint'),
      ...Array.from({ length: TARIFF_COUNT }, (_, i) => rankedRow(i + 1)).flat(),
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [
      {
        range: `A${FIRST}:${LAST_LETTERS}${LAST}`,
        formula: `AND($B${FIRST}<>"",$B${FIRST}=${SHEETS.tariffs}!$C$3)`,
        style: 'best',
      },
      { range: `A6:${LAST_LETTERS}6`, formula: '$A$6<>""', style: 'bad' },
      { range: `A3:${LAST_LETTERS}3`, formula: 'LEFT($A$3,3)<>"All"', style: 'bad' },
      { range: `A3:${LAST_LETTERS}3`, formula: 'LEFT($A$3,3)="All"', style: 'good' },
    ],
  };
}
