import type { Node } from '../../../formula/nodes.js';
import { all, type Column, f, Line } from '../../book/terms.js';
import { cellAt, columnLetters } from '../../cell-address.js';
import {
  BILL_COLUMN,
  BILL_FIELDS,
  BILL_ROUNDING,
  BILL_SETTINGS,
  BILLS,
  FIRST_BILL_ROW,
  LAST_BILL_ROW,
} from '../../fields/bill-fields.js';
import { fieldPairs, listFields } from '../../fields/field.js';
import { HOME_FIELDS } from '../../fields/home-fields.js';
import type { BillsCells } from '../../inputs/bill-cells.js';
import { SHEETS } from '../../layout.js';
import type { StyleName } from '../../look/styles.js';
import type { Book } from '../book.js';
import { formula, label } from '../cells.js';
import { sheetTop } from '../column-headers.js';
import { fieldInput } from '../field-input.js';
import { formulaColumnOf } from '../formula-column.js';
import type { Cell, FormulaColumn, SheetModel } from '../sheet-model.js';
import { BILL_STATE, type BillColumns, billColumns } from './bill-columns.js';
import { billFlagCells } from './bill-flags.js';
import { BILLS_WORDS_NAME, LINE_DIGITS_NAME } from './bill-places.js';

const HEADING_ROW = FIRST_BILL_ROW - 2;
const GROUP_ROW = HEADING_ROW - 1;
const WIDTHS: Partial<Record<StyleName, number>> = { text: 30 };

/** Digits of a line that is not rounded. */
const NOT_ROUNDED = 9;

function headings(columns: readonly Column[]): Cell[] {
  const [first] = BILL_FIELDS;
  const inputs = first === undefined ? [] : listFields(first);
  return [
    label(cellAt(BILL_COLUMN.number, HEADING_ROW), 'No.', 'header'),
    label(cellAt(BILL_COLUMN.number, HEADING_ROW + 1), '', 'headerUnit'),
    ...inputs.flatMap(({ spec, cell }) => [
      label(cellAt(cell.place.column, HEADING_ROW), spec.label, 'header'),
      label(cellAt(cell.place.column, HEADING_ROW + 1), spec.unit, 'headerUnit'),
    ]),
    ...columns.flatMap(({ column, text }) => [
      label(cellAt(column, HEADING_ROW), text.label, 'header'),
      label(cellAt(column, HEADING_ROW + 1), text.unit, 'headerUnit'),
    ]),
    label(
      cellAt(BILL_COLUMN.from, GROUP_ROW),
      'The bill, and what it comes to by the readings',
      'labelStrong',
    ),
    label(cellAt(BILL_COLUMN.kwh, GROUP_ROW), 'As billed, line by line', 'labelStrong'),
    label(
      cellAt(BILL_COLUMN.firstWorked, GROUP_ROW),
      'Worked out: the same lines by the readings, and billed less own',
      'labelStrong',
    ),
  ];
}

function asColumn(column: Column): FormulaColumn {
  const found = formulaColumnOf(column);
  if (found === undefined) throw new RangeError(`"${column.text.label}" has no formula`);
  return found;
}

