import { beside, Column } from '../book/terms.js';
import { absolute, columnLetters, columnNumber, sheetPrefix } from '../cell-address.js';
import { FIRST_ROW, SEED_ROW, SHEETS, TARIFF_COUNT } from '../layout.js';
import { AS_METERED, STANDS_APART_NAME } from './as-metered-row.js';
import type { Book } from './book.js';
import { formula, label, quoted } from './cells.js';
import { sheetTop } from './column-headers.js';
import { chosen, differenceOf, SURE_COLUMNS, spanChange, spanMean, sureRows } from './how-sure.js';
import { periodRef, tariffOf } from './period-line.js';
import { monthTextFormula, tariffRow, wordLines } from './sentences.js';
import type { Cell, FormulaColumn, SheetModel } from './sheet-model.js';
import {
  pricedName,
  TARIFF_ROW as T,
  TODAYS_IS_PRICED_NAME,
  TODAYS_PLACE_NAME,
  tariffLetters,
} from './tariff-rows.js';
import { worlds } from './worlds.js';

/** Columns of the chart data: cost by month for each tariff, then its difference from today's, by rank from 1. */
export const CHART_MONTHS = {
  month: 'A',
  total: (tariff: number) => columnLetters(2 + tariff),
  against: (rank: number) => columnLetters(1 + TARIFF_COUNT + rank),
  /** The rank itself, below 0 so that the first stands above. */
  rank: (rank: number) => columnLetters(1 + 2 * TARIFF_COUNT + rank),
} as const;
/** Columns of the difference between the first two, by month, week and span of four weeks. */
const SURE = {
  month: columnLetters(2 + 3 * TARIFF_COUNT),
  week: columnLetters(3 + 3 * TARIFF_COUNT),
  mean: columnLetters(4 + 3 * TARIFF_COUNT),
  change: columnLetters(5 + 3 * TARIFF_COUNT),
} as const;
/** Row with the columns on Tariffs of the ranks. */
const PLACE_ROW = SEED_ROW - 2;

const tariffs = Array.from({ length: TARIFF_COUNT }, (_, t) => t);
const ranks = tariffs.map((tariff) => tariff + 1);
const nameOf = (tariff: number): string => `${SHEETS.tariffs}!$${tariffLetters(tariff)}$${T.name}`;

function monthColumns(book: Book): FormulaColumn[] {
  const { start } = book.workings.months;
  const { withBattery } = worlds(book);
  const column = (
    letters: string,
    text: Pick<FormulaColumn, 'label' | 'unit' | 'description' | 'style'>,
    formulaOf: (row: number) => string,
  ): FormulaColumn => ({
    letters,
    firstRow: FIRST_ROW,
    rows: book.shape.monthRows,
    ...text,
    formula: formulaOf,
  });
  const ofMonth = (letters: string, row: number): string => `${sheetPrefix(SHEETS.months)}$${letters}${row}`;
  const startAt = (row: number): string => ofMonth(start.letters, row);
  return [
    column(
      CHART_MONTHS.month,
      {
        label: 'Month',
        unit: 'name',
        description: 'Label of the month; blank on unused rows',
        style: 'text',
      },
      (row) => `IF(${startAt(row)}="","",${monthTextFormula(startAt(row))})`,
    ),
    ...tariffs.map((t) => {
      const { months, batteryMonths } = tariffOf(book, t);
      const total = (row: number): string =>
        withBattery(ofMonth(batteryMonths.total.letters, row), ofMonth(months.total.letters, row));
      return column(
        CHART_MONTHS.total(t),
        {
          label: `Total, tariff ${t + 1}`,
          unit: '{major}',
          description:
            'Total of the month; no point where there is no month, no tariff, or a tariff without a total',
          style: 'money',
        },
        (row) => `IF(OR(${startAt(row)}="",${pricedName(t)}=0),NA(),${total(row)})`,
      );
    }),
    ...ranks.map((rank) =>
      column(
        CHART_MONTHS.against(rank),
        {
          label: `Against today’s, rank ${rank}`,
          unit: '{major}',
          description: 'Total of the month less that of today’s tariff; no point where either has none',
          style: 'moneySigned',
        },
        (row) => {
          const place = `${CHART_MONTHS.against(rank)}$${PLACE_ROW}`;
          return `IF(OR($${CHART_MONTHS.month}${row}="",${place}=0,${TODAYS_IS_PRICED_NAME}=0),NA(),ROUND(${chosen(totalsOf(row), place)}-${chosen(totalsOf(row), TODAYS_PLACE_NAME)},2))`;
        },
      ),
    ),
    // Some programs put numbers of their own where all of a row of dots is missing across, so it is missing down too.
    ...ranks.map((rank) =>
      column(
        CHART_MONTHS.rank(rank),
        {
          label: `Rank ${rank}`,
          unit: 'row of dots',
          description: 'Below 0, so that the first stands above; none where there is no dot',
          style: 'integer',
        },
        (row) => `IF(ISNUMBER($${CHART_MONTHS.against(rank)}${row}),-${rank},NA())`,
      ),
    ),
  ];
}

