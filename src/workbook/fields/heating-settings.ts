import { HEATING_INPUTS, type HeatingInput } from '../../heating/comparison/heating-inputs.js';
import { FIRST_COLUMN, SHEETS } from '../layout.js';
import type { StyleName } from '../look/styles.js';
import { choiceField, Field, type FieldSpec, listedField, numberField } from './field.js';
import { TARIFF_NAMES } from './tariff-places.js';
import { wordsOf } from './words-of.js';

/** Settings of the heating sheets beside those of the comparison. */
const OWN: Readonly<Record<string, HeatingInput>> = {
  tariff: {
    key: 'tariff',
    label: 'Tariff for half-hourly rates',
    unit: 'blank: today’s',
    format: 'text',
    description: 'Whose rates price the heat pump half-hour by half-hour; a name from Tariffs.',
    initial: null,
    optional: true,
  },
  calorificValueMjPerM3: {
    key: 'calorificValueMjPerM3',
    label: 'Calorific value of gas',
    unit: 'MJ/m³',
    format: 'number1',
    description: 'From a gas bill; for rows of gas that give a volume and no value of their own.',
    initial: 39.5,
    min: 20,
    max: 60,
  },
  volumeCorrection: {
    key: 'volumeCorrection',
    label: 'Volume correction of gas',
    unit: 'factor',
    format: 'number2',
    description: '1.02264 unless the bill says otherwise.',
    initial: 1.02264,
    min: 0.5,
    max: 2,
  },
  degreeDayMethod: {
    key: 'degreeDayMethod',
    label: 'Half-hourly temperatures count by',
    unit: 'choice',
    format: 'text',
    description:
      'Daily mean: as days of which only the mean is known, so that both years are measured alike. Half-hours: more exact, for two years of half-hours or of maximum and minimum. Days with maximum and minimum go by these either way.',
    initial: 'daily mean',
    choices: ['daily mean', 'half-hours'],
  },
  leastCoverageShare: {
    key: 'leastCoverageShare',
    label: 'Count a month’s meter from',
    unit: 'share',
    format: 'share',
    description:
      'Share of the month’s half-hours that the heat pump’s meter, and the heat meter, must have: a sum with gaps is too small.',
    initial: 0.98,
    min: 0,
    max: 1,
  },
  leastEfficiency: {
    key: 'leastEfficiency',
    label: 'Boiler efficiency, at least',
    unit: 'share 0–1',
    format: 'share',
    description: 'The lowest that it may have had; common practice, no source.',
    initial: 0.75,
    min: 0.3,
    max: 1.2,
  },
  mostEfficiency: {
    key: 'mostEfficiency',
    label: 'Boiler efficiency, at most',
    unit: 'share 0–1',
    format: 'share',
    description: 'The highest that it may have had; common practice, no source.',
    initial: 0.95,
    min: 0.3,
    max: 1.2,
  },
  leastHotWaterKwhPerDay: {
    key: 'leastHotWaterKwhPerDay',
    label: 'Hot water heat, at least',
    unit: 'kWh/day',
    format: 'number1',
    description: 'The least heat into hot water that it may have been; common practice, no source.',
    initial: 2,
    min: 0,
  },
  mostHotWaterKwhPerDay: {
    key: 'mostHotWaterKwhPerDay',
    label: 'Hot water heat, at most',
    unit: 'kWh/day',
    format: 'number1',
    description: 'The most heat into hot water that it may have been; common practice, no source.',
    initial: 8,
    min: 0,
  },
  baseEitherWayC: {
    key: 'baseEitherWayC',
    label: 'Base temperature, either way',
    unit: '°C',
    format: 'number1',
    description: 'How far the home’s own base may lie from the one above; common practice, no source.',
    initial: 1,
    min: 0.1,
    max: 5,
  },
};

const comparison = (key: string): HeatingInput => {
  const found = HEATING_INPUTS.find((input) => input.key === key);
  if (found === undefined) throw new RangeError(`no heating input is called ${key}`);
  return found;
};

