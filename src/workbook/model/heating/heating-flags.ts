import { DEGREE_DAY_ROWS, HEATING_RATE_ROWS } from '../../inputs/heating-cells.js';
import { formula, label, quoted } from '../cells.js';
import type { Cell } from '../sheet-model.js';
import { figureName, TARIFF_PLACE } from './heating-figures-rows.js';
import {
  DEGREE_DAY_TABLE as D,
  RATES_TABLE as R,
  SENSITIVITY_TABLE as S,
  SENSITIVITY_COUNT,
  settingCell,
} from './heating-rows.js';
import { type PlacedSetting, SETTINGS } from './heating-settings.js';

/** Flags of one kind of input: they stand in a column of their own, in the rows of the inputs. */
interface Flags {
  letters: string;
  heading: string;
  /** Defined name of their sum. */
  name: string;
  /** What counts in a row. */
  rows: ReadonlyMap<number, string>;
}

/** Row of the sums, above all flags. */
const SUM_ROW = 3;

function ofRows(first: number, count: number, formulaOf: (row: number) => string): Map<number, string> {
  return new Map(Array.from({ length: count }, (_, i) => [first + i, formulaOf(first + i)]));
}

function wrongSetting({ input }: PlacedSetting): string {
  const cell = settingCell(input.key);
  if (input.key === TARIFF_PLACE) {
    return `IF(ISBLANK(${cell}),0,IF(${figureName(TARIFF_PLACE)}=0,1,0))`;
  }
  if (input.choices !== undefined) {
    return `IF(OR(${input.choices.map((choice) => `${cell}=${quoted(choice)}`).join(',')}),0,1)`;
  }
  const limits = [
    ...(input.min === undefined ? [] : [`${cell}>=${input.min}`]),
    ...(input.max === undefined ? [] : [`${cell}<=${input.max}`]),
  ];
  const inside = limits.length === 0 ? '0' : `IF(AND(${limits.join(',')}),0,1)`;
  const blank = input.optional === true ? `IF(ISBLANK(${cell}),0,1)` : '1';
  return `IF(ISNUMBER(${cell}),${inside},${blank})`;
}

/** A set of rates out of order or without a month, and its rates that are no numbers or below 0. */
function wrongRates(row: number): string {
  const [from, above] = [`$${R.from}${row}`, `$${R.from}${row - 1}`];
  const rates = `$${R.gasRate}${row}:$${R.singleRate}${row}`;
  const inOrder =
    row === R.first ? '' : `IF(AND(ISNUMBER(${from}),OR(NOT(ISNUMBER(${above})),${from}<=${above})),1,0)+`;
  return (
    `${inOrder}IF(AND(NOT(ISNUMBER(${from})),COUNTA($${R.from}${row}:$${R.singleRate}${row})>0),1,0)` +
    `+COUNTA(${rates})-COUNT(${rates})+COUNTIFS(${rates},"<0")`
  );
}

function wrongDegreeDays(row: number): string {
  const [month, degreeDays] = [`$${D.month}${row}`, `$${D.degreeDays}${row}`];
  const pair = `${month}:${degreeDays}`;
  return `IF(AND(COUNTA(${pair})>0,COUNT(${pair})<2),1,0)+COUNTIFS(${degreeDays},"<0")`;
}

const FLAGS: readonly Flags[] = [
  {
    letters: 'L',
    heading: 'Settings',
    name: 'heating_settings_wrong',
    rows: new Map(SETTINGS.map((setting) => [setting.row, wrongSetting(setting)])),
  },
  {
    letters: 'M',
    heading: 'Rates that changed',
    name: 'heating_rates_wrong',
    rows: ofRows(R.first, HEATING_RATE_ROWS, wrongRates),
  },
  {
    letters: 'N',
    heading: 'Degree days, typed',
    name: 'typed_degree_days_wrong',
    rows: ofRows(D.first, DEGREE_DAY_ROWS, wrongDegreeDays),
  },
  {
    letters: 'O',
    heading: 'What if',
    name: 'what_if_wrong',
    rows: ofRows(S.first, SENSITIVITY_COUNT, (row) => `1-COUNTIFS($${S.value}${row},">0")`),
  },
];

/** Letters of the columns of flags. */
export const FLAG_LETTERS: readonly string[] = FLAGS.map(({ letters }) => letters);

/** Beside the inputs of the heating sheets: how many of a row can't be used. Checks sums them. */
export function heatingFlagCells(): Cell[] {
  return [
    label('L1', 'Flags: how many inputs of the row can’t be used', 'hint'),
    ...FLAGS.flatMap(({ letters, heading, name, rows }) => [
      label(`${letters}2`, heading, 'header'),
      formula(
        `${letters}${SUM_ROW}`,
        `SUM(${letters}${SUM_ROW + 1}:${letters}${Math.max(...rows.keys())})`,
        'integer',
        { name },
      ),
      ...[...rows].map(([row, text]) => formula(`${letters}${row}`, text, 'integer')),
    ]),
  ];
}