const totalsOf = (row: number): string =>
  `$${CHART_MONTHS.total(0)}${row}:$${CHART_MONTHS.total(TARIFF_COUNT - 1)}${row}`;

/** What the second tariff costs more than the first, by month, by week and by span of four weeks. */
function sureColumns(book: Book): FormulaColumn[] {
  const { months, weeks } = book.workings;
  const { weeks: weekCount, spans, changes } = sureRows(book);
  const useCost = (row: number): string =>
    beside(weeks.useCost).print({ sheet: SHEETS.chartData, row, column: 1 });
  const column = (
    key: keyof typeof SURE,
    rows: number,
    label: string,
    unit: string,
    style: FormulaColumn['style'],
    description: string,
    formula: FormulaColumn['formula'],
  ): FormulaColumn => ({
    letters: SURE[key],
    firstRow: FIRST_ROW,
    rows,
    label,
    unit,
    description,
    style,
    name: SURE_COLUMNS[key],
    formula,
  });
  const cellsOf = (key: 'week' | 'mean', rows: number): Column =>
    new Column(SHEETS.chartData, columnNumber(SURE[key]), FIRST_ROW, rows, 'rateFine', {
      label: '',
      unit: '',
      description: '',
    });
  return [
    column(
      'month',
      book.shape.monthRows,
      'Second less first, by month',
      '{major}',
      'moneySigned',
      'Of the months in the period',
      (row) =>
        `IF(${sheetPrefix(SHEETS.months)}$${months.selected.letters}${row}=1,${differenceOf(totalsOf(row))},"")`,
    ),
    column(
      'week',
      weekCount,
      'Second less first, by week',
      '{major}',
      'moneySigned',
      'Cost of use in whole weeks of the period; without standing charges',
      (row) => differenceOf(useCost(row)),
    ),
    column(
      'mean',
      spans,
      'The same by four weeks',
      '{major}/day',
      'rateFine',
      'Mean a day where three weeks or four are known',
      spanMean(cellsOf('week', weekCount)),
    ),
    column(
      'change',
      changes,
      'Change to the next, squared',
      'squared',
      'rateFine',
      'What is left of summer and winter in it counts as chance: on the careful side',
      spanChange(cellsOf('mean', spans)),
    ),
  ];
}

/** The block of costs by tariff: the bill as metered where it stands apart, then a row a tariff. */
export const COST_BLOCK = {
  label: 'A',
  /** What the ranking goes by. */
  total: 'B',
  /** The same without the battery, where one is entered. */
  without: 'C',
  /** Column of the tariff of that rank, from 1. */
  place: 'E',
  rows: TARIFF_COUNT + 1,
} as const;

/** Rows of the sheet below the months. */
export function chartDataRows({ shape }: Book): {
  header: number;
  first: number;
  last: number;
  words: number;
} {
  const first = FIRST_ROW + shape.monthRows + 3;
  const last = first + COST_BLOCK.rows - 1;
  return { header: first - 1, first, last, words: last + 3 };
}

/** One bar of the cost chart; where the bill as metered has the first, each tariff has the next one. */
function barCells(book: Book, bar: number, row: number): Cell[] {
  const place = `$${COST_BLOCK.place}${row}`;
  const ofPlace = (across: string): string => `INDEX(${across},1,MAX(1,${place}))`;
  const metered = book.workings.asMetered.months;
  const isMetered = bar === 0 ? `${STANDS_APART_NAME}=1` : undefined;
  const either = (ofMetered: string, otherwise: string): string =>
    isMetered === undefined ? otherwise : `IF(${isMetered},${ofMetered},${otherwise})`;
  /** No bar, not one of 0, where there is no figure. */
  const barOf = (is: string): string => `IF(${place}=0,NA(),IF(ISNUMBER(${is}),${is},NA()))`;
  return [
    formula(
      `${COST_BLOCK.label}${row}`,
      either(quoted(AS_METERED), `IF(${place}=0,"",${ofPlace(tariffRow(T.name))})`),
      'text',
    ),
    formula(
      `${COST_BLOCK.total}${row}`,
      either(periodRef(book, metered.total), barOf(ofPlace(tariffRow(T.total)))),
      'money',
    ),
    formula(
      `${COST_BLOCK.without}${row}`,
      either('NA()', barOf(ofPlace(tariffRow(T.withoutBattery)))),
      'money',
    ),
    formula(
      `${COST_BLOCK.place}${row}`,
      `IFERROR(MATCH(${bar + 1}-${STANDS_APART_NAME},${tariffRow(T.rank)},0),0)`,
      'integer',
    ),
  ];
}

