import { cellAt } from '../../cell-address.js';
import { partLetters, SHEETS, TARIFF_COUNT } from '../../layout.js';
import type { Book } from '../book.js';
import { formula, label } from '../cells.js';
import { sheetTop } from '../column-headers.js';
import { formulaColumnOf } from '../formula-column.js';
import type { Cell, SheetModel } from '../sheet-model.js';
import { batterySpan } from './battery-span.js';
import { SPAN_FIRST_ROW } from './span-rows.js';
import { spanWordCells } from './span-words.js';

const own = (column: number): string => partLetters('batterySpan', column);

/** Workings: the battery over the chosen period, its laws, and what energy really cost by month. */
export function batterySpanSheet(book: Book): SheetModel {
  const { sheet } = batterySpan(book);
  const header = SPAN_FIRST_ROW - 3;
  const headers = sheet.columns.flatMap(({ letters, text }) => [
    label(`${letters}${header}`, text.label, 'header'),
    label(`${letters}${header + 1}`, text.unit, 'headerUnit'),
  ]);
  const lines = sheet.lines.flatMap(({ line: { place, is, style, name } }): Cell[] =>
    is === undefined
      ? []
      : [formula(cellAt(place.column, place.row), is, style, name === undefined ? {} : { name })],
  );
  const tariffs = Array.from({ length: TARIFF_COUNT }, (_, t) => t);
  return {
    name: SHEETS.batterySpan,
    tab: 'workings',
    widths: {
      [own(1)]: 46,
      [own(2)]: 22,
      ...Object.fromEntries(tariffs.map((t) => [own(3 + t), 16])),
      ...Object.fromEntries(sheet.columns.slice(10).map(({ letters }) => [letters, 13])),
    },
    heights: { [header]: 48, [header + 1]: 24 },
    freeze: { columns: 2, rows: 4 },
    protected: true,
    landscape: true,
    cells: [
      ...sheetTop(
        sheet.title,
        'Workings: the battery over the chosen period, its laws, and what energy really cost by month. Nothing to fill in.',
        own(1),
      ),
      ...tariffs.map((t) => label(`${own(3 + t)}4`, `Tariff ${t + 1}`, 'header')),
      ...sheet.labels.map(({ row, column, value, style }) => label(cellAt(column, row), value, style)),
      label(`${own(1)}${header - 1}`, 'What energy really cost, by month', 'section'),
      label(`${own(1)}${SPAN_FIRST_ROW - 1}`, 'Chosen period', 'labelStrong'),
      ...headers,
      ...lines,
      ...spanWordCells(book),
    ],
    formulaColumns: sheet.columns.flatMap((column) => formulaColumnOf(column) ?? []),
    inputColumns: [],
    valueColumns: [...sheet.values].map(([{ letters, firstRow, style }, values]) => ({
      letters,
      firstRow,
      values,
      style,
    })),
    conditional: [],
  };
}