/** Lines about all bills, above those that are worked out bill by bill. */
function summaryCells({ state, differs, difference, tail }: BillColumns): Cell[] {
  const at = (row: number): string => cellAt(BILL_COLUMN.firstWorked, row);
  const line = (row: number, style: StyleName, name: string) =>
    new Line({ sheet: SHEETS.bills, row, column: BILL_COLUMN.firstWorked }, style, name);
  const compared = line(3, 'integer', 'bills_compared');
  const digits = line(4, 'integer', LINE_DIGITS_NAME);
  const differing = line(5, 'integer', 'bills_differing');
  const inAll = line(6, 'money', 'bills_difference');
  const money = (pounds: Line) => f`${HOME_FIELDS.currency.cell}&FIXED(SUM(${pounds}),2)`;
  const more = (sign: string) => f`SUMIFS(${all(difference)},${all(differs)},1,${all(difference)},${sign})`;
  const lines: readonly [Line, string, Node][] = [
    [compared, 'bills compared', f`COUNTIFS(${all(state)},${BILL_STATE.compared})`],
    [
      digits,
      'digits to which lines are rounded',
      f`IF(${BILL_SETTINGS.rounding.cell}=${BILL_ROUNDING.total},${NOT_ROUNDED},2)`,
    ],
    [differing, 'of these differ', f`COUNTIFS(${all(differs)},1)`],
    [inAll, 'by so much in all, whichever way', f`${more('>0')}-${more('<0')}`],
  ];
  const differWords = line(2, 'text', 'bills_differ_words');
  const notCompared = line(1, 'text', 'bills_not_compared_words');
  const left = f`COUNTIFS(${all(state)},${`>${BILL_STATE.none}`},${all(state)},${`<${BILL_STATE.compared}`})`;
  const agree = f`IF(${compared}=1,"The bill agrees","All "&${compared}&" bills agree")&" with the readings within "&${money(BILL_SETTINGS.agreesWithin.cell)}&"."`;
  const differ = f`${differing}&" of "&${compared}&IF(${differing}=1," bills differs by "," bills differ, in all by ")&${money(inAll)}&IF(${differing}=1,": ","; the first: ")&INDEX(${all(tail)},MATCH(1,${all(differs)},0))&"."`;
  return [
    ...lines.flatMap(([{ place, style, name }, text, is]) => [
      formula(at(place.row), is, style, name === undefined ? {} : { name }),
      label(cellAt(BILL_COLUMN.firstWorked + 1, place.row), text, 'unitBeside'),
    ]),
    formula(at(2), f`IF(SUM(${differing})=0,"",${differ})`, 'text', { name: 'bills_differ_words' }),
    formula(
      at(1),
      f`IF(${left}=0,"",${left}&IF(${left}=1," bill can’t be compared: see its row."," bills can’t be compared: see their rows."))`,
      'text',
      { name: 'bills_not_compared_words' },
    ),
    formula(
      'A3',
      f`IF(${compared}=0,"",IF(${differing}=0,${agree},${differWords}))&IF(OR(${compared}=0,${notCompared}=""),""," ")&${notCompared}`,
      'verdict',
      {
        name: BILLS_WORDS_NAME,
        mergeTo: `${columnLetters(BILL_COLUMN.words)}3`,
      },
    ),
  ];
}

/** Bills as they were printed, each held against the readings of its days. */
export function billsSheet(book: Book, start: BillsCells): SheetModel {
  const columns = billColumns(book);
  const { worked } = columns;
  const numbers = Array.from({ length: BILL_FIELDS.length }, (_, i) => i + 1);
  const lastLetters = columnLetters(BILL_COLUMN.words);
  const { rounding, agreesWithin } = BILL_SETTINGS;
  const table = `A${FIRST_BILL_ROW}:${lastLetters}${LAST_BILL_ROW}`;
  const differs = `$${columns.differs.letters}${FIRST_BILL_ROW}`;
  return {
    name: SHEETS.bills,
    tab: 'input',
    widths: {
      ...Object.fromEntries(
        Array.from({ length: BILL_COLUMN.firstWorked - 1 }, (_, i) => [columnLetters(i + 1), 11]),
      ),
      ...Object.fromEntries(worked.map(({ letters, style }) => [letters, WIDTHS[style] ?? 11])),
      A: 5,
      D: 20,
      [lastLetters]: 74,
    },
    heights: { [HEADING_ROW]: 45, [HEADING_ROW + 1]: 26 },
    freeze: { columns: BILL_COLUMN.tariff, rows: FIRST_BILL_ROW - 1 },
    protected: true,
    landscape: true,
    printArea: `A1:${lastLetters}${LAST_BILL_ROW}`,
    printTitleRows: `${HEADING_ROW}:${HEADING_ROW + 1}`,
    cells: [
      ...sheetTop(
        'Bills',
        'Is the bill right? A row a bill, as printed; beside it what its days come to by the readings, as metered, at the rates of its tariff as they were.',
      ),
      ...summaryCells(columns),
      ...[rounding, agreesWithin].flatMap(({ spec, cell }) => [
        label(cellAt(2, cell.place.row), spec.label, 'label'),
        label(cellAt(cell.place.column + 1, cell.place.row), spec.unit, 'unitBeside'),
      ]),
      label(
        'A6',
        'Where rates change within a bill, type a row for each stretch. A bill’s own terms stand above these figures; estimated reads are put right by a later bill. Ask the supplier before you withhold a payment.',
        'hint',
      ),
      ...fieldPairs(BILLS, start).map(([field, value]) => fieldInput(field, value)),
      ...headings(worked),
      ...billFlagCells(),
    ],
    formulaColumns: worked.map(asColumn),
    inputColumns: [],
    valueColumns: [
      {
        letters: columnLetters(BILL_COLUMN.number),
        firstRow: FIRST_BILL_ROW,
        values: numbers,
        style: 'integer',
      },
    ],
    conditional: [
      { range: table, formula: `${differs}=1`, style: 'bad' },
      {
        range: `${columnLetters(BILL_COLUMN.words)}${FIRST_BILL_ROW}:${lastLetters}${LAST_BILL_ROW}`,
        formula: `${differs}=0`,
        style: 'good',
      },
    ],
  };
}
