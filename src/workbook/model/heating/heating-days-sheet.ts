import { cellAt } from '../../cell-address.js';
import { FIRST_ROW, partLetters, SEED_ROW, SHEETS } from '../../layout.js';
import type { Book } from '../book.js';
import { formula, label } from '../cells.js';
import { columnHeaders, sheetTop } from '../column-headers.js';
import type { Cell, FormulaColumn, SheetModel } from '../sheet-model.js';
import { heatingDays } from './heating-days.js';

/** Workings: the heat pump and the weather, one row a day. */
export function heatingDaysSheet(book: Book): SheetModel {
  const { sheet } = heatingDays(book);
  const columns = sheet.columns.map(({ letters, firstRow, rows, text, style, name, is }): FormulaColumn => {
    if (is === undefined) throw new Error(`"${text.label}" of ${SHEETS.heatingDays} has no formula`);
    return { letters, firstRow, rows, ...text, style, formula: is, ...(name === undefined ? {} : { name }) };
  });
  const lines = sheet.lines.flatMap(({ line: { place, is, style, name }, label: text, unit }): Cell[] => {
    if (is === undefined) throw new Error(`"${text}" of ${SHEETS.heatingDays} has no formula`);
    const at = cellAt(place.column, place.row);
    return [
      label(cellAt(place.column - 1, place.row), text, 'label'),
      formula(at, is, style, name === undefined ? {} : { name }),
      label(cellAt(place.column + 1, place.row), unit, 'unitBeside'),
    ];
  });
  return {
    name: SHEETS.heatingDays,
    tab: 'workings',
    widths: Object.fromEntries(columns.map(({ letters }) => [letters, 13])),
    heights: { [FIRST_ROW - 3]: 34 },
    freeze: { columns: 1, rows: SEED_ROW },
    protected: true,
    landscape: true,
    printTitleRows: `${FIRST_ROW - 3}:${FIRST_ROW - 2}`,
    cells: [
      ...sheetTop(
        'Heating days',
        'Workings: the heat pump and the weather, one row a day. Nothing to fill in.',
        partLetters('heatingDays', 1),
      ),
      ...lines,
      ...columnHeaders(columns),
    ],
    formulaColumns: columns,
    inputColumns: [],
    conditional: [],
  };
}
