import { RATES_USED, SHEETS, type SheetName } from '../layout.js';
import { choiceField, dateField, Field, type FieldSpec, numberField, textField } from './field.js';
import { limitRule, type Rule } from './rule.js';

const at = (sheet: SheetName, row: number, column: number) => (spec: FieldSpec) =>
  new Field(spec, { sheet, row, column });

/** Row of the facts of the home on each of their sheets: above its headings. */
export const HOME_ROW = { tariffs: 3, readings: 5 } as const;

/** Facts of the home: beside the tariffs what their prices are in, above the readings what they are of. */
export const HOME_FIELDS = {
  timeZone: at(
    SHEETS.readings,
    HOME_ROW.readings,
    1,
  )(
    textField({
      label: 'Time zone',
      unit: 'IANA name',
      style: 'inputText',
      hint: 'An IANA name such as Europe/London. A fill writes its clock changes.',
      comment:
        'After a change, run the fill with --time-zone on a workbook without readings: only it can write the clock changes of the new zone.',
      toDo: 'Give an IANA name such as Europe/London.',
      name: 'time_zone',
    }),
  ),
  vatShare: at(
    SHEETS.tariffs,
    HOME_ROW.tariffs,
    5,
  )(
    numberField({
      from: 0,
      below: 1,
      label: 'VAT on energy',
      unit: 'percent',
      style: 'inputPercent',
      title: 'VAT',
      hint: 'A percentage from 0 % to below 100 %. Domestic fuel and power in the UK: 5 % (HMRC VAT Notice 701/19).',
      what: 'the VAT',
      name: 'vat_share',
    }),
  ),
  currency: at(
    SHEETS.tariffs,
    HOME_ROW.tariffs,
    7,
  )(
    textField({
      any: true,
      mayBeBlank: true,
      label: 'Currency',
      unit: 'symbol',
      style: 'inputChoice',
      hint: 'The symbol of your currency: £, €, $ …',
      name: 'currency_symbol',
    }),
  ),
  minorUnit: at(
    SHEETS.tariffs,
    HOME_ROW.tariffs,
    9,
  )(
    textField({
      any: true,
      mayBeBlank: true,
      label: 'Hundredth of the currency',
      unit: 'word',
      style: 'inputChoice',
      title: 'Hundredth',
      hint: 'The word for a hundredth of it, in which rates are typed: p, ct, ¢ …',
      name: 'minor_unit',
    }),
  ),
  largestHalfHourKwh: at(
    SHEETS.readings,
    HOME_ROW.readings,
    3,
  )(
    numberField({
      above: 0,
      to: 1000,
      label: 'Largest plausible half-hour',
      unit: 'kWh',
      style: 'inputNumber',
      title: 'Largest half-hour',
      hint: 'kWh in one half-hour, above 0. A 100 A single-phase supply carries about 11.5 (230 V, arithmetic).',
      name: 'largest_half_hour_kwh',
    }),
  ),
  batteryRan: at(
    SHEETS.readings,
    HOME_ROW.readings,
    6,
  )(
    choiceField({
      choices: ['yes', 'no'],
      label: 'A battery ran while this was metered',
      unit: 'yes or no',
      style: 'inputChoice',
      title: 'Battery ran',
      hint: 'yes or no. If yes, the columns battery in and battery out are needed to compare tariffs fairly.',
      name: 'battery_ran',
    }),
  ),
} as const;
export type HomeKey = keyof typeof HOME_FIELDS;

const month = (label: string, name: string, column: number): Field =>
  new Field(
    dateField({
      mayBeBlank: true,
      label,
      unit: 'month',
      style: 'inputMonth',
      title: 'Month',
      hint: 'Any day of the month; blank: all months, the last twelve whole ones where there are more.',
      what: 'the month',
      name,
    }),
    { sheet: SHEETS.answer, row: 4, column },
  );

/** First and last month of the period, and the rates that price it. */
export const PERIOD_FIELDS = {
  fromMonth: month('Period, from month', 'from_month', 3),
  toMonth: month('to month', 'to_month', 5),
  ratesUsed: new Field(
    choiceField({
      choices: Object.values(RATES_USED),
      mayBeBlank: true,
      label: 'Rates',
      unit: 'choice',
      style: 'inputChoice',
      hint: 'As they were: each day at the rates of that day, to check bills. As they are now: all days at the last set of rates of each tariff, to decide a switch. Blank: as they were.',
      what: 'the choice of rates',
      name: 'rates_used',
    }),
    { sheet: SHEETS.answer, row: 4, column: 10 },
  ),
} as const;

/** The rule of each fact of the home. */
export const HOME_RULES: Readonly<Record<HomeKey, Rule>> = {
  timeZone: limitRule(HOME_FIELDS.timeZone),
  vatShare: limitRule(HOME_FIELDS.vatShare),
  currency: limitRule(HOME_FIELDS.currency),
  minorUnit: limitRule(HOME_FIELDS.minorUnit),
  largestHalfHourKwh: limitRule(HOME_FIELDS.largestHalfHourKwh),
  batteryRan: limitRule(HOME_FIELDS.batteryRan),
};
export const PERIOD_RULES = {
  fromMonth: limitRule(PERIOD_FIELDS.fromMonth),
  toMonth: limitRule(PERIOD_FIELDS.toMonth),
  ratesUsed: limitRule(PERIOD_FIELDS.ratesUsed),
} as const;
