import type { HeatingInput } from '../../../heating/comparison/heating-inputs.js';
import { SENSITIVITY_ROWS } from '../../../heating/comparison/sensitivity-lines.js';
import { absoluteRow } from '../../cell-address.js';
import type { HeatingCells } from '../../inputs/heating-cells.js';
import { SHEETS } from '../../layout.js';
import type { StyleName } from '../../look/styles.js';
import type { Book } from '../book.js';
import { input, label } from '../cells.js';
import { sheetTop } from '../column-headers.js';
import type { Cell, InputRule, SheetModel } from '../sheet-model.js';
import { FIRST_TARIFF_LETTERS, LAST_TARIFF_LETTERS, TARIFF_ROW } from '../tariff-rows.js';
import { FLAG_LETTERS, heatingFlagCells } from './heating-flags.js';
import { DEGREE_DAY_TABLE, RATES_TABLE, SENSITIVITY_TABLE } from './heating-rows.js';
import { SETTING_LETTERS, SETTING_SECTIONS, SETTINGS, settingName } from './heating-settings.js';
import { unitOf } from './line-looks.js';

/** What people get wrong, beside the cell. */
const COMMENTS: Readonly<Record<string, string>> = {
  boilerEfficiency:
    'Not the label’s figure: an old boiler that runs hot reaches 75 to 85 %, a well-set condensing one about 90 % (common practice, no source).',
  gasStandingPencePerDay:
    'A home that gives up gas altogether saves it; one that keeps a gas hob pays it either way: see Gas supply.',
  hotWaterKwhPerDay: 'Heat in the water, not the electricity or gas that made it.',
  boilerSideHotWaterPence:
    'The usual slip is to price an immersion heater on a timer at the day rate. The rate used is shown on Heating.',
  degreeDayBaseC: 'Degree days that you type elsewhere must be at this base.',
};

const INPUT_STYLES: Readonly<Record<HeatingInput['format'], StyleName>> = {
  text: 'inputChoice',
  date: 'inputMonth',
  number0: 'inputNumber',
  number1: 'inputNumber',
  number2: 'inputFine',
  pence: 'inputRate',
  pounds: 'inputMoney',
  share: 'inputPercent',
};

const MOST = 1e9;

function ruleOf(setting: HeatingInput): InputRule {
  const title = setting.label.slice(0, 32);
  const message = setting.description.slice(0, 250);
  if (setting.key === 'tariff') {
    const names = absoluteRow(SHEETS.tariffs, FIRST_TARIFF_LETTERS, LAST_TARIFF_LETTERS, TARIFF_ROW.name);
    return { kind: 'list', choices: names, title, message };
  }
  if (setting.choices !== undefined) return { kind: 'list', choices: setting.choices, title, message };
  return {
    kind: 'number',
    minimum: setting.min ?? -MOST,
    maximum: setting.max ?? MOST,
    title,
    message,
  };
}

function settingCells(start: HeatingCells): Cell[] {
  return SETTING_SECTIONS.flatMap(({ title, row: heading, settings }) => [
    ...['B', 'C', 'D', 'E'].map((letters, i) =>
      label(`${letters}${heading}`, i === 0 ? title : '', 'section'),
    ),
    ...settings.flatMap(({ input: setting, row }) => {
      const comment = COMMENTS[setting.key];
      return [
        label(`B${row}`, setting.label, 'label'),
        input(
          `${SETTING_LETTERS}${row}`,
          start.settings[setting.key] ?? null,
          INPUT_STYLES[setting.format],
          ruleOf(setting),
          { name: settingName(setting.key), ...(comment === undefined ? {} : { comment }) },
        ),
        label(`D${row}`, unitOf(setting), 'unit'),
        label(`E${row}`, setting.description, 'hintWrap'),
      ];
    }),
  ]);
}

const anyDay = (title: string): InputRule => ({
  kind: 'date',
  minimum: 32_874,
  maximum: 73_050,
  title,
  message: 'Any day of the month.',
});
const notNegative = (title: string, message: string): InputRule => ({
  kind: 'number',
  minimum: 0,
  maximum: MOST,
  title,
  message,
});

