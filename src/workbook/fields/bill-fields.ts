import { areaReference } from '../book/terms.js';
import { SHEETS } from '../layout.js';
import {
  choiceField,
  dateField,
  Field,
  type FieldSpec,
  type FieldText,
  fieldsDown,
  listedField,
  numberField,
} from './field.js';
import { TARIFF_NAMES } from './tariff-places.js';

/** Bills that the workbook holds. */
export const BILL_ROWS = 24;
/** Rates that a bill prints at most: the base rate, that of window 1, and every other. */
export const BILL_RATES = 3;
export const FIRST_BILL_ROW = 10;
export const LAST_BILL_ROW = FIRST_BILL_ROW + BILL_ROWS - 1;

/** Where rounding happens on a bill. */
export const BILL_ROUNDING = { line: 'each line', total: 'total only' } as const;
/** How the registers were read. */
export const READS = { read: 'read', estimated: 'estimated' } as const;

/** How bills are held against the readings. */
export const BILL_SETTINGS = fieldsDown(
  { sheet: SHEETS.bills, row: 4, column: 5 },
  {
    rounding: choiceField({
      choices: Object.values(BILL_ROUNDING),
      mayBeBlank: true,
      label: 'Bills round',
      unit: 'choice',
      style: 'inputChoice',
      hint: 'each line: every line to the hundredth, then the sum. total only: the sum alone. Blank: each line.',
      what: 'where bills round',
      name: 'bills_round',
    }),
    agreesWithin: numberField({
      from: 0,
      to: 1000,
      mayBeBlank: true,
      label: 'A bill agrees within',
      unit: '{major}',
      style: 'inputMoney',
      hint: 'Rates and kWh are printed rounded: a difference up to this is none. Blank: 0.',
      what: 'the difference that is none',
      name: 'bills_agree_within',
    }),
  },
);

const day = (text: Pick<FieldText, 'label' | 'unit' | 'what' | 'hint'>): FieldSpec =>
  dateField({ whole: true, mayBeBlank: true, style: 'inputDate', ...text });
const kwh = (text: Pick<FieldText, 'label' | 'hint' | 'what'>): FieldSpec =>
  numberField({ from: 0, to: 1_000_000, mayBeBlank: true, unit: 'kWh', style: 'inputNumber', ...text });
const rate = (text: Pick<FieldText, 'label' | 'unit' | 'hint' | 'what'>): FieldSpec =>
  numberField({ from: -1000, to: 1000, mayBeBlank: true, style: 'inputRate', ...text });
const register = (text: Pick<FieldText, 'label' | 'what'>): FieldSpec =>
  numberField({
    from: 0,
    to: 1_000_000_000,
    mayBeBlank: true,
    unit: 'kWh on the register',
    style: 'inputNumber',
    hint: 'As printed. Where the register went past its last figure and began again, add that round to the closing read.',
    ...text,
  });
const money = (text: Pick<FieldText, 'label' | 'hint' | 'what'>): FieldSpec =>
  numberField({
    from: -1_000_000,
    to: 1_000_000,
    mayBeBlank: true,
    unit: '{major}',
    style: 'inputMoney',
    ...text,
  });

/** What each rate of a bill is, in the order of its lines. */
export const RATE_WORDS = ['the base rate', 'the rate of window 1', 'every other rate'] as const;

/** The columns of a bill: letters' numbers by key. */
export const BILL_COLUMN = {
  number: 1,
  from: 2,
  to: 3,
  tariff: 4,
  total: 5,
  ownTotal: 6,
  difference: 7,
  words: 8,
  kwh: 9,
  rate: 12,
  standing: 15,
  days: 16,
  vat: 17,
  exportKwh: 18,
  exportRate: 19,
  reads: 20,
  opening: 21,
  firstWorked: 27,
} as const;

