import { HEATING_INPUTS, type HeatingInput } from '../../../heating/comparison/heating-inputs.js';
import { OWN_SETTINGS, type OwnSetting } from '../../inputs/heating-cells.js';
import type { CellValue } from '../sheet-model.js';
import { wordsOf } from './line-names.js';

/** Settings of the heating sheets beside those of the comparison. */
const OWN: Record<OwnSetting, HeatingInput> = {
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
    description: 'From a gas bill; for rows of Gas that give a volume and no value of their own.',
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
      'Daily mean: as days of which only the mean is known, so that both years are measured alike. Half-hours: more exact, for two years of half-hours or of maximum and minimum.',
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
];

/** A setting with its row on the inputs sheet. */
export interface PlacedSetting {
  input: HeatingInput;
  row: number;
}

export const SETTINGS_FIRST_ROW = 4;
/** Column of the settings' values on the inputs sheet. */
export const SETTING_LETTERS = 'C';

/** Section headings and settings with their rows. */
export const SETTING_SECTIONS: readonly { title: string; row: number; settings: PlacedSetting[] }[] =
  placeSections();

function placeSections(): { title: string; row: number; settings: PlacedSetting[] }[] {
  let row = SETTINGS_FIRST_ROW;
  return SECTIONS.map(({ title, keys }) => {
    const heading = row++;
    const settings = keys.map((key) => ({
      input: (OWN_SETTINGS as readonly string[]).includes(key) ? OWN[key as OwnSetting] : comparison(key),
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

/** Whether a setting's cell is wrong. */
export function isWrongSetting(input: HeatingInput, cell: CellValue): boolean {
  if (cell === null) return input.optional !== true;
  if (input.choices !== undefined) {
    return !(typeof cell === 'string' && input.choices.includes(cell.toLowerCase()));
  }
  return !(typeof cell === 'number' && cell >= (input.min ?? cell) && cell <= (input.max ?? cell));
}
