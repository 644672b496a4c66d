import type { Node } from '../../../formula/nodes.js';
import { flagOf, HEATING_RULES } from '../../fields/heating-fields.js';
import type { Rule } from '../../fields/rule.js';
import { partLetters } from '../../layout.js';
import { formula, label } from '../cells.js';
import type { Cell } from '../sheet-model.js';

const own = (column: number): string => partLetters('heatingInputs', column);

/** Flags of one kind of input: they stand in a column of their own, in the rows of the inputs. */
interface Flags {
  letters: string;
  heading: string;
  /** Defined name of their sum. */
  name: string;
  /** What counts in a row. */
  rows: ReadonlyMap<number, Node>;
}

/** Row of the sums, above all flags. */
const SUM_ROW = 3;

/** The flags of rules, row by row. */
function rowsOf(rules: readonly (readonly Rule[])[]): Map<number, Node> {
  return new Map(
    rules.flatMap((ofRow): [number, Node][] => {
      const [first] = ofRow;
      return first === undefined ? [] : [[first.at.row, flagOf(ofRow)]];
    }),
  );
}

const FLAGS: readonly Flags[] = [
  {
    letters: own(12),
    heading: 'Settings',
    name: 'heating_settings_wrong',
    rows: rowsOf(HEATING_RULES.settings),
  },
  {
    letters: own(13),
    heading: 'Rates that changed',
    name: 'heating_rates_wrong',
    rows: rowsOf(HEATING_RULES.rates),
  },
  {
    letters: own(14),
    heading: 'Degree days, typed',
    name: 'typed_degree_days_wrong',
    rows: rowsOf(HEATING_RULES.monthDegreeDays),
  },
  { letters: own(15), heading: 'What if', name: 'what_if_wrong', rows: rowsOf(HEATING_RULES.sensitivity) },
  {
    letters: own(16),
    heading: 'Rates, by month',
    name: 'heating_rates_out_of_order',
    rows: rowsOf(HEATING_RULES.rateOrder),
  },
];

/** Letters of the columns of flags. */
export const FLAG_LETTERS: readonly string[] = FLAGS.map(({ letters }) => letters);

/** Beside the inputs of the heating sheets: how many of a row can't be used. Checks sums them. */
export function heatingFlagCells(): Cell[] {
  return [
    label(`${own(12)}1`, 'Flags: how many inputs of the row can’t be used', 'hint'),
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
