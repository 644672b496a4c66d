import { absoluteColumn, columnLetters, columnNumber } from '../cell-address.js';
import { PERIOD_FIELDS } from '../fields/home-fields.js';
import { SHEETS, TARIFF_COUNT } from '../layout.js';
import type { StyleName } from '../look/styles.js';
import { asMeteredCells } from './as-metered-row.js';
import { missingBatteryFormula } from './battery/battery-checks.js';
import type { Book } from './book.js';
import { formula, input, label, unitFormula } from './cells.js';
import { CHANNEL_GAPS_NAME } from './channel-checks.js';
import { rankPlace } from './chart-data-sheet.js';
import { ALL_WELL, VERDICT_NAME } from './checks-sheet.js';
import { fieldInput } from './field-input.js';
import { HOW_SURE_NAME } from './how-sure.js';
import { SURE_ROWS, sureCells } from './how-sure-block.js';
import { yearBlock, yearWordsRow } from './outlook/year-block.js';
import { tariffRow } from './sentences.js';
import type { Cell, CellValue, FormulaCell, InputRule, SheetModel } from './sheet-model.js';
import { START_ROWS, startCells } from './start-cells.js';
import { TARIFF_ROW as T } from './tariff-rows.js';
import { worlds } from './worlds.js';

/** Headings of the bill as metered; the bill stands in the row between these and those of the ranking. */
const METERED_HEADER = 5;
const HEADER_ROW = 7;
const FIRST = HEADER_ROW + 1;
const LAST = FIRST + TARIFF_COUNT - 1;
/** The second table, of what each total is made of. */
const PARTS_HEADER = LAST + 3;
/** Last column of the tables, and of the sheet: a chart stands between. */
const TABLE_LAST = 'H';
const LAST_LETTERS = 'P';
/** Words right of the bill as metered: what the period holds and lacks; what missing channels do to the figures. */
export const WORDS = { periodHolds: `I${METERED_HEADER}`, missing: `I${METERED_HEADER + 1}` } as const;
const absoluteAt = (at: string): string => at.replace(/^([A-Z]+)(\d+)$/, '$$$1$$$2');
/** How sure the first is, below both tables. */
const SURE_FIRST = PARTS_HEADER + TARIFF_COUNT + 4;
/** Rows of the charts: beside the first table, and below all. */
export const ANSWER_CHARTS = {
  beside: { first: HEADER_ROW, last: PARTS_HEADER + TARIFF_COUNT },
  below: { first: SURE_FIRST + SURE_ROWS + 1, last: SURE_FIRST + SURE_ROWS + 21 },
} as const;

interface Column {
  letters: string;
  /** Row of the tariffs sheet. */
  row: number;
  text: string;
  style: StyleName;
  /** Its heading where a battery is entered. */
  withBattery: string;
}

function answerColumn(
  letters: string,
  row: number,
  text: string,
  style: StyleName,
  withBattery = text,
): Column {
  return { letters, row, text, style, withBattery };
}

/** The ranking's columns. */
const RANKING: readonly Column[] = [
  answerColumn('C', T.total, 'Total, {major}', 'moneyStrong'),
  answerColumn('D', T.difference, 'Against today’s, {major}', 'moneySigned'),
  answerColumn('E', T.allIn, 'All-in before export, {minor}/kWh', 'rate'),
  answerColumn('F', T.offPeakShare, 'Off-peak share', 'percent', 'Off-peak without battery'),
  // The other world: beside, and only where a battery is entered.
  answerColumn('G', T.withoutBattery, '', 'money', 'Without battery, {major}'),
  answerColumn('H', T.batterySaving, '', 'money', 'Battery saves, {major}'),
];

/** What each total is made of. */
const PARTS: readonly Column[] = [
  answerColumn('C', T.energy, 'Energy, {major}', 'money'),
  answerColumn('D', T.standing, 'Standing charge, {major}', 'money'),
  answerColumn('E', T.exportCredit, 'Less export credit, {major}', 'money'),
  answerColumn('F', T.coverage, 'Half-hours metered', 'percent'),
  answerColumn('G', T.headroom, 'Change of typed rates that ties, {minor}/kWh', 'rate'),
  answerColumn('H', T.differenceAfterExit, 'Against, with exit fee, {major}', 'moneySigned'),
];

