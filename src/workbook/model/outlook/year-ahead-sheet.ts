import { cellAt } from '../../cell-address.js';
import { FIRST_ROW, SEED_ROW, SHEETS } from '../../layout.js';
import type { Book } from '../book.js';
import { formula, label } from '../cells.js';
import { formulaColumnOf } from '../formula-column.js';
import type { Cell, SheetModel } from '../sheet-model.js';
import { yearAhead } from './year-lines.js';

/**
 * The workings of what a year costs; they stand right of other workings.
 *
 * @param book inputs and workings
 * @returns the sheet: columns by month, lines by tariff below them, each with its unit
 * @example yearAheadSheet(book).cells.length > 0
 */
export function yearAheadSheet(book: Book): SheetModel {
  const { columns, lines } = yearAhead(book);
  const [labels, units] = [columns.month.column, columns.days.column];
  return {
    name: SHEETS.yearAhead,
    tab: 'workings',
    widths: Object.fromEntries(columns.all.map((c) => [c.letters, c === columns.month ? 36 : 14])),
    protected: true,
    landscape: true,
    cells: [
      label(cellAt(columns.all[0]?.column ?? 1, SEED_ROW - 2), 'What a year costs', 'section'),
      ...columns.all.flatMap(({ letters, text }) => [
        label(`${letters}${SEED_ROW - 1}`, text.label, 'header'),
        label(`${letters}${SEED_ROW}`, text.unit, 'headerUnit'),
      ]),
      ...lines.flatMap(({ line: { place, is, style, name }, label: text, unit }): Cell[] => [
        ...(text === ''
          ? []
          : [label(cellAt(labels, place.row), text, 'label'), label(cellAt(units, place.row), unit, 'unit')]),
        ...(is === undefined
          ? []
          : [formula(cellAt(place.column, place.row), is, style, name === undefined ? {} : { name })]),
      ]),
    ],
    formulaColumns: columns.all.flatMap((column) => formulaColumnOf(column) ?? []),
    inputColumns: [],
    valueColumns: [...columns.values].map(([{ letters, style }, values]) => ({
      letters,
      firstRow: FIRST_ROW,
      values,
      style,
    })),
    conditional: [],
  };
}
