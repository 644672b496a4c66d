import type { CellPlace } from '../../formula/nodes.js';
import { MAX_RATE_PERIODS, MAX_WINDOWS } from '../../tariffs/tariff.js';
import { SHEETS, TARIFF_COUNT } from '../layout.js';
import {
  choiceField,
  dateField,
  Field,
  type FieldSpec,
  type FieldText,
  listedField,
  numberField,
  textField,
  timeField,
} from './field.js';
import { FIRST_TARIFF_COLUMN, TARIFF_NAME_ROW, TARIFF_NAMES } from './tariff-places.js';

const yesNo = (text: Omit<FieldText, 'style' | 'title' | 'hint'>): FieldSpec =>
  choiceField({
    choices: ['yes', 'no'],
    style: 'inputChoice',
    title: 'Yes or no',
    hint: 'yes or no',
    ...text,
  });
const time = (mayBeMidnightAfter: boolean, text: Pick<FieldText, 'label' | 'what' | 'comment'>): FieldSpec =>
  timeField({
    mayBeMidnightAfter,
    mayBeBlank: true,
    unit: 'time',
    style: 'inputTime',
    title: 'Time',
    hint: 'A time on the half-hour, 00:00 to 24:00, such as 00:30.',
    ...text,
  });
const rate = (text: Pick<FieldText, 'label' | 'unit' | 'what' | 'comment'>, mayBeBlank = false): FieldSpec =>
  numberField({
    from: -1000,
    to: 1000,
    mayBeBlank,
    style: 'inputRate',
    title: 'Rate',
    hint: 'A rate per kWh or per day as your bill gives it; VAT as chosen above.',
    ...text,
  });

/** How a tariff charges, in the order of the rows. */
const CHARGES = {
  clock: choiceField({
    choices: ['local', 'UTC'],
    label: 'Clock of the windows',
    unit: 'local or UTC',
    style: 'inputChoice',
    hint: 'local: by the home’s clock. UTC: a meter clock that does not move with summer time.',
  }),
  includesVat: yesNo({
    label: 'Rates below include VAT',
    unit: 'yes or no',
    comment:
      'Bills show rates with VAT, business offers and price lists often without. yes: taken as typed. no: VAT as typed above is added. The half-hourly price has a choice of its own.',
  }),
  halfHourlyPriced: yesNo({
    label: 'Follows the half-hourly price',
    unit: 'yes: price + rate below',
    comment:
      'yes: the unit rate is the price column of the readings plus the rate below. Type 0 as base rate where the price is all there is.',
  }),
  exitFee: numberField({
    from: 0,
    to: 10_000,
    mayBeBlank: true,
    label: 'Exit fee',
    unit: '{major}',
    style: 'inputMoney',
    hint: 'What leaving this tariff early costs, once.',
  }),
  priceIncludesVat: yesNo({
    label: 'Half-hourly price includes VAT',
    unit: 'yes or no',
    comment:
      'Of the price column of the readings. Prices of an exchange are without VAT, those that a supplier shows often with. yes: taken as it stands. no: VAT as typed above is added. It changes nothing where the price is not followed.',
  }),
} as const;

const NAME = textField({
  any: true,
  mayBeBlank: true,
  label: 'Tariff',
  unit: 'your name for it',
  style: 'inputName',
  title: 'Name',
  hint: 'Your own name for this tariff; leave blank where there is none.',
});

function windowSpecs(k: number) {
  return {
    from: time(false, { label: `Window ${k + 1} from`, what: `the start of window ${k + 1}` }),
    to: time(true, {
      label: `Window ${k + 1} to`,
      what: `the end of window ${k + 1}`,
      ...(k === 0
        ? {
            comment: 'Midnight is 24:00. An end before the start means that the window runs past midnight.',
          }
        : {}),
    }),
    days: textField({
      any: true,
      mayBeBlank: true,
      label: `Window ${k + 1} starts on`,
      unit: 'days, blank: every day',
      style: 'inputChoice',
      title: 'Days',
      hint: 'Every day, Mon-Fri, Sat-Sun, or a list such as Mon, Wed, Sat. A window past midnight belongs to the day it starts on.',
    }),
  };
}