function rateCells(start: HeatingCells): Cell[] {
  const { heading, first, from, gasRate, gasStanding, singleRate } = RATES_TABLE;
  const head = (letters: string, text: string, unit: string): Cell[] => [
    label(`${letters}${first - 2}`, text, 'header'),
    label(`${letters}${first - 1}`, unit, 'headerUnit'),
  ];
  const rule = notNegative('Rate', 'With VAT. Blank: the rate for all months, on the left.');
  return [
    ...[from, gasRate, gasStanding, singleRate].map((letters, i) =>
      label(`${letters}${heading}`, i === 0 ? 'Rates that changed, oldest first' : '', 'section'),
    ),
    ...head(from, 'From', 'month'),
    ...head(gasRate, 'Gas', '{minor}/kWh'),
    ...head(gasStanding, 'Gas standing', '{minor}/day'),
    ...head(singleRate, 'Single rate', '{minor}/kWh'),
    ...start.rates.flatMap((rates, i) => [
      input(`${from}${first + i}`, rates.from, 'inputMonth', anyDay('From month')),
      input(`${gasRate}${first + i}`, rates.gasRate, 'inputRate', rule),
      input(`${gasStanding}${first + i}`, rates.gasStanding, 'inputRate', rule),
      input(`${singleRate}${first + i}`, rates.singleRate, 'inputRate', rule),
    ]),
  ];
}

function degreeDayCells(start: HeatingCells): Cell[] {
  const { heading, first, month, degreeDays } = DEGREE_DAY_TABLE;
  return [
    label(`${month}${heading}`, 'Degree days, typed', 'section'),
    label(`${degreeDays}${heading}`, '', 'section'),
    label(`${month}${first - 2}`, 'Month', 'header'),
    label(`${month}${first - 1}`, 'any day of it', 'headerUnit'),
    label(`${degreeDays}${first - 2}`, 'Degree days', 'header'),
    label(`${degreeDays}${first - 1}`, '°C·day', 'headerUnit'),
    ...start.monthDegreeDays.flatMap((row, i) => [
      input(`${month}${first + i}`, row.month, 'inputMonth', anyDay('Month')),
      input(
        `${degreeDays}${first + i}`,
        row.degreeDays,
        'inputNumber',
        notNegative(
          'Degree days',
          'Of the whole month, at the base on the left; they go before temperatures.',
        ),
      ),
    ]),
  ];
}

const SENSITIVITY_LOOKS: Record<string, { text: string; style: StyleName; unit: string }> = {
  'boiler efficiency': { text: 'Boiler efficiency', style: 'inputPercent', unit: 'share' },
  'gas rate': { text: 'Gas rate, times today’s', style: 'inputFine', unit: 'factor' },
  COP: { text: 'COP', style: 'inputFine', unit: '' },
};
export const sensitivityText = (kind: string): string => SENSITIVITY_LOOKS[kind]!.text;

function sensitivityCells(start: HeatingCells): Cell[] {
  const { heading, first, kind, value } = SENSITIVITY_TABLE;
  return [
    label(`${kind}${heading}`, 'What if', 'section'),
    label(`${value}${heading}`, '', 'section'),
    label(`${kind}${first - 2}`, 'Changed figure', 'header'),
    label(`${kind}${first - 1}`, 'shown on Heating', 'headerUnit'),
    label(`${value}${first - 2}`, 'Set to', 'header'),
    label(`${value}${first - 1}`, 'above 0', 'headerUnit'),
    ...SENSITIVITY_ROWS.flatMap(({ sensitivityKind }, i) => [
      label(`${kind}${first + i}`, sensitivityKind, 'label'),
      input(`${value}${first + i}`, start.sensitivity[i] ?? null, SENSITIVITY_LOOKS[sensitivityKind]!.style, {
        ...notNegative('What if', 'A figure above 0.'),
        minimum: 0.01,
        maximum: 1000,
      }),
    ]),
  ];
}

/** Characters of a description that fit on one line. */
const ONE_LINE = 92;

/** What the heating sheets take in, beside readings, gas and temperatures. */
export function heatingInputsSheet(_book: Book, start: HeatingCells): SheetModel {
  return {
    name: SHEETS.heatingInputs,
    tab: 'input',
    widths: {
      A: 3,
      B: 34,
      C: 17,
      D: 17,
      E: 62,
      F: 3,
      G: 14,
      H: 13,
      I: 17,
      J: 13,
      K: 3,
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
    cells: [
      ...sheetTop(
        'Heating inputs',
        `What the comparison on ${SHEETS.heating} rests on. Coloured cells are yours to change.`,
      ),
      ...settingCells(start),
      ...rateCells(start),
      ...degreeDayCells(start),
      ...sensitivityCells(start),
      ...heatingFlagCells(),
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [],
  };
}
