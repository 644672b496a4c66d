import { columnNumber, parseCell } from '../cell-address.js';
import { BATTERY_FIELDS } from '../fields/battery-fields.js';
import { BILLS } from '../fields/bill-fields.js';
import { ofFields } from '../fields/field.js';
import { GAS_ROWS } from '../fields/gas-fields.js';
import { HEATING_TABLES } from '../fields/heating-fields.js';
import { SETTING_FIELDS } from '../fields/heating-settings.js';
import { HOME_FIELDS, PERIOD_FIELDS } from '../fields/home-fields.js';
import { TARIFF_FIELDS, TODAYS_TARIFF } from '../fields/tariff-fields.js';
import { TIMER_FIELDS } from '../fields/timer-fields.js';
import { TOLD } from '../fields/told-places.js';
import { FIRST_ROW, SHEETS } from '../layout.js';
import type { Book } from '../model/book.js';
import { READING } from '../model/columns.js';
import { GAS, LAST_TEMPERATURE_ROW, TEMPERATURE } from '../model/heating/heating-rows.js';
import { LAYOUT_VERSION } from '../model/notes-sheet.js';
import type { Cell, SheetModel } from '../model/sheet-model.js';
import { workbookCharts } from '../model/workbook-charts.js';
import { type CellRange, LAST_COLUMN, LAST_ROW } from '../package/index.js';
import type { EarlierLayout, InputPlaces, LaidSheet } from './earlier-layout.js';

/**
 * Today's layout as a table like those of earlier ones.
 *
 * @param book what the workbook is declared as
 * @param model its sheets
 * @param names its defined names
 * @param next the sheets of the workbook that is carried to, which may hold another count of days
 */
export function todaysLayout(
  book: Book,
  model: readonly SheetModel[],
  names: Iterable<string>,
  next: readonly SheetModel[],
): EarlierLayout {
  const charts = workbookCharts(book, { currency: '', minorUnit: '' });
  return {
    version: LAYOUT_VERSION,
    days: book.shape.days,
    names: new Set(names),
    sheets: model.map((sheet): LaidSheet => {
      const cells = sheet.cells.map(rangeOf);
      const columns = [
        ...[...sheet.formulaColumns, ...sheet.inputColumns].map(({ letters, firstRow, rows }) =>
          down(letters, firstRow, rows),
        ),
        ...(sheet.valueColumns ?? []).map(({ letters, firstRow, values }) =>
          down(letters, firstRow, values.length),
        ),
      ];
      return {
        name: sheet.name,
        ours: [...cells, ...columns],
        formulas: [
          ...sheet.cells.filter(({ kind }) => kind === 'formula').map(({ at }) => single(at)),
          ...sheet.formulaColumns.map(({ letters, firstRow, rows }) => down(letters, firstRow, rows)),
        ],
        stays: staying(
          sheet,
          next.find(({ name }) => name === sheet.name),
        ),
        comments: sheet.cells.flatMap((cell) =>
          cell.kind === 'input' && cell.comment !== undefined ? [single(cell.at)] : [],
        ),
        charts: charts.filter((chart) => chart.sheet === sheet.name).length,
      };
    }),
    inputs: TODAYS_PLACES,
  };
}

const TODAYS_PLACES: InputPlaces = {
  home: homePlaces(),
  period: { sheet: SHEETS.answer, cells: ofFields(PERIOD_FIELDS, ({ at }) => at, null) },
  tariffs: {
    sheet: SHEETS.tariffs,
    todays: TODAYS_TARIFF.at,
    columns: ofFields(TARIFF_FIELDS, ({ at }) => at, null),
  },
  battery: { sheet: SHEETS.battery, cells: ofFields(BATTERY_FIELDS, ({ at }) => at, null) },
  heating: {
    sheet: SHEETS.heatingInputs,
    settings: ofFields(SETTING_FIELDS, ({ at }) => at, null),
    tables: ofFields(HEATING_TABLES, ({ at }) => at, null),
  },
  bills: { sheet: SHEETS.bills, cells: ofFields(BILLS, ({ at }) => at, null) },
  timers: { sheet: SHEETS.timers, cells: ofFields(TIMER_FIELDS, ({ at }) => at, null) },
  gas: { sheet: SHEETS.gas, firstRow: FIRST_ROW, lastRow: FIRST_ROW + GAS_ROWS - 1, letters: GAS },
  temperatures: {
    sheet: SHEETS.temperatures,
    firstRow: FIRST_ROW,
    lastRow: LAST_TEMPERATURE_ROW,
    letters: TEMPERATURE,
  },
  readings: { sheet: SHEETS.readings, firstRow: FIRST_ROW, lastRow: LAST_ROW, letters: READING },
  told: {
    sheet: TOLD.sheet,
    firstRow: TOLD.firstRow,
    lastRow: TOLD.firstRow + TOLD.rows - 1,
    letters: TOLD.letters,
  },
};

