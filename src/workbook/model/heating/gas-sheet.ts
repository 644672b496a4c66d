import { fieldPairs } from '../../fields/field.js';
import { GAS_COLUMNS, GAS_FIELDS, GAS_ROWS } from '../../fields/gas-fields.js';
import type { HeatingCells } from '../../inputs/heating-cells.js';
import { FIRST_ROW, SEED_ROW, SHEETS } from '../../layout.js';
import type { Book } from '../book.js';
import { label } from '../cells.js';
import { columnHeaders, sheetTop } from '../column-headers.js';
import { fieldInput } from '../field-input.js';
import { UNPROTECTED } from '../protection-words.js';
import type { Cell, SheetModel } from '../sheet-model.js';
import { gasColumns, gasHints } from './gas-columns.js';
import { TEMPERATURE } from './heating-rows.js';

/** Last year's gas: what was metered, and what the comparison takes of it. */
export function gasSheet(book: Book, start: HeatingCells): SheetModel {
  const worked = gasColumns(book);
  const heads: Cell[] = Object.values(GAS_COLUMNS).flatMap(({ letters, spec }) => [
    label(`${letters}${FIRST_ROW - 3}`, spec.label, 'header'),
    label(`${letters}${FIRST_ROW - 2}`, spec.unit, 'headerUnit'),
  ]);
  return {
    name: SHEETS.gas,
    tab: 'input',
    widths: {
      ...Object.fromEntries([...'ABCDEFGHIJLMNOPQRSTUVWXYZ'].map((letters) => [letters, 13])),
      AA: 13,
      AB: 13,
      AC: 13,
      K: 16,
    },
    heights: { [FIRST_ROW - 3]: 32, [FIRST_ROW - 2]: 26 },
    freeze: { columns: 0, rows: SEED_ROW },
    protected: false,
    landscape: true,
    printTitleRows: `${FIRST_ROW - 3}:${FIRST_ROW - 2}`,
    printArea: `A1:M${FIRST_ROW + GAS_ROWS - 1}`,
    cells: [
      ...sheetTop(
        SHEETS.gas,
        'The gas of the last year with the boiler, a row a month or other stretch of about that length. Type it from bills, or let the fill do it: --gas.',
      ),
      label(
        'A3',
        'Degree days come from the temperatures of those days unless they are typed. What was understood stands on the right.',
        'hint',
      ),
      label('A4', UNPROTECTED, 'hint'),
      ...gasHints(),
      label('D1', 'Temperatures by day', 'link', { link: `'${SHEETS.temperatures}'!${TEMPERATURE.date}1` }),
      ...heads,
      ...columnHeaders(worked),
      ...fieldPairs(GAS_FIELDS, start.gas).map(([field, value]) => fieldInput(field, value)),
    ],
    formulaColumns: worked,
    inputColumns: [],
    conditional: [],
  };
}
