import { SENSITIVITY_ROWS } from '../../../heating/comparison/sensitivity-lines.js';
import { cellAt } from '../../cell-address.js';
import { type Field, fieldPairs, listFields } from '../../fields/field.js';
import { HEATING_TABLES } from '../../fields/heating-fields.js';
import { SETTING_FIELDS, SETTING_SECTIONS, SETTINGS } from '../../fields/heating-settings.js';
import type { HeatingCells } from '../../inputs/heating-cells.js';
import { partLetters, SHEETS } from '../../layout.js';
import type { Book } from '../book.js';
import { label } from '../cells.js';
import { sheetTop } from '../column-headers.js';
import { fieldInput } from '../field-input.js';
import type { Cell, SheetModel } from '../sheet-model.js';
import { FLAG_LETTERS, heatingFlagCells } from './heating-flags.js';
import { SENSITIVITY_TABLE } from './heating-rows.js';
import { unitOf } from './line-looks.js';

const own = (column: number): string => partLetters('heatingInputs', column);

function settingCells(start: HeatingCells): Cell[] {
  const inputs = fieldPairs(SETTING_FIELDS, start.settings).map(([field, value]) => fieldInput(field, value));
  return [
    ...inputs,
    ...SETTING_SECTIONS.flatMap(({ title, row: heading, settings }) => [
      ...[2, 3, 4, 5].map((column) =>
        label(`${own(column)}${heading}`, column === 2 ? title : '', 'section'),
      ),
      ...settings.flatMap(({ input: setting, row }) => [
        label(`${own(2)}${row}`, setting.label, 'label'),
        label(`${own(4)}${row}`, unitOf(setting), 'unit'),
        label(`${own(5)}${row}`, setting.description, 'hintWrap'),
      ]),
    ]),
  ];
}

/** Heading, labels and units of a table of fields: those of its first row. */
function tableHead(title: string, first: readonly Field[]): Cell[] {
  return first.flatMap(({ cell, spec }, i) => {
    const { row, column } = cell.place;
    return [
      label(cellAt(column, row - 3), i === 0 ? title : '', 'section'),
      label(cellAt(column, row - 2), spec.label, 'header'),
      label(cellAt(column, row - 1), spec.unit, 'headerUnit'),
    ];
  });
}

function tableCells(start: HeatingCells): Cell[] {
  const { rates, monthDegreeDays, sensitivity } = HEATING_TABLES;
  return [
    ...tableHead('Rates that changed, oldest first', listFields(rates[0])),
    ...tableHead('Degree days, typed', listFields(monthDegreeDays[0])),
    ...[
      ...fieldPairs(rates, start.rates),
      ...fieldPairs(monthDegreeDays, start.monthDegreeDays),
      ...fieldPairs(sensitivity, start.sensitivity),
    ].map(([field, value]) => fieldInput(field, value)),
  ];
}

const SENSITIVITY_TEXTS: Readonly<Record<string, string>> = {
  'boiler efficiency': 'Boiler efficiency',
  'gas rate': 'Gas rate, times today’s',
  COP: 'COP',
};
export const sensitivityText = (kind: string): string => SENSITIVITY_TEXTS[kind] ?? kind;

function sensitivityCells(): Cell[] {
  const { heading, first, kind, value } = SENSITIVITY_TABLE;
  const [field] = HEATING_TABLES.sensitivity;
  return [
    label(`${kind}${heading}`, 'What if', 'section'),
    label(`${value}${heading}`, '', 'section'),
    label(`${kind}${first - 2}`, 'Changed figure', 'header'),
    label(`${kind}${first - 1}`, 'shown on the left', 'headerUnit'),
    label(`${value}${first - 2}`, field?.spec.label ?? '', 'header'),
    label(`${value}${first - 1}`, field?.spec.unit ?? '', 'headerUnit'),
    ...SENSITIVITY_ROWS.map(({ sensitivityKind }, i) =>
      label(`${kind}${first + i}`, sensitivityKind, 'label'),
    ),
  ];
}

/** Of the columns, from the first: labels, settings, units and what they are; then the tables. */
const WIDTHS = [3, 34, 17, 17, 118, 3, 14, 13, 17, 13, 3];

/** Last row of the settings, below the tables. */
const LAST_ROW = Math.max(...SETTINGS.map(({ row }) => row));
/** Characters of a description that fit on one line. */
const ONE_LINE = 175;

/** What the comparison takes in beside readings, gas and temperatures: right of its results. */
export function heatingInputsSheet(_book: Book, start: HeatingCells): SheetModel {
  return {
    name: SHEETS.heatingInputs,
    tab: 'input',
    widths: {
      ...Object.fromEntries(WIDTHS.map((width, i) => [own(1 + i), width])),
      ...Object.fromEntries(FLAG_LETTERS.map((letters) => [letters, 12])),
    },
    heights: Object.fromEntries(
      SETTINGS.filter(({ input: { description } }) => description.length > ONE_LINE).map(({ row }) => [
        row,
        26,
      ]),
    ),
    freeze: { columns: 0, rows: 2 },
    protected: true,
    landscape: true,
    printArea: `${own(1)}1:${own(WIDTHS.length)}${LAST_ROW}`,
    cells: [
      ...sheetTop(
        'What the comparison rests on',
        `Framed cells are yours to change; gas and temperatures stand on ${SHEETS.gas}.`,
        own(1),
      ),
      ...settingCells(start),
      ...tableCells(start),
      ...sensitivityCells(),
      ...heatingFlagCells(),
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [],
  };
}
