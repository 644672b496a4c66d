import type { Node } from '../../formula/nodes.js';
import { SENSITIVITY_ROWS } from '../../heating/comparison/sensitivity-lines.js';
import { call, f, joined } from '../book/terms.js';
import { FIRST_COLUMN, SHEETS } from '../layout.js';
import { dateField, type Field, type FieldText, fieldsAcross, numberField } from './field.js';
import { SETTING_FIELDS, SETTINGS_FIRST_ROW } from './heating-settings.js';
import { limitRule, type Rule } from './rule.js';

/** Sets of heating rates, each from a month on. */
export const HEATING_RATE_ROWS = 8;
/** Months whose degree days can be typed. */
export const DEGREE_DAY_ROWS = 15;

/** Column of the first table, right of the settings. */
const TABLE_COLUMN = FIRST_COLUMN.heatingInputs + 6;
/** Row of the heading of the rates, then of the other two tables; what they hold begins three rows below. */
export const TABLE_HEADING_ROW = {
  rates: SETTINGS_FIRST_ROW,
  others: SETTINGS_FIRST_ROW + 3 + HEATING_RATE_ROWS + 1,
} as const;
const HEADING_ROWS = 3;

const month = (text: Pick<FieldText, 'label' | 'unit' | 'title' | 'what'>) =>
  dateField({ mayBeBlank: true, style: 'inputMonth', hint: 'Any day of the month.', ...text });
const rate = (text: Pick<FieldText, 'label' | 'unit' | 'what'>) =>
  numberField({
    from: 0,
    mayBeBlank: true,
    style: 'inputRate',
    title: 'Rate',
    hint: 'With VAT. Blank: the rate for all months, on the left.',
    toDo: 'Type a number, 0 or more, or clear the cell.',
    ...text,
  });

const RATES = {
  from: month({ label: 'From', unit: 'month', title: 'From month', what: 'the month' }),
  gasRate: rate({ label: 'Gas', unit: '{minor}/kWh', what: 'the gas rate' }),
  gasStanding: rate({ label: 'Gas standing', unit: '{minor}/day', what: 'the gas standing charge' }),
  singleRate: rate({ label: 'Single rate', unit: '{minor}/kWh', what: 'the single rate' }),
} as const;
const DEGREE_DAYS = {
  month: month({ label: 'Month', unit: 'any day of it', what: 'the month' }),
  degreeDays: numberField({
    from: 0,
    mayBeBlank: true,
    label: 'Degree days',
    unit: '°C·day',
    style: 'inputNumber',
    hint: 'Of the whole month, at the base on the left; they go before temperatures.',
    what: 'the degree days figure',
    toDo: 'Type a number, 0 or more, or clear the cell.',
  }),
} as const;

const SENSITIVITY_STYLES = {
  'boiler efficiency': 'inputPercent',
  'gas rate': 'inputFine',
  COP: 'inputFine',
} as const;
const whatIf = (kind: string) =>
  numberField({
    above: 0,
    to: 1000,
    label: 'Set to',
    unit: 'above 0',
    style: SENSITIVITY_STYLES[kind as keyof typeof SENSITIVITY_STYLES],
    title: 'What if',
    hint: 'A figure above 0.',
    what: 'the what-if figure',
    toDo: 'Type a number above 0, at most 1000.',
  });

const at = (row: number, column: number) => ({ sheet: SHEETS.heatingInputs, row, column });
const { rates: ratesRow, others: othersRow } = TABLE_HEADING_ROW;

/** The tables right of the settings, row by row. */
export const HEATING_TABLES = {
  rates: Array.from({ length: HEATING_RATE_ROWS }, (_, i) =>
    fieldsAcross(at(ratesRow + HEADING_ROWS + i, TABLE_COLUMN), RATES),
  ),
  monthDegreeDays: Array.from({ length: DEGREE_DAY_ROWS }, (_, i) =>
    fieldsAcross(at(othersRow + HEADING_ROWS + i, TABLE_COLUMN), DEGREE_DAYS),
  ),
  // The kind of figure stands in the column before.
  sensitivity: SENSITIVITY_ROWS.map(
    ({ sensitivityKind }, i) =>
      fieldsAcross(at(othersRow + HEADING_ROWS + i, TABLE_COLUMN + 3), { value: whatIf(sensitivityKind) })
        .value,
  ),
} as const;