function monthRule({ workings }: Book): InputRule {
  const { sheet, letters, firstRow, lastRow } = workings.months.start;
  return {
    kind: 'list',
    choices: absoluteColumn(sheet, letters, firstRow, lastRow),
    title: 'Month',
    message:
      'Any day of the month; both blank take all that was metered, the last twelve whole months where there are more.',
  };
}

function tableRow(rank: number, row: number, columns: readonly Column[]): Cell[] {
  const place = rankPlace(rank);
  const shown = (text: string): string => `IF($A${row}="","",${text})`;
  return [
    formula(`A${row}`, `IF(${place}=0,"",${rank})`, 'integer'),
    formula(`B${row}`, shown(`INDEX(${tariffRow(T.name)},1,${place})`), 'tariffName'),
    ...columns.map((column) =>
      formula(`${column.letters}${row}`, shown(`INDEX(${tariffRow(column.row)},1,${place})`), column.style),
    ),
  ];
}

function rankedRows(rank: number): Cell[] {
  return [...tableRow(rank, FIRST + rank - 1, RANKING), ...tableRow(rank, PARTS_HEADER + rank, PARTS)];
}

/** A text that is another where a battery is entered. */
function byWorld(
  book: Book,
  at: string,
  [text, withBattery]: readonly [string, string],
  style: StyleName,
  more: Partial<FormulaCell> = {},
): Cell {
  if (text === withBattery) return label(at, text, style);
  const otherwise = text === '' ? '""' : unitFormula(text);
  return formula(at, worlds(book).withBattery(unitFormula(withBattery), otherwise), style, more);
}

function headers(
  book: Book,
  row: number,
  first: readonly [string, string],
  columns: readonly Column[],
): Cell[] {
  return [
    label(`A${row}`, '', 'header'),
    byWorld(book, `B${row}`, first, 'headerLeft'),
    ...columns.map(({ letters, text, withBattery }) =>
      byWorld(book, `${letters}${row}`, [text, withBattery], 'header'),
    ),
  ];
}

/** First row of the steps to begin with and of the key, below everything. */
const START_FIRST = ANSWER_CHARTS.below.last + 2;
/** Links to all that is to be seen, the last of them in the last column. */
const LINKS: readonly (readonly [text: string, target: string])[] = [
  ['Steps, key', `'${SHEETS.answer}'!A${START_FIRST}`],
  ...[
    SHEETS.tariffs,
    SHEETS.readings,
    SHEETS.when,
    SHEETS.battery,
    SHEETS.heating,
    SHEETS.gas,
    SHEETS.bills,
    SHEETS.timers,
    SHEETS.checks,
    SHEETS.notes,
  ].map((sheet) => [sheet, `'${sheet}'!A1`] as const),
];
const linkLetters = (i: number): string => columnLetters(columnNumber(LAST_LETTERS) - LINKS.length + 1 + i);

