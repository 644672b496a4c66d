import { fieldPairs } from '../fields/field.js';
import { HOME_FIELDS, type HomeKey } from '../fields/home-fields.js';
import { TOLD, TOLD_KEYS, type ToldKey } from '../fields/told-places.js';
import type { HomeCells } from '../inputs/workbook-inputs.js';
import { SHEETS } from '../layout.js';
import { input, label } from './cells.js';
import { sheetTop } from './column-headers.js';
import { fieldInput } from './field-input.js';
import type { Cell, SheetModel } from './sheet-model.js';

/** What to know about each, right of it. */
const HINTS: Readonly<Record<HomeKey, string>> = {
  timeZone: 'The fill writes the clock changes of this zone; by hand, keep it as it is.',
  vatShare:
    'Added to rates that are typed without VAT. UK domestic fuel and power: 5 % (HMRC VAT Notice 701/19).',
  currency: 'Stands in every label and sentence.',
  minorUnit: 'Rates are typed in it: p, ct, ¢ …',
  largestHalfHourKwh:
    'Readings above it are counted in Checks as outliers; a 100 A single-phase supply carries about 11.5 kWh (230 V, arithmetic).',
  batteryRan:
    'If yes, the battery in and battery out columns of Readings are needed to compare tariffs fairly.',
};

const TOLD_HEADS: Readonly<Record<ToldKey, string>> = {
  columns: 'Columns of the file',
  kind: 'Files of',
  name: 'Called',
  answer: 'What was said',
  toldFor: 'First said of',
};

/** Defined name of the last row's first cell. */
const LAST_TOLD = 'last_told_file';
const TOLD_RULE = {
  kind: 'any',
  title: 'What files were told',
  message: 'Written by the fill. Clear a row, and the next file of that shape is asked about again.',
} as const;

/** What files were told: written by the fill, and read by the next. */
function toldCells(): Cell[] {
  const rows = Array.from({ length: TOLD.rows }, (_, i) => TOLD.firstRow + i);
  return [
    label(`B${TOLD.headRow - 3}`, 'What files were told', 'section'),
    label(
      `B${TOLD.headRow - 2}`,
      'A fill keeps here what was said of a file, and uses it for the next file of that shape. To forget an answer, clear its row.',
      'hint',
    ),
    ...TOLD_KEYS.map((key) => label(`${TOLD.letters[key]}${TOLD.headRow}`, TOLD_HEADS[key], 'headerLeft')),
    ...rows.flatMap((row) =>
      TOLD_KEYS.map((key) => {
        // By its name it is seen that a row was put in or taken out above.
        const isLast = row === rows.at(-1) && key === TOLD_KEYS[0];
        return input(
          `${TOLD.letters[key]}${row}`,
          null,
          'inputText',
          TOLD_RULE,
          isLast ? { name: LAST_TOLD } : {},
        );
      }),
    ),
  ];
}

/** Facts of the home that hold for every tariff. */
export function homeSheet(start: HomeCells): SheetModel {
  const keys = Object.keys(HOME_FIELDS) as HomeKey[];
  return {
    name: SHEETS.home,
    tab: 'input',
    widths: { A: 3, B: 44, C: 18, D: 14, E: 70, F: 26 },
    freeze: { columns: 0, rows: 2 },
    protected: false,
    landscape: true,
    cells: [
      ...sheetTop('Home', 'Facts that hold for every tariff. Framed cells are yours to change.'),
      label('B3', 'General', 'section'),
      ...fieldPairs(HOME_FIELDS, start).map(([field, value]) => fieldInput(field, value)),
      ...keys.flatMap((key) => {
        const { spec, cell } = HOME_FIELDS[key];
        const { row } = cell.place;
        return [
          label(`B${row}`, spec.label, 'label'),
          label(`D${row}`, spec.unit, 'unit'),
          label(`E${row}`, HINTS[key], 'hint'),
        ];
      }),
      ...toldCells(),
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [],
  };
}
