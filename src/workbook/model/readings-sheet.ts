import type { Reference } from '../../formula/nodes.js';
import { areaReference } from '../book/terms.js';
import { TOLD } from '../fields/told-places.js';
import type { HomeCells } from '../inputs/workbook-inputs.js';
import { SEED_ROW, SHEETS } from '../layout.js';
import type { Book } from './book.js';
import { label } from './cells.js';
import { sheetTop } from './column-headers.js';
import { homeCells } from './home-cells.js';
import type { Cell, InputColumn, SheetModel } from './sheet-model.js';

/** Rows below the last one in which readings are looked for, to say that they don't count. */
const LOOKED_AT_BELOW = 2000;

/** Where the half-hours are pasted or filled in. */
export function readingsSheet(book: Book, home: HomeCells): SheetModel {
  const { sheet, start } = book.workings.readings;
  const { columns } = sheet;
  const headers: Cell[] = columns.flatMap(({ letters, text }) => [
    label(`${letters}${SEED_ROW - 1}`, text.label, 'header'),
    label(`${letters}${SEED_ROW}`, text.unit, 'headerUnit'),
  ]);
  const inputColumns = columns.map(
    ({ letters, firstRow, rows, style, name }): InputColumn => ({
      letters,
      firstRow,
      rows,
      style,
      ...(name === undefined ? {} : { name }),
    }),
  );
  return {
    name: SHEETS.readings,
    tab: 'input',
    widths: Object.fromEntries(columns.map(({ letters }) => [letters, letters === start.letters ? 18 : 12])),
    heights: { [SEED_ROW]: 30 },
    freeze: { columns: 1, rows: SEED_ROW },
    protected: false,
    landscape: true,
    printTitleRows: `${SEED_ROW - 1}:${SEED_ROW}`,
    cells: [
      ...sheetTop(
        'Readings',
        `One row a half-hour, up to row ${start.lastRow.toLocaleString('en')}. Paste below the last row, or let the fill do it.`,
      ),
      label(
        'A3',
        `Starts of half-hours by the home’s clock; blank where nothing was metered. After a paste, ${SHEETS.checks} counts dates that arrived as text. Rows may be sorted; columns stay.`,
        'hint',
      ),
      label('K1', 'What files were told', 'link', {
        link: `'${TOLD.sheet}'!${TOLD.letters.columns}${TOLD.titleRow}`,
      }),
      ...homeCells(SHEETS.readings, home, 'above'),
      ...headers,
    ],
    formulaColumns: [],
    inputColumns,
    conditional: [
      {
        range: `${start.letters}${start.firstRow}:${start.letters}${start.lastRow}`,
        formula: `ISTEXT($${start.letters}${start.firstRow})`,
        style: 'bad',
      },
    ],
  };
}

/** Starts typed or pasted below the last row, where no line looks at them. */
export function belowLastReading({ workings }: Book): Reference {
  const { sheet, column, lastRow } = workings.readings.start;
  return areaReference(
    {
      sheet,
      firstRow: lastRow + 1,
      lastRow: lastRow + LOOKED_AT_BELOW,
      firstColumn: column,
      lastColumn: column,
    },
    'read_below',
  );
}