function billFields(index: number) {
  const field = (column: number, spec: FieldSpec): Field =>
    new Field(spec, { sheet: SHEETS.bills, row: FIRST_BILL_ROW + index, column });
  const C = BILL_COLUMN;
  return {
    from: field(
      C.from,
      day({ label: 'From', unit: 'first day', what: 'the first day', hint: 'First day that it charges.' }),
    ),
    to: field(
      C.to,
      day({
        label: 'To',
        unit: 'last day',
        what: 'the last day',
        hint: 'Last day that it charges; it counts too.',
      }),
    ),
    tariff: field(
      C.tariff,
      listedField({
        list: TARIFF_NAMES,
        mayBeBlank: true,
        label: 'Tariff',
        unit: 'of Tariffs',
        style: 'inputName',
        hint: 'The tariff of these days, by its name on Tariffs. Where rates change within a bill, type a row for each stretch.',
        what: 'the tariff of the bill',
      }),
    ),
    total: field(
      C.total,
      money({
        label: 'Total billed',
        what: 'the total billed',
        hint: 'Of these days, with VAT, less export: without what was carried forward or paid.',
      }),
    ),
    lines: RATE_WORDS.map((words, k) => ({
      kwh: field(
        C.kwh + k,
        kwh({
          label: `Billed at rate ${k + 1}`,
          what: `the kWh at rate ${k + 1}`,
          hint: `kWh at ${words}. Blank: closing less opening register.`,
        }),
      ),
      rate: field(
        C.rate + k,
        rate({
          label: `Rate ${k + 1}`,
          unit: '{minor}/kWh',
          what: `rate ${k + 1}`,
          hint: `As printed: ${words}. With VAT where the VAT of this row stays blank.`,
        }),
      ),
      opening: field(
        C.opening + 2 * k,
        register({ label: `Opening, rate ${k + 1}`, what: `the opening register of rate ${k + 1}` }),
      ),
      closing: field(
        C.opening + 2 * k + 1,
        register({ label: `Closing, rate ${k + 1}`, what: `the closing register of rate ${k + 1}` }),
      ),
    })),
    standing: field(
      C.standing,
      rate({
        label: 'Standing charge',
        unit: '{minor}/day',
        what: 'the standing charge',
        hint: 'A day, as printed; 0 where there is none.',
      }),
    ),
    days: field(
      C.days,
      numberField({
        from: 0,
        to: 1000,
        mayBeBlank: true,
        label: 'Days charged',
        unit: 'blank: as the dates',
        style: 'inputNumber',
        hint: 'Days of standing charge as printed.',
        what: 'the days charged',
      }),
    ),
    vat: field(
      C.vat,
      money({
        label: 'VAT',
        what: 'the VAT',
        hint: 'Where it is a line of its own: then rates and standing charge are without it. Blank: they hold it.',
      }),
    ),
    exportKwh: field(
      C.exportKwh,
      kwh({ label: 'Export', what: 'the export', hint: 'kWh paid for on this bill; blank: none on it.' }),
    ),
    exportRate: field(
      C.exportRate,
      rate({
        label: 'Export rate',
        unit: '{minor}/kWh',
        what: 'the export rate',
        hint: 'It carries no VAT.',
      }),
    ),
    reads: field(
      C.reads,
      choiceField({
        choices: Object.values(READS),
        mayBeBlank: true,
        label: 'Reads',
        unit: 'choice',
        style: 'inputChoice',
        hint: 'estimated: where the bill marks one of its reads so (often E). Blank: read.',
        what: 'how the registers were read',
      }),
    ),
  };
}
export type BillFields = ReturnType<typeof billFields>;

/** The inputs of every bill, row by row. */
export const BILL_FIELDS: readonly BillFields[] = Array.from({ length: BILL_ROWS }, (_, i) => billFields(i));

/** Settings and rows. */
export const BILLS = { settings: BILL_SETTINGS, rows: BILL_FIELDS } as const;

/** A column of the bills sheet as one range. */
export function billRange(column: number, name?: string) {
  return areaReference(
    {
      sheet: SHEETS.bills,
      firstRow: FIRST_BILL_ROW,
      lastRow: LAST_BILL_ROW,
      firstColumn: column,
      lastColumn: column,
    },
    name,
  );
}
export const BILL_FROM = billRange(BILL_COLUMN.from, 'bill_from');
export const BILL_TO = billRange(BILL_COLUMN.to, 'bill_to');
