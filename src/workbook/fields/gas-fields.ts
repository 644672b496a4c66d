import type { GasDialUnit } from '../../heating/gas-volume-to-energy.js';
import { f, rowsDown } from '../book/terms.js';
import { FIRST_ROW, SHEETS } from '../layout.js';
import { choiceField, dateField, type FieldText, numberField } from './field.js';
import { type FieldColumn, fieldColumns, fieldRows, limitOfRows, type RowRule } from './field-column.js';

/** Stretches of last year's gas that the workbook holds: two years of months. */
export const GAS_ROWS = 24;
/** Units of a volume of gas. */
const GAS_UNITS = ['m3', 'ft3', '100ft3'] as const satisfies readonly GasDialUnit[];

const NUMBER_TO_DO = 'Type a number, 0 or more, or clear the cell.';

const day = (text: Pick<FieldText, 'label' | 'unit' | 'what'>) =>
  dateField({
    mayBeBlank: true,
    style: 'inputDate',
    hint: 'First and last day that the gas was used on; both count.',
    toDo: 'Give first and last day; both count.',
    ...text,
  });
const amount = (text: Pick<FieldText, 'label' | 'unit' | 'title' | 'hint' | 'what'>) =>
  numberField({ from: 0, to: 1e9, mayBeBlank: true, style: 'inputNumber', toDo: NUMBER_TO_DO, ...text });

/** What is typed of each stretch of gas. */
export const GAS_COLUMNS = fieldColumns({ sheet: SHEETS.gas, row: FIRST_ROW, column: 1 }, GAS_ROWS, {
  firstDay: day({ label: 'First day', unit: 'date', what: 'the first day' }),
  lastDay: day({ label: 'Last day', unit: 'date, counts too', what: 'the last day' }),
  kwh: amount({
    label: 'Gas energy',
    unit: 'kWh',
    title: 'Gas',
    hint: 'From the bill; it goes before a volume.',
    what: 'the gas',
  }),
  volume: amount({
    label: 'or gas volume',
    unit: 'unit of the next column',
    title: 'Gas volume',
    hint: 'Difference of two readings of the meter.',
    what: 'the gas volume',
  }),
  volumeUnit: choiceField({
    choices: GAS_UNITS,
    mayBeBlank: true,
    label: 'Unit of volume',
    unit: 'blank: m3',
    style: 'inputChoice',
    hint: 'm3: metric meter. ft3 or 100ft3: imperial meter; many count hundreds of cubic feet.',
    toDo: 'Choose m3, ft3 or 100ft3.',
  }),
  calorificValue: numberField({
    from: 20,
    to: 130,
    mayBeBlank: true,
    label: 'Calorific value',
    unit: 'MJ/m³, may stay blank',
    style: 'inputNumber',
    hint: 'From the bill, about 39; blank: that on Heating.',
    what: 'the calorific value',
    toDo: 'Give MJ/m³ from the bill, 20 to 130 (mains gas about 39), or clear the cell.',
  }),
  degreeDays: amount({
    label: 'Degree days',
    unit: '°C·day, may stay blank',
    title: 'Degree days',
    hint: 'Of those days, at the base typed on Heating; blank: from temperatures.',
    what: 'the degree days figure',
  }),
});
/** The fields of every stretch. */
export const GAS_FIELDS = fieldRows(GAS_COLUMNS);

const { firstDay, lastDay, kwh, volume, volumeUnit, calorificValue, degreeDays } = GAS_COLUMNS;
/** Unit and calorific value alone say nothing yet. */
const isTyped = f`COUNTA(${firstDay.column},${lastDay.column},${kwh.column},${volume.column},${degreeDays.column})>0`;
const missing = (of: FieldColumn): RowRule => ({
  of,
  is: f`IF(AND(${isTyped},ISBLANK(${of.column})),1,0)`,
  refusal: { found: 'the gas has no date here', whatToDo: of.spec.toDo ?? '' },
});
const lastAbove = rowsDown(lastDay.column, -1);

/** What a stretch of gas has to keep to, by what its flags are about. */
export const GAS_RULES = {
  dates: [
    limitOfRows(firstDay),
    limitOfRows(lastDay),
    {
      of: lastDay,
      is: f`IF(COUNT(${firstDay.column},${lastDay.column})<2,0,IF(INT(${lastDay.column})<INT(${firstDay.column}),1,0))`,
      refusal: { found: 'the last day is before the first', whatToDo: 'Swap the two.' },
    },
  ],
  amounts: [limitOfRows(kwh), limitOfRows(volume)],
  missing: [
    missing(firstDay),
    missing(lastDay),
    {
      of: kwh,
      is: f`IF(AND(${isTyped},COUNTA(${kwh.column},${volume.column})=0),1,0)`,
      refusal: { found: 'the row has no gas', whatToDo: 'Give kWh, or a volume with its unit.' },
    },
  ],
  others: [limitOfRows(volumeUnit), limitOfRows(calorificValue), limitOfRows(degreeDays)],
  order: [
    {
      of: firstDay,
      is: f`IF(AND(ISNUMBER(${firstDay.column}),ISNUMBER(${lastAbove})),IF(${firstDay.column}<=${lastAbove},1,0),0)`,
      refusal: {
        found: 'the row begins before the one above has ended',
        whatToDo: 'List the gas oldest first, without an overlap.',
      },
    },
  ],
} as const satisfies Record<string, readonly RowRule[]>;
/** Every rule, in the order in which a row is looked at. */
export const ALL_GAS_RULES: readonly RowRule[] = Object.values(GAS_RULES).flat();
