import type { CellScalar } from '../../functions/described-function.js';
import { UK_BASE_C } from '../degree-days-from-daily-mean.js';
import type { LineFormat } from './heating-line.js';

/** An input cell: label, unit, what it starts with, what it may be. */
export interface HeatingInput {
  key: string;
  label: string;
  unit: string;
  format: LineFormat;
  description: string;
  /** Value of an empty home; null: blank until the user knows it. */
  initial: CellScalar;
  /** The texts that a choice may be. */
  choices?: readonly string[];
  /** Smallest and largest number allowed. */
  min?: number;
  max?: number;
  /** Whether the cell may stay blank. */
  optional?: boolean;
}

const COST_BASES = ['single rate', 'half-hourly', 'battery'] as const;
const GAS_SUPPLY = ['given up', 'kept'] as const;
const HOT_WATER_SIDES = ['both', 'neither'] as const;
const HEAT_PUMP_SIDE_HOT_WATER = ['heat pump', 'immersion heater'] as const;
const BOILER_SIDE_HOT_WATER = ['boiler', 'immersion heater'] as const;
export const YES_NO = ['yes', 'no'] as const;

/** Single inputs of the comparison, in the order of the sheet. */
export const HEATING_INPUTS: readonly HeatingInput[] = [
  {
    key: 'costBasis',
    label: 'Cost the heat pump at',
    unit: 'choice',
    format: 'text',
    description:
      'A single rate, the half-hourly rates of the chosen tariff, or what energy cost through the battery.',
    initial: 'single rate',
    choices: COST_BASES,
  },
  {
    key: 'singleRatePence',
    label: 'Single rate',
    unit: 'p/kWh',
    format: 'pence',
    description: 'Electricity unit rate of the single-rate tariff, for months that give none of their own.',
    initial: null,
    min: 0,
    optional: true,
  },
  {
    key: 'gasRatePence',
    label: 'Gas unit rate',
    unit: 'p/kWh',
    format: 'pence',
    description: 'Gas unit rate, for months that give none of their own.',
    initial: null,
    min: 0,
    optional: true,
  },
  {
    key: 'gasStandingPencePerDay',
    label: 'Gas standing charge',
    unit: 'p/day',
    format: 'pence',
    description: 'Gas standing charge, for months that give none of their own.',
    initial: null,
    min: 0,
    optional: true,
  },
  {
    key: 'gasSupply',
    label: 'Gas supply',
    unit: 'choice',
    format: 'text',
    description:
      'Given up: only the boiler’s side pays the gas standing charge. Kept (for a hob, say): both sides pay it.',
    initial: 'given up',
    choices: GAS_SUPPLY,
  },
  {
    key: 'boilerEfficiency',
    label: 'Boiler efficiency',
    unit: 'share 0–1',
    format: 'share',
    description:
      'Share of the gas that the old boiler turned into useful heat, as installed rather than as labelled.',
    initial: null,
    min: 0.3,
    max: 1.2,
    optional: true,
  },
  {
    key: 'hotWaterSide',
    label: 'Hot water on',
    unit: 'choice',
    format: 'text',
    description: 'Both sides or neither: never on one side only.',
    initial: 'both',
    choices: HOT_WATER_SIDES,
  },
  {
    key: 'hotWaterKwhPerDay',
    label: 'Hot water heat',
    unit: 'kWh/day',
    format: 'number1',
    description: 'Heat into hot water.',
    initial: 4,
    min: 0,
  },
  {
    key: 'heatPumpSideHotWater',
    label: 'Hot water now by',
    unit: 'choice',
    format: 'text',
    description:
      'Heat pump: it is in the metered electricity and heat. Immersion heater: it is not, and is added at its own rate.',
    initial: 'heat pump',
    choices: HEAT_PUMP_SIDE_HOT_WATER,
  },
  {
    key: 'heatPumpSideHotWaterPence',
    label: 'Immersion heater’s rate now',
    unit: 'p/kWh',
    format: 'pence',
    description: 'Rate of the hours in which the immersion heater runs: off-peak, if it is on a timer.',
    initial: null,
    min: 0,
    optional: true,
  },
  {
    key: 'hotWaterCop',
    label: 'COP for hot water',
    unit: 'kWh heat/kWh electricity',
    format: 'number2',
    description: 'Used to take hot water out of the heat pump’s electricity where it is on neither side.',
    initial: 2.5,
    min: 0.5,
  },
  {
    key: 'boilerSideHotWater',
    label: 'Hot water then by',
    unit: 'choice',
    format: 'text',
    description:
      'Boiler: it was in last year’s gas. Immersion heater: it was not, and is added at its own rate.',
    initial: 'boiler',
    choices: BOILER_SIDE_HOT_WATER,
  },
  {
    key: 'boilerSideHotWaterPence',
    label: 'Immersion heater’s rate then',
    unit: 'p/kWh',
    format: 'pence',
    description: 'Rate that an immersion heater would pay in the home with the boiler.',
    initial: null,
    min: 0,
    optional: true,
  },
  {
    key: 'otherGasKwhPerDay',
    label: 'Other gas in last year’s meter',
    unit: 'kWh/day',
    format: 'number1',
    description:
      'Hob, fire: taken out of the estimate from the meter, because the heat pump does not replace it.',
    initial: 0,
    min: 0,
  },
  {
    key: 'enteredBaseGasKwhPerDay',
    label: 'Summer gas a day',
    unit: 'kWh/day',
    format: 'number1',
    description:
      'Weather-independent gas a day. Blank: found by regression from three or more months; needed with fewer.',
    initial: null,
    min: 0,
    optional: true,
  },
  {
    key: 'degreeDayBaseC',
    label: 'Base temperature of degree days',
    unit: '°C',
    format: 'number1',
    description: '15.5 °C in the UK, 18.3 °C (65 °F) in the US; the same for every degree day on this sheet.',
    initial: UK_BASE_C,
    min: 0,
    max: 30,
  },
  {
    key: 'scaleDegreeDays',
    label: 'Scale up degree days with gaps',
    unit: 'yes/no',
    format: 'text',
    description: 'Yes: days without a temperature are taken to be like the rest of their month.',
    initial: 'no',
    choices: YES_NO,
  },
  {
    key: 'confidence',
    label: 'Confidence of ranges',
    unit: 'share 0–1',
    format: 'share',
    description: 'How often a range should hold.',
    initial: 0.95,
    min: 0.5,
    max: 0.999,
  },
  {
    key: 'agreeWithinShare',
    label: 'Estimates agree within',
    unit: 'share',
    format: 'share',
    description: 'Common practice, no source.',
    initial: 0.1,
    min: 0,
  },
  {
    key: 'disagreeBeyondShare',
    label: 'Estimates disagree beyond',
    unit: 'share',
    format: 'share',
    description: 'Common practice, no source.',
    initial: 0.25,
    min: 0,
  },
  {
    key: 'sameWithinShare',
    label: 'Costs count as the same within',
    unit: 'share',
    format: 'share',
    description: 'Share of the heat pump’s side; smaller differences are called none.',
    initial: 0.02,
    min: 0,
  },
  {
    key: 'yearDegreeDays',
    label: 'Degree days of a year',
    unit: '°C·day',
    format: 'number0',
    description:
      'Of a usual year at the same base, entered or from a temperature file; blank: no annual figure.',
    initial: null,
    min: 0,
    optional: true,
  },
  {
    key: 'yearDays',
    label: 'Days of a year',
    unit: 'days',
    format: 'number0',
    description: 'Days that the annual figure is for.',
    initial: 365,
    min: 1,
    max: 366,
  },
  {
    key: 'electricityCarbonKgPerKwh',
    label: 'Carbon factor of electricity',
    unit: 'kg CO₂e/kWh',
    format: 'number2',
    description: 'From a published list for your country and year; blank: no carbon figure.',
    initial: null,
    min: 0,
    optional: true,
  },
  {
    key: 'gasCarbonKgPerKwh',
    label: 'Carbon factor of gas',
    unit: 'kg CO₂e/kWh',
    format: 'number2',
    description: 'From a published list for your country and year; blank: no carbon figure.',
    initial: null,
    min: 0,
    optional: true,
  },
  {
    key: 'extraCostPounds',
    label: 'Extra cost of the heat pump',
    unit: '£',
    format: 'pounds',
    description: 'What it cost beyond a new boiler, after grants; blank: no payback.',
    initial: null,
    min: 0,
    optional: true,
  },
];