/** The settings by what they are about, in the order of the sheet. */
const SECTIONS: readonly { title: string; keys: readonly string[] }[] = [
  { title: 'Electricity', keys: ['costBasis', 'tariff', 'singleRatePence'] },
  {
    title: 'Gas and boiler',
    keys: [
      'boilerEfficiency',
      'gasRatePence',
      'gasStandingPencePerDay',
      'gasSupply',
      'otherGasKwhPerDay',
      'enteredBaseGasKwhPerDay',
      'calorificValueMjPerM3',
      'volumeCorrection',
    ],
  },
  {
    title: 'Hot water',
    keys: [
      'hotWaterSide',
      'hotWaterKwhPerDay',
      'heatPumpSideHotWater',
      'heatPumpSideHotWaterPence',
      'hotWaterCop',
      'boilerSideHotWater',
      'boilerSideHotWaterPence',
    ],
  },
  {
    title: 'Weather',
    keys: ['degreeDayBaseC', 'degreeDayMethod', 'scaleDegreeDays', 'yearDegreeDays', 'yearDays'],
  },
  {
    title: 'How sure',
    keys: ['leastCoverageShare', 'confidence', 'agreeWithinShare', 'disagreeBeyondShare', 'sameWithinShare'],
  },
  {
    title: 'Carbon and payback',
    keys: ['electricityCarbonKgPerKwh', 'gasCarbonKgPerKwh', 'extraCostPounds'],
  },
  // Last, so that no input above moves.
  {
    title: 'Beside the heat',
    keys: [
      'boilerElectricityKwhPerDay',
      'boilerServicingPoundsPerYear',
      'heatPumpServicingPoundsPerYear',
      'roomsWarmerC',
    ],
  },
  {
    title: 'What nobody measured',
    keys: [
      'leastEfficiency',
      'mostEfficiency',
      'leastHotWaterKwhPerDay',
      'mostHotWaterKwhPerDay',
      'baseEitherWayC',
    ],
  },
];

/** A setting with its row on the inputs sheet. */
export interface PlacedSetting {
  input: HeatingInput;
  row: number;
}

export const SETTINGS_FIRST_ROW = 4;
/** Column of the settings' values on the inputs sheet. */
const SETTING_COLUMN = FIRST_COLUMN.heatingInputs + 2;

/** Section headings and settings with their rows. */
export const SETTING_SECTIONS: readonly { title: string; row: number; settings: PlacedSetting[] }[] =
  placeSections();

function placeSections(): { title: string; row: number; settings: PlacedSetting[] }[] {
  let row = SETTINGS_FIRST_ROW;
  return SECTIONS.map(({ title, keys }) => {
    const heading = row++;
    const settings = keys.map((key) => ({
      input: OWN[key] ?? comparison(key),
      row: row++,
    }));
    row++;
    return { title, row: heading, settings };
  });
}

/** Every setting, in the order of the sheet. */
export const SETTINGS: readonly PlacedSetting[] = SETTING_SECTIONS.flatMap(({ settings }) => settings);

/** A setting by its key. */
export function settingOf(key: string): PlacedSetting {
  const found = SETTINGS.find(({ input }) => input.key === key);
  if (found === undefined) throw new RangeError(`no heating setting is called ${key}`);
  return found;
}

/** Whether a key is that of a setting. */
export const isSetting = (key: string): boolean => SETTINGS.some(({ input }) => input.key === key);

/** Defined names of settings that other tools would look for. */
const NAMES: Readonly<Record<string, string>> = {
  costBasis: 'heat_pump_cost_basis',
  tariff: 'heating_tariff',
  singleRatePence: 'single_rate',
  boilerEfficiency: 'boiler_efficiency',
  gasRatePence: 'gas_unit_rate',
  gasStandingPencePerDay: 'gas_standing_charge',
  gasSupply: 'gas_supply',
  hotWaterSide: 'hot_water_on',
  hotWaterKwhPerDay: 'hot_water_kwh_per_day',
  degreeDayBaseC: 'degree_day_base',
  yearDegreeDays: 'degree_days_of_a_year',
  extraCostPounds: 'heat_pump_extra_cost',
};

/** Defined name of a setting's input cell. */
export function settingName(key: string): string {
  return NAMES[settingOf(key).input.key] ?? wordsOf(key);
}

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

/** What a setting's cell may hold, and how it is told. */
function specOf(setting: HeatingInput): FieldSpec {
  const { key, label, unit, format, description, choices, min, max, optional = false } = setting;
  const comment = COMMENTS[key];
  const text = {
    label,
    unit,
    style: INPUT_STYLES[format],
    title: label.slice(0, 32),
    hint: description.slice(0, 250),
    what: `"${label}"`,
    mayBeBlank: optional,
    name: settingName(key),
    ...(comment === undefined ? {} : { comment }),
  };
  if (key === 'tariff') {
    return listedField({
      ...text,
      list: TARIFF_NAMES,
      blankMeans: "today's",
      what: 'the tariff for heating',
    });
  }
  if (choices !== undefined)
    return choiceField({ ...text, choices, toDo: `Choose ${choices.join(' or ')}.` });
  const limits = [
    ...(min === undefined ? [] : [` from ${min}`]),
    ...(max === undefined ? [] : [` up to ${max}`]),
  ].join('');
  return numberField({
    ...text,
    ...(min === undefined ? {} : { from: min }),
    ...(max === undefined ? {} : { to: max }),
    toDo: `Type a number${limits} (${unit}).`,
  });
}

/** The settings' input cells, by key. */
export const SETTING_FIELDS: Readonly<Record<string, Field>> = Object.fromEntries(
  SETTINGS.map(({ input, row }) => [
    input.key,
    new Field(specOf(input), { sheet: SHEETS.heatingInputs, row, column: SETTING_COLUMN }),
  ]),
);