const VALID_FROM = dateField({
  whole: true,
  mayBeBlank: true,
  label: 'Valid from',
  unit: 'date',
  style: 'inputDate',
  title: 'Date',
  hint: 'The first day on which these rates hold; later than the change before.',
  what: 'the valid-from date',
});
const STANDING = rate({ label: 'Standing charge', unit: '{minor}/day' });
const STANDING_COMMENT = 'A day, in the same small unit as the rates: 53.80, not 0.538.';
const BASE = rate({ label: 'Base rate, outside the windows', unit: '{minor}/kWh', what: 'the base rate' });
// A rate of a window is needed where the window has times: a rule of its own.
const windowRate = (k: number): FieldSpec =>
  rate({ label: `Rate in window ${k + 1}`, unit: '{minor}/kWh', what: `the rate in window ${k + 1}` }, true);
const EXPORT = rate({ label: 'Export rate', unit: '{minor}/kWh' }, true);
const EXPORT_COMMENT = 'What you are paid for a kWh. It carries no VAT.';

/** Rows of the tariffs sheet that hold inputs, and the headings above them. */
export const TARIFF_INPUT_ROW = { clock: 22, firstWindow: 28, firstRatesHeading: 41 } as const;
const WINDOW_ROWS = 3;

/** Row of the heading of a set of rates (from 0). */
export const ratesHeadingRow = (period: number): number =>
  TARIFF_INPUT_ROW.firstRatesHeading + period * (MAX_WINDOWS + 6);

/** The inputs of a tariff (from 0) in their cells. */
function tariffFields(tariff: number) {
  const column = FIRST_TARIFF_COLUMN + tariff;
  const at = (row: number): CellPlace => ({ sheet: SHEETS.tariffs, row, column });
  const field = (spec: FieldSpec, row: number): Field => new Field(spec, at(row));
  const charges = (key: keyof typeof CHARGES): Field =>
    field(CHARGES[key], TARIFF_INPUT_ROW.clock + Object.keys(CHARGES).indexOf(key));
  return {
    name: field(NAME, TARIFF_NAME_ROW),
    clock: charges('clock'),
    includesVat: charges('includesVat'),
    halfHourlyPriced: charges('halfHourlyPriced'),
    exitFee: charges('exitFee'),
    priceIncludesVat: charges('priceIncludesVat'),
    windows: Array.from({ length: MAX_WINDOWS }, (_, k) => {
      const specs = windowSpecs(k);
      const row = TARIFF_INPUT_ROW.firstWindow + k * WINDOW_ROWS;
      return { from: field(specs.from, row), to: field(specs.to, row + 1), days: field(specs.days, row + 2) };
    }),
    periods: Array.from({ length: MAX_RATE_PERIODS }, (_, p) => {
      const row = ratesHeadingRow(p);
      const first = (comment: string): { comment?: string } => (p === 0 ? { comment } : {});
      return {
        validFrom: p === 0 ? undefined : field(VALID_FROM, row + 1),
        standing: field({ ...STANDING, ...first(STANDING_COMMENT) }, row + 2),
        base: field(BASE, row + 3),
        windowRates: Array.from({ length: MAX_WINDOWS }, (_, k) => field(windowRate(k), row + 4 + k)),
        exportRate: field({ ...EXPORT, ...first(EXPORT_COMMENT) }, row + 4 + MAX_WINDOWS),
      };
    }),
  };
}
export type TariffFields = ReturnType<typeof tariffFields>;

/** The inputs of every tariff, in the order of their columns. */
export const TARIFF_FIELDS: readonly TariffFields[] = Array.from({ length: TARIFF_COUNT }, (_, t) =>
  tariffFields(t),
);

/** The tariff that the others are compared with. */
export const TODAYS_TARIFF = new Field(
  listedField({
    list: TARIFF_NAMES,
    mayBeBlank: true,
    label: 'Today’s tariff',
    unit: 'one of the names below',
    style: 'inputName',
    hint: 'The tariff that you are on; the others are compared with it.',
    what: "today's tariff",
    name: 'todays_tariff',
  }),
  { sheet: SHEETS.tariffs, row: 3, column: FIRST_TARIFF_COLUMN },
);