const broken = (field: Field, is: Node, found: string, whatToDo: string): Rule => ({
  at: field.cell.place,
  is,
  refusal: () => ({ found, whatToDo }),
});
const countOf = (fields: readonly Field[]): Node =>
  call(
    'COUNTA',
    fields.map(({ cell }) => cell),
  );

function rateRules(i: number): Rule[] {
  const row = HEATING_TABLES.rates[i];
  if (row === undefined) return [];
  const { from, gasRate, gasStanding, singleRate } = row;
  return [gasRate, gasStanding, singleRate, from].map((field) => limitRule(field));
}

/** That a set of rates has a month, after that of the set before. */
function rateOrderRules(i: number): Rule[] {
  const row = HEATING_TABLES.rates[i];
  if (row === undefined) return [];
  const { from, gasRate, gasStanding, singleRate } = row;
  const rates = [gasRate, gasStanding, singleRate];
  const before = HEATING_TABLES.rates[i - 1]?.from;
  return [
    broken(
      from,
      f`IF(AND(ISBLANK(${from.cell}),${countOf(rates)}>0),1,0)`,
      'the rates have no month',
      'Type the month from which they hold.',
    ),
    ...(before === undefined
      ? []
      : [
          broken(
            from,
            f`IF(ISNUMBER(${from.cell}),IF(ISNUMBER(${before.cell}),IF(${from.cell}<=${before.cell},1,0),1),0)`,
            'the sets of rates are out of order',
            'List them oldest first, without a gap.',
          ),
        ]),
  ];
}

function degreeDayRules(i: number): Rule[] {
  const row = HEATING_TABLES.monthDegreeDays[i];
  if (row === undefined) return [];
  const { month: day, degreeDays } = row;
  return [
    limitRule(day),
    limitRule(degreeDays),
    broken(
      day,
      f`IF(COUNTA(${day.cell})<COUNTA(${degreeDays.cell}),1,0)`,
      'the degree days have no month',
      'Type any day of the month.',
    ),
    broken(
      degreeDays,
      f`IF(COUNTA(${degreeDays.cell})<COUNTA(${day.cell}),1,0)`,
      'the degree days are missing',
      'Type them.',
    ),
  ];
}

/** The rules of the heating sheets' inputs, row by row, each with its flag. */
export const HEATING_RULES = {
  settings: Object.values(SETTING_FIELDS).map((field) => [limitRule(field)]),
  rates: HEATING_TABLES.rates.map((_, i) => rateRules(i)),
  rateOrder: HEATING_TABLES.rates.map((_, i) => rateOrderRules(i)),
  monthDegreeDays: HEATING_TABLES.monthDegreeDays.map((_, i) => degreeDayRules(i)),
  sensitivity: HEATING_TABLES.sensitivity.map((field) => [limitRule(field)]),
} as const;

/** That the estimates agree at less than they disagree at. */
export const SHARES_RULE: Rule = broken(
  settingField('disagreeBeyondShare'),
  f`IF(SUM(${settingField('disagreeBeyondShare').cell})<SUM(${settingField('agreeWithinShare').cell}),1,0)`,
  'the estimates would disagree at a smaller share than they agree at',
  'Put the two shares in order.',
);

/** That what nobody measured is at least no more than it is at most. */
export const RANGE_RULES: readonly Rule[] = [
  rangeRule('leastEfficiency', 'mostEfficiency', 'efficiency'),
  rangeRule('leastHotWaterKwhPerDay', 'mostHotWaterKwhPerDay', 'hot water'),
];

function rangeRule(leastKey: string, mostKey: string, what: string): Rule {
  const [least, most] = [settingField(leastKey), settingField(mostKey)];
  return broken(
    most,
    f`IF(SUM(${most.cell})<SUM(${least.cell}),1,0)`,
    `the ${what} at most is less than the ${what} at least`,
    'Swap the two.',
  );
}

function settingField(key: string): Field {
  const field = SETTING_FIELDS[key];
  if (field === undefined) throw new RangeError(`no heating setting is called ${key}`);
  return field;
}

/** How often the inputs of a row can't be used. */
export function flagOf(rules: readonly Rule[]): Node {
  return joined(
    '+',
    rules.map(({ is }) => is),
  );
}