/** Facts of the home by their sheets. */
function homePlaces(): InputPlaces['home'] {
  const fields = Object.entries(HOME_FIELDS);
  const sheets = [...new Set(fields.map(([, { cell }]) => cell.place.sheet))];
  return sheets.map((sheet) => ({
    sheet,
    cells: Object.fromEntries(
      fields.filter(([, { cell }]) => cell.place.sheet === sheet).map(([key, { at }]) => [key, at]),
    ),
  }));
}

function single(at: string): CellRange {
  const { row, column } = parseCell(at);
  return { firstRow: row, lastRow: row, firstColumn: column, lastColumn: column };
}

function rangeOf({ at, mergeTo = at }: Cell): CellRange {
  const last = parseCell(mergeTo);
  return { ...single(at), lastRow: last.row, lastColumn: last.column };
}

function down(letters: string, firstRow: number, rows: number): CellRange {
  const column = columnNumber(letters);
  return { firstRow, lastRow: firstRow + rows - 1, firstColumn: column, lastColumn: column };
}

/** Empty columns in a row that part one block of a sheet from the next. */
const GAP = 5;

/** Of each block of a sheet, side by side, the rows above the first that is laid out otherwise in the next workbook. */
function staying(sheet: SheetModel, next: SheetModel | undefined): CellRange[] {
  if (next === undefined) return [];
  const [ours, theirs] = [marksOf(sheet), marksOf(next)];
  return blocksOf([...ours, ...theirs]).flatMap(({ firstColumn, lastColumn }) => {
    const rowsOf = (marks: readonly Mark[]): Map<number, string> => {
      const rows = new Map<number, string>();
      for (const { row, column, text } of marks) {
        if (column < firstColumn || column > lastColumn) continue;
        rows.set(row, `${rows.get(row) ?? ''}${text};`);
      }
      return rows;
    };
    const [before, after] = [rowsOf(ours), rowsOf(theirs)];
    const moved = [...new Set([...before.keys(), ...after.keys()])].filter(
      (row) => before.get(row) !== after.get(row),
    );
    const lastRow = moved.length === 0 ? LAST_ROW : Math.min(...moved) - 1;
    return lastRow < 1 ? [] : [{ firstRow: 1, lastRow, firstColumn, lastColumn }];
  });
}

/** Columns from the first of a block to the one before the next block. */
function blocksOf(marks: readonly Mark[]): { firstColumn: number; lastColumn: number }[] {
  const columns = [...new Set(marks.map(({ column }) => column))].sort((a, b) => a - b);
  const starts = columns.filter((column, i) => i > 0 && column - (columns[i - 1] ?? 0) > GAP);
  return [1, ...starts].map((firstColumn, i) => ({
    firstColumn,
    lastColumn: (starts[i] ?? LAST_COLUMN + 1) - 1,
  }));
}

/** A cell of its own or the top of a column, told shortly. */
interface Mark {
  row: number;
  column: number;
  text: string;
}

function marksOf({ cells, formulaColumns, inputColumns, valueColumns = [] }: SheetModel): Mark[] {
  return [
    ...cells.map(({ at, kind, style }) => ({ ...parseCell(at), text: `${at} ${kind} ${style}` })),
    ...[...formulaColumns, ...inputColumns, ...valueColumns].map(({ letters, firstRow, style }) => ({
      row: firstRow,
      column: columnNumber(letters),
      text: `${letters} ${style}`,
    })),
  ];
}
