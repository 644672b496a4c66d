import { columnLetters, sheetPrefix } from '../cell-address.js';
import { FIRST_ROW, SEED_ROW, SHEETS, TARIFF_COUNT } from '../layout.js';
import { AS_METERED, STANDS_APART_NAME } from './as-metered-row.js';
import type { Book } from './book.js';
import { formula, label, quoted } from './cells.js';
import { sheetTop } from './column-headers.js';
import { periodRef, tariffOf } from './period-line.js';
import { monthTextFormula, tariffRow, wordLines } from './sentences.js';
import type { Cell, FormulaColumn, SheetModel } from './sheet-model.js';
import { pricedName, TARIFF_ROW as T, tariffLetters } from './tariff-rows.js';
import { worlds } from './worlds.js';

/** Columns of the chart data: cost by month for each tariff. */
export const CHART_MONTHS = {
  month: 'A',
  total: (tariff: number) => columnLetters(2 + tariff),
  asMetered: columnLetters(2 + TARIFF_COUNT),
} as const;

const tariffs = Array.from({ length: TARIFF_COUNT }, (_, t) => t);
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
        (row) => `IF(OR(${startAt(row)}="",SUM(${pricedName(t)})=0),NA(),${total(row)})`,
      );
    }),
    column(
      CHART_MONTHS.asMetered,
      {
        label: AS_METERED,
        unit: '{major}',
        description: 'Bill of the month as metered; no point where the comparison says it already',
        style: 'money',
      },
      (row) =>
        `IF(OR(${startAt(row)}="",${STANDS_APART_NAME}=0),NA(),${ofMonth(book.workings.asMetered.months.total.letters, row)})`,
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

/** Name of a column in the legend: a tariff's, or that of the bill as metered; a dash where there is none. */
function headingOf(letters: string, tariff: number): string {
  return letters === CHART_MONTHS.asMetered
    ? `IF(${STANDS_APART_NAME}=0,"–","${AS_METERED}")`
    : `IF(${nameOf(tariff)}="","–",${nameOf(tariff)})`;
}

/** Figures and words in the shape that charts and sentences take; nothing here is worked out anew. */
export function chartDataSheet(book: Book): SheetModel {
  const columns = monthColumns(book);
  const { header, first } = chartDataRows(book);
  const headers: Cell[] = columns.flatMap((column, i) => [
    i === 0
      ? label(`${column.letters}${SEED_ROW - 1}`, column.label, 'header')
      : formula(`${column.letters}${SEED_ROW - 1}`, headingOf(column.letters, i - 1), 'header'),
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
        'Chart data',
        'Workings: figures and words in the shape that charts and sentences take. Nothing to fill in.',
      ),
      label(`A${SEED_ROW - 2}`, 'Cost by month', 'section'),
      ...headers,
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