/** Input columns of last year's gas, a row a month (or other stretch of about the same length). */
export const GAS_MONTH_INPUTS: readonly HeatingInput[] = [
  {
    key: 'gasDays',
    label: 'Days',
    unit: 'days',
    format: 'number0',
    description: 'Calendar days that the gas was metered over.',
    initial: null,
    min: 1,
    optional: true,
  },
  {
    key: 'gasKwh',
    label: 'Gas',
    unit: 'kWh',
    format: 'number0',
    description: 'Gas metered over those days.',
    initial: null,
    min: 0,
    optional: true,
  },
  {
    key: 'gasDegreeDays',
    label: 'Degree days',
    unit: '°C·day',
    format: 'number1',
    description: 'Heating degree days of those days, at the same base as everywhere.',
    initial: null,
    min: 0,
    optional: true,
  },
];

/** Input columns of the months compared, a row a month. */
export const HEATING_MONTH_INPUTS: readonly HeatingInput[] = [
  {
    key: 'monthSerial',
    label: 'Month',
    unit: 'date',
    format: 'date',
    description: 'First day of the month.',
    initial: null,
    optional: true,
  },
  {
    key: 'days',
    label: 'Days',
    unit: 'days',
    format: 'number0',
    description: 'Days compared.',
    initial: null,
    min: 1,
    max: 31,
    optional: true,
  },
  {
    key: 'electricityKwh',
    label: 'Electricity in',
    unit: 'kWh',
    format: 'number0',
    description: 'Electricity that the heat pump took.',
    initial: null,
    min: 0,
    optional: true,
  },
  {
    key: 'heatKwh',
    label: 'Heat out',
    unit: 'kWh',
    format: 'number0',
    description: 'Heat by the heat meter; blank where there is none.',
    initial: null,
    min: 0,
    optional: true,
  },
  {
    key: 'degreeDays',
    label: 'Degree days known',
    unit: '°C·day',
    format: 'number1',
    description: 'Heating degree days of the days that have a temperature.',
    initial: null,
    min: 0,
    optional: true,
  },
  {
    key: 'daysWithTemperature',
    label: 'Days with temperature',
    unit: 'days',
    format: 'number0',
    description: 'Days that the degree days cover; blank where a figure for the whole month was entered.',
    initial: null,
    min: 0,
    max: 31,
    optional: true,
  },
  {
    key: 'costHalfHourlyPounds',
    label: 'Cost at half-hourly rates',
    unit: '£',
    format: 'pounds',
    description:
      'The heat pump’s electricity at the chosen tariff’s rates, half-hour by half-hour; below zero where prices were.',
    initial: null,
    optional: true,
  },
  {
    key: 'costBatteryPounds',
    label: 'Cost through the battery',
    unit: '£',
    format: 'pounds',
    description: 'The heat pump’s share of what energy cost through the battery; blank without one.',
    initial: null,
    optional: true,
  },
  {
    key: 'monthSingleRatePence',
    label: 'Single rate of the month',
    unit: 'p/kWh',
    format: 'pence',
    description: 'Where it differs from the single rate above.',
    initial: null,
    min: 0,
    optional: true,
  },
  {
    key: 'monthGasRatePence',
    label: 'Gas rate of the month',
    unit: 'p/kWh',
    format: 'pence',
    description: 'Where it differs from the gas rate above.',
    initial: null,
    min: 0,
    optional: true,
  },
  {
    key: 'monthGasStandingPencePerDay',
    label: 'Gas standing charge of the month',
    unit: 'p/day',
    format: 'pence',
    description: 'Where it differs from the standing charge above.',
    initial: null,
    min: 0,
    optional: true,
  },
];
