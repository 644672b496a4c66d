import type { SheetBuilder } from '../book/sheet-builder.js';
import type { Column } from '../book/terms.js';
import { cellAt, columnLetters } from '../cell-address.js';
import { FIRST_ROW, SEED_ROW, SHEETS, type SheetName } from '../layout.js';
import type { Workings } from '../sheets/workings.js';
import { formula, label } from './cells.js';
import { sheetTop } from './column-headers.js';
import { formulaColumnOf } from './formula-column.js';
import type { Cell, FormulaColumn, SheetModel, ValueColumn } from './sheet-model.js';

const BATTERY_FIGURES = 'Battery figures';
const HINTS: Readonly<Record<string, string>> = {
  Grid: 'Workings: every half-hour from the first day on, whatever order the readings are in.',
  Days: 'Workings: one row a calendar day.',
  Months: 'Workings: one row a calendar month, with the bill lines of every tariff.',
  Rates: 'Workings: the rates and windows typed on Tariffs, with VAT.',
  'Rate grid': 'Workings: what each half-hour of a week costs on every tariff, set of rates by set.',
  [BATTERY_FIGURES]: 'Workings: the battery as it is worked with.',
  'Average days': 'Workings: what the battery meets on the average day of each month.',
  'Battery levels':
    'Workings: the level that the battery fills up to and the one that it keeps, by month and set of rates, for each run of half-hours at one rate.',
};

const NAMED_HINT =
  'Where cells show a name, row 4 says what it stands for in the first row; the program’s list of names has the names in that.';

/** Columns wider than the usual. */
const WIDTHS: Partial<Record<Column['style'], number>> = { dateTime: 17, text: 26 };

function columnCells(sheet: SheetBuilder): Cell[] {
  const seen = new Set<number>();
  return sheet.columns.flatMap((column) => {
    if (seen.has(column.column)) return [];
    seen.add(column.column);
    return [
      label(`${column.letters}${FIRST_ROW - 3}`, column.text.label, 'header'),
      label(`${column.letters}${FIRST_ROW - 2}`, column.text.unit, 'headerUnit'),
    ];
  });
}

function valueColumns(sheet: SheetBuilder): ValueColumn[] {
  return [...sheet.values].map(([{ letters, firstRow, style, name }, values]) => ({
    letters,
    firstRow,
    values,
    style,
    ...(name === undefined ? {} : { name }),
  }));
}

function lineCells(sheet: SheetBuilder): Cell[] {
  return sheet.lines.flatMap(({ line, label: text, unit }) => {
    if (line.is === undefined) return [];
    const { row, column } = line.place;
    const cell = formula(
      cellAt(column, row),
      line.is,
      line.style,
      line.name === undefined ? {} : { name: line.name },
    );
    // On a sheet of lines the label and the unit stand beside; on one of columns the headings say it.
    const beside = (column: number): string => cellAt(sheet.place(column), row);
    const isTop = row < FIRST_ROW - 3 && text !== '' && column === sheet.place(2);
    if (sheet.title === BATTERY_FIGURES && text !== '') {
      return [label(beside(1), text, 'label'), cell, label(beside(3), unit, 'unit')];
    }
    return isTop ? [label(beside(1), text, 'label'), cell] : [cell];
  });
}

function formulaColumns(sheet: SheetBuilder): FormulaColumn[] {
  return sheet.columns.flatMap((column) => formulaColumnOf(column) ?? []);
}

function sheetModel(sheet: SheetBuilder): SheetModel {
  const hasColumns = sheet.columns.length > 0;
  const lettersOf = (column: number): string => columnLetters(sheet.place(column));
  const widths = hasColumns
    ? Object.fromEntries(sheet.columns.map((column) => [column.letters, WIDTHS[column.style] ?? 12]))
    : {
        [lettersOf(1)]: 46,
        [lettersOf(2)]: 22,
        ...Object.fromEntries(Array.from({ length: 8 }, (_, i) => [lettersOf(3 + i), 16])),
      };
  return {
    name: sheet.name as SheetName,
    tab: 'workings',
    widths,
    heights: hasColumns ? { [FIRST_ROW - 3]: 48, [FIRST_ROW - 2]: 24 } : {},
    freeze: sheet.name === SHEETS.rates ? { columns: 2, rows: 4 } : { columns: 1, rows: SEED_ROW },
    protected: true,
    landscape: true,
    ...(hasColumns ? { printTitleRows: `${FIRST_ROW - 3}:${FIRST_ROW - 2}` } : {}),
    cells: [
      ...sheetTop(
        sheet.title,
        [HINTS[sheet.title], 'Nothing to fill in.', hasColumns ? NAMED_HINT : undefined]
          .filter((text) => text !== undefined)
          .join(' '),
        lettersOf(1),
      ),
      ...sheet.labels.map(({ row, column, value, style }) => label(cellAt(column, row), value, style)),
      ...(hasColumns ? columnCells(sheet) : []),
      ...lineCells(sheet),
    ],
    formulaColumns: formulaColumns(sheet),
    inputColumns: [],
    valueColumns: valueColumns(sheet),
    conditional: [],
  };
}

/** The workings as sheets; readings and the clock have sheets of their own. */
export function workingsSheets({ sheets, readings, clock }: Workings): SheetModel[] {
  return sheets.filter((sheet) => sheet !== readings.sheet && sheet !== clock.sheet).map(sheetModel);
}
