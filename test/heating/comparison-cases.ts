import type { HeatingInputs } from '../../src/heating/compare-heating.js';
import { KNOWN_RATES } from './known-rates.js';

/** Gas of an invented home by month, July first: days, kWh, degree days at 15.5 °C. */
const GAS_YEAR = [
  [31, 402, 18],
  [31, 391, 15],
  [30, 640, 60],
  [31, 1190, 158],
  [30, 1705, 262],
  [31, 2214, 352],
  [31, 2340, 371],
  [28, 1985, 318],
  [31, 1802, 277],
  [30, 1240, 179],
  [31, 830, 92],
  [30, 468, 36],
].map(([gasDays, gasKwh, gasDegreeDays]) => ({
  gasDays,
  gasKwh,
  gasDegreeDays,
})) as HeatingInputs['gasMonths'];

const month = (
  days: number,
  electricityKwh: number,
  heatKwh: number | null,
  degreeDays: number | null,
  more: Record<string, number> = {},
): Record<string, number | null> => ({ days, electricityKwh, heatKwh, degreeDays, ...more });

const WINTER = [
  month(30, 402, 1390, 238, { costHalfHourlyPounds: 88.2, costBatteryPounds: 61.5 }),
  month(31, 566, 1880, 340, {
    costHalfHourlyPounds: 121.9,
    costBatteryPounds: 92.4,
    monthGasRatePence: 7.11,
    monthGasStandingPencePerDay: 31.2,
  }),
  month(31, 611, 1979, 366, { costHalfHourlyPounds: 130.5, costBatteryPounds: 101.7 }),
  month(28, 497, 1655, 301, {
    costHalfHourlyPounds: 104.3,
    costBatteryPounds: 77.1,
    monthSingleRatePence: 27.4,
  }),
];
const SUMMER_OFF = month(31, 0, 0, 4, { costHalfHourlyPounds: 0, costBatteryPounds: 0 });
const EMPTY = {};

/** Homes that differ in what is known and how hot water is made, by what is special about them. */
export const COMPARISON_CASES: Readonly<Record<string, HeatingInputs>> = {
  'everything known': {
    settings: {
      ...KNOWN_RATES,
      yearDegreeDays: 2140,
      electricityCarbonKgPerKwh: 0.14,
      gasCarbonKgPerKwh: 0.18,
      extraCostPounds: 3100,
    },
    gasMonths: GAS_YEAR,
    months: WINTER,
  },
  'what stands beside the heat, rooms warmer now, no single rate': {
    settings: {
      ...KNOWN_RATES,
      singleRatePence: null,
      costBasis: 'half-hourly',
      yearDegreeDays: 2140,
      boilerElectricityKwhPerDay: 0.4,
      boilerServicingPoundsPerYear: 95,
      heatPumpServicingPoundsPerYear: 160,
      roomsWarmerC: 1.5,
      electricityCarbonKgPerKwh: 0.14,
      gasCarbonKgPerKwh: 0.18,
    },
    gasMonths: GAS_YEAR,
    months: [...WINTER, month(31, 210, 790, 110, { costHalfHourlyPounds: 50 }), SUMMER_OFF],
  },
  'half-hourly cost, immersion heaters, gas kept, a summer month with the heat pump off, empty rows': {
    settings: {
      ...KNOWN_RATES,
      costBasis: 'half-hourly',
      gasSupply: 'kept',
      heatPumpSideHotWater: 'immersion heater',
      boilerSideHotWater: 'immersion heater',
      otherGasKwhPerDay: 1.5,
      yearDegreeDays: 2140,
      electricityCarbonKgPerKwh: 0.14,
      gasCarbonKgPerKwh: 0.18,
    },
    gasMonths: [...GAS_YEAR, EMPTY, { gasDays: 30, gasKwh: null, gasDegreeDays: 40 }],
    months: [...WINTER, SUMMER_OFF, EMPTY, EMPTY],
  },
  'battery cost, hot water on neither side, gaps in temperature and heat': {
    settings: {
      ...KNOWN_RATES,
      costBasis: 'battery',
      hotWaterSide: 'neither',
      scaleDegreeDays: 'yes',
      yearDegreeDays: 2140,
    },
    gasMonths: GAS_YEAR,
    months: [
      { ...WINTER[0]!, daysWithTemperature: 27 },
      { ...WINTER[1]!, daysWithTemperature: 31 },
      { ...WINTER[2]!, heatKwh: null },
      { ...WINTER[3]!, daysWithTemperature: 0, degreeDays: 0 },
    ],
  },
  'gaps in temperature not scaled, battery cost missing in a month': {
    settings: { ...KNOWN_RATES, costBasis: 'battery', hotWaterSide: 'neither', yearDegreeDays: 2140 },
    gasMonths: GAS_YEAR,
    months: [
      { ...WINTER[0]!, daysWithTemperature: 27 },
      { ...WINTER[1]!, costBatteryPounds: null },
      WINTER[2]!,
    ],
  },
  'two gas months and a summer gas a day': {
    settings: { ...KNOWN_RATES, enteredBaseGasKwhPerDay: 12, confidence: 0.9 },
    gasMonths: GAS_YEAR.slice(5, 7),
    months: WINTER,
  },
  'two gas months alone': { settings: KNOWN_RATES, gasMonths: GAS_YEAR.slice(5, 7), months: WINTER },
  'paid to heat: half-hourly prices below zero in a short month': {
    settings: { ...KNOWN_RATES, costBasis: 'half-hourly', yearDegreeDays: 2140 },
    gasMonths: GAS_YEAR,
    months: [month(3, 31, 118, 14, { costHalfHourlyPounds: -1.35 })],
  },
  'no heat meter': {
    settings: { ...KNOWN_RATES, yearDegreeDays: 2140, boilerEfficiency: 0.9 },
    gasMonths: GAS_YEAR,
    months: WINTER.map((row) => ({ ...row, heatKwh: null })),
  },
  'three summer months without a degree day, on both sides': {
    settings: { ...KNOWN_RATES, yearDegreeDays: 2140 },
    gasMonths: [31, 31, 30].map((gasDays) => ({ gasDays, gasKwh: 13 * gasDays, gasDegreeDays: 0 })),
    months: [31, 31, 30].map((days) => month(days, 2 * days, 5 * days, 0)),
  },
  'one winter month': {
    settings: { ...KNOWN_RATES, yearDegreeDays: 2140 },
    gasMonths: [],
    months: WINTER.slice(1, 2),
  },
  'a month without days': { settings: KNOWN_RATES, gasMonths: [EMPTY], months: [{ electricityKwh: 100 }] },
  'rates, boiler and immersion heaters not typed yet': {
    settings: {
      hotWaterSide: 'both',
      heatPumpSideHotWater: 'immersion heater',
      boilerSideHotWater: 'immersion heater',
      yearDegreeDays: 2140,
    },
    gasMonths: GAS_YEAR,
    months: WINTER,
  },
  'the boiler alone not known, hot water on neither side': {
    settings: { ...KNOWN_RATES, boilerEfficiency: null, hotWaterSide: 'neither', yearDegreeDays: 2140 },
    gasMonths: GAS_YEAR,
    months: WINTER,
  },
  'the boiler alone not known': {
    settings: { ...KNOWN_RATES, boilerEfficiency: null, yearDegreeDays: 2140 },
    gasMonths: GAS_YEAR,
    months: WINTER,
  },
  'nothing yet': { settings: KNOWN_RATES, gasMonths: [EMPTY], months: [EMPTY] },
};