/** The first sheet to look at: the sentence, the ranking, the verdict of the checks, the period. */
export function answerSheet(
  book: Book,
  { fromMonth, toMonth, ratesUsed }: Record<keyof typeof PERIOD_FIELDS, CellValue>,
): SheetModel {
  const months = monthRule(book);
  return {
    name: SHEETS.answer,
    tab: 'answer',
    widths: {
      A: 4,
      B: 22,
      ...Object.fromEntries([...'CDEFGH'].map((letters) => [letters, 11])),
      ...Object.fromEntries([...'IJKLMNOP'].map((letters) => [letters, letters === 'J' ? 16 : 10.3])),
    },
    heights: {
      1: 26,
      2: 60,
      3: 18,
      [METERED_HEADER]: 56,
      [HEADER_ROW]: 56,
      [PARTS_HEADER]: 56,
      [SURE_FIRST + 1]: 44,
      // The year in words, up to eight lines of them.
      [yearWordsRow(SURE_FIRST)]: 90,
    },
    freeze: { columns: 0, rows: HEADER_ROW },
    protected: true,
    landscape: true,
    // How sure, and the steps and the key, on pages of their own.
    printArea: `A1:${LAST_LETTERS}${SURE_FIRST - 1}&&A${SURE_FIRST}:${LAST_LETTERS}${START_FIRST - 2}&&A${START_FIRST}:${LAST_LETTERS}${START_FIRST + START_ROWS - 1}`,
    cells: [
      label('A1', 'What your electricity costs', 'title'),
      formula('A2', `answer_sentence&IF(${HOW_SURE_NAME}="",""," "&${HOW_SURE_NAME})`, 'sentence', {
        mergeTo: `${LAST_LETTERS}2`,
      }),
      formula('A3', VERDICT_NAME, 'verdict', { mergeTo: `${LAST_LETTERS}3` }),
      label('B4', 'Period, from month', 'label'),
      input(PERIOD_FIELDS.fromMonth.at, fromMonth, 'inputMonth', months, { name: 'from_month' }),
      label('D4', 'to month', 'textCentre'),
      input(PERIOD_FIELDS.toMonth.at, toMonth, 'inputMonth', months, { name: 'to_month' }),
      label('I4', 'Rates', 'textCentre'),
      fieldInput(PERIOD_FIELDS.ratesUsed, ratesUsed),
      label('K4', 'as they were: to check bills; as they are now: to decide a switch', 'hint'),
      label('F4', 'blank: all, at most 12 whole months', 'hint'),
      ...LINKS.map(([text, link], i) => label(`${linkLetters(i)}1`, text, 'link', { link })),
      formula(
        WORDS.periodHolds,
        'no_total_words&IF(no_total_words="",""," ")&not_counted_words&IF(not_counted_words="",""," ")&period_holds_words' +
          `&IF(${CHANNEL_GAPS_NAME}="",""," ")&${CHANNEL_GAPS_NAME}`,
        'hintMiddle',
        {
          mergeTo: `${LAST_LETTERS}${METERED_HEADER}`,
        },
      ),
      formula(WORDS.missing, missingBatteryFormula(book), 'verdict', {
        mergeTo: `${LAST_LETTERS}${METERED_HEADER + 1}`,
      }),
      ...asMeteredCells(book, METERED_HEADER),
      ...headers(
        book,
        HEADER_ROW,
        ['Tariff, cheapest first', 'Tariff with the battery, cheapest first'],
        RANKING,
      ),
      byWorld(
        book,
        `A${PARTS_HEADER - 1}`,
        ['What each total is made of', 'What each total is made of, with the battery'],
        'section',
        { mergeTo: `H${PARTS_HEADER - 1}` },
      ),
      ...headers(book, PARTS_HEADER, ['Tariff', 'Tariff'], PARTS),
      ...sureCells(SURE_FIRST),
      ...yearBlock(book, SURE_FIRST),
      ...startCells(START_FIRST),
      ...Array.from({ length: TARIFF_COUNT }, (_, i) => rankedRows(i + 1)).flat(),
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [
      {
        range: `A${FIRST}:${TABLE_LAST}${LAST}`,
        formula: `AND($B${FIRST}<>"",$B${FIRST}=${SHEETS.tariffs}!$C$${T.todays})`,
        style: 'best',
      },
      {
        range: `${WORDS.periodHolds}:${LAST_LETTERS}${METERED_HEADER}`,
        formula: `LEFT(${absoluteAt(WORDS.periodHolds)},2)="No"`,
        style: 'bad',
      },
      {
        range: `${WORDS.missing}:${LAST_LETTERS}${METERED_HEADER + 1}`,
        formula: `${absoluteAt(WORDS.missing)}<>""`,
        style: 'bad',
      },
      { range: `A3:${LAST_LETTERS}3`, formula: `LEFT($A$3,${ALL_WELL.length})<>"${ALL_WELL}"`, style: 'bad' },
      { range: `A3:${LAST_LETTERS}3`, formula: `LEFT($A$3,${ALL_WELL.length})="${ALL_WELL}"`, style: 'good' },
    ],
  };
}
