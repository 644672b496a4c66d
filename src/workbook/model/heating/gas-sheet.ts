import type { GasCells, HeatingCells } from '../../inputs/heating-cells.js';
import { FIRST_ROW, SEED_ROW, SHEETS } from '../../layout.js';
import type { StyleName } from '../../look/styles.js';
import type { Book } from '../book.js';
import { input, label } from '../cells.js';
import { columnHeaders, sheetTop } from '../column-headers.js';
import { UNPROTECTED } from '../protection-words.js';
import type { Cell, InputRule, SheetModel } from '../sheet-model.js';
import { gasColumns } from './gas-columns.js';
import { GAS } from './heating-rows.js';

const day = (title: string): InputRule => ({
  kind: 'date',
  minimum: 32_874,
  maximum: 73_050,
  title,
  message: 'First and last day that the gas was used on; both count.',
});
const number = (title: string, message: string): InputRule => ({
  kind: 'number',
  minimum: 0,
  maximum: 1e9,
  title,
  message,
});

const COLUMNS: readonly {
  key: keyof GasCells;
  text: string;
  unit: string;
  style: StyleName;
  rule: InputRule;
}[] = [
  { key: 'firstDay', text: 'First day', unit: 'date', style: 'inputDate', rule: day('First day') },
  { key: 'lastDay', text: 'Last day', unit: 'date, counts too', style: 'inputDate', rule: day('Last day') },
  {
    key: 'kwh',
    text: 'Gas energy',
    unit: 'kWh',
    style: 'inputNumber',
    rule: number('Gas', 'From the bill; it goes before a volume.'),
  },
  {
    key: 'volume',
    text: 'or gas volume',
    unit: 'unit of the next column',
    style: 'inputNumber',
    rule: number('Gas volume', 'Difference of two readings of the meter.'),
  },
  {
    key: 'volumeUnit',
    text: 'Unit of volume',
    unit: 'blank: m3',
    style: 'inputChoice',
    rule: {
      kind: 'list',
      choices: ['m3', 'ft3', '100ft3'],
      title: 'Unit of volume',
      message: 'm3: metric meter. ft3 or 100ft3: imperial meter; many count hundreds of cubic feet.',
    },
  },
  {
    key: 'calorificValue',
    text: 'Calorific value',
    unit: 'MJ/m³, may stay blank',
    style: 'inputNumber',
    rule: {
      ...number('Calorific value', 'From the bill, about 39; blank: that of Heating inputs.'),
      minimum: 20,
      maximum: 60,
    },
  },
  {
    key: 'degreeDays',
    text: 'Degree days',
    unit: '°C·day, may stay blank',
    style: 'inputNumber',
    rule: number('Degree days', 'Of those days, at the base of Heating inputs; blank: from temperatures.'),
  },
];

/** Last year's gas: what was metered, and what the comparison takes of it. */
export function gasSheet(book: Book, start: HeatingCells): SheetModel {
  const worked = gasColumns(book);
  const heads: Cell[] = COLUMNS.flatMap(({ key, text, unit }) => [
    label(`${GAS[key]}${FIRST_ROW - 3}`, text, 'header'),
    label(`${GAS[key]}${FIRST_ROW - 2}`, unit, 'headerUnit'),
  ]);
  return {
    name: SHEETS.gas,
    tab: 'input',
    widths: {
      ...Object.fromEntries([...'ABCDEFGHIJLMNOPQRSTUVWXY'].map((letters) => [letters, 13])),
      K: 16,
    },
    heights: { [FIRST_ROW - 3]: 32, [FIRST_ROW - 2]: 26 },
    freeze: { columns: 0, rows: SEED_ROW },
    protected: false,
    landscape: true,
    cells: [
      ...sheetTop(
        'Gas',
        'The gas of the last year with the boiler, a row a month or other stretch of about that length. Type it from bills, or let the fill do it: --gas.',
      ),
      label(
        'A3',
        'Degree days come from the temperatures of those days unless they are typed. What was understood stands on the right.',
        'hint',
      ),
      label('A4', UNPROTECTED, 'hint'),
      ...heads,
      ...columnHeaders(worked),
      ...start.gas.flatMap((row, i) =>
        COLUMNS.map(({ key, style, rule }) => input(`${GAS[key]}${FIRST_ROW + i}`, row[key], style, rule)),
      ),
    ],
    formulaColumns: worked,
    inputColumns: [],
    conditional: [],
  };
}