/** The sentences of the answer, part by part. */
function wordCells(book: Book): Cell[] {
  const { words } = chartDataRows(book);
  return [
    label(`A${words - 1}`, 'Words of the answer', 'section'),
    ...wordLines(book).flatMap(({ name, label: text, unit, formula: is, style }, i) => [
      label(`A${words + i}`, text, 'label'),
      formula(`B${words + i}`, is, style, { name }),
      label(`C${words + i}`, unit, 'unit'),
    ]),
  ];
}

/** Heading of a column; in the legend that is a tariff's name, and a dash where there is none. */
function headingCell({ letters, label: text }: FormulaColumn): Cell {
  const at = `${letters}${SEED_ROW - 1}`;
  const tariff = tariffs.find((t) => CHART_MONTHS.total(t) === letters);
  if (tariff !== undefined) return formula(at, `IF(${nameOf(tariff)}="","–",${nameOf(tariff)})`, 'header');
  const rank = ranks.find((r) => CHART_MONTHS.against(r) === letters);
  if (rank === undefined) return label(at, text, 'header');
  const place = `${letters}$${PLACE_ROW}`;
  return formula(at, `IF(${place}=0,"–",${chosen(tariffRow(T.name), place)})`, 'header');
}

/**
 * Cell with the column of Tariffs in which the tariff of a rank stands, from 1; 0: none has that rank.
 *
 * @param rank place in the ranking, from 1
 */
export function rankPlace(rank: number): string {
  return absolute(SHEETS.chartData, CHART_MONTHS.against(rank), PLACE_ROW);
}

/** Where the tariffs of the ranks stand, and what is in the rows of the ranks. */
function rankCells(): Cell[] {
  return ranks.flatMap((rank) => [
    formula(
      `${CHART_MONTHS.against(rank)}${PLACE_ROW}`,
      `IFERROR(MATCH(${rank},${tariffRow(T.rank)},0),0)`,
      'integer',
    ),
  ]);
}

/** Figures and words in the shape that charts and sentences take; nothing here is worked out anew. */
export function chartDataSheet(book: Book): SheetModel {
  const columns = [...monthColumns(book), ...sureColumns(book)];
  const { header, first } = chartDataRows(book);
  const headers: Cell[] = columns.flatMap((column) => [
    headingCell(column),
    label(`${column.letters}${SEED_ROW}`, column.unit, 'headerUnit'),
  ]);
  const bars = Array.from({ length: COST_BLOCK.rows }, (_, bar) => barCells(book, bar, first + bar)).flat();
  return {
    name: SHEETS.chartData,
    tab: 'workings',
    widths: Object.fromEntries(columns.map((c) => [c.letters, c.letters === 'A' ? 44 : 14])),
    heights: { [SEED_ROW - 1]: 32 },
    freeze: { columns: 1, rows: 2 },
    protected: true,
    landscape: true,
    cells: [
      ...sheetTop(
        'Charts',
        'Workings: figures and words in the shape that charts and sentences take. Nothing to fill in.',
      ),
      label(`A${SEED_ROW - 2}`, 'Cost by month', 'section'),
      ...headers,
      ...rankCells(),
      label(`A${header - 1}`, 'Cost as metered and by tariff, cheapest first', 'section'),
      label(`${COST_BLOCK.label}${header}`, 'Tariff', 'headerLeft'),
      formula(
        `${COST_BLOCK.total}${header}`,
        worlds(book).withBattery('"Total, with the battery"', '"Total"'),
        'header',
      ),
      formula(
        `${COST_BLOCK.without}${header}`,
        worlds(book).withBattery('"Total without it"', '"–"'),
        'header',
      ),
      label(`${COST_BLOCK.place}${header}`, 'Column on Tariffs', 'header'),
      ...bars,
      ...wordCells(book),
    ],
    formulaColumns: columns,
    inputColumns: [],
    conditional: [],
  };
}
