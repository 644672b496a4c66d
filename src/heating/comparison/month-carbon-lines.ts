import { bothByImmersion, bothByImmersionFormula, choiceIs, isChoice } from './choices.js';
import { BLANK, type HeatingLine, lineOf } from './heating-line.js';

/** Carbon of both sides. A row a month; each line reads only lines above it. */
export const CARBON_MONTH_LINES: readonly HeatingLine[] = [
  {
    key: 'boilerGasBestKwh',
    label: 'Boiler’s gas',
    unit: 'kWh',
    format: 'number0',
    description: 'Mean of (a) and (b), or the one that there is.',
    value: (at) => {
      const meter = at.number('gasFromMeterKwh');
      const heat = at.number('gasFromHeatKwh');
      if (meter === null) return heat ?? BLANK;
      return heat === null ? meter : (meter + heat) / 2;
    },
    formula: (at) => {
      const both = `${at.cell('gasFromMeterKwh')},${at.cell('gasFromHeatKwh')}`;
      return `IF(COUNT(${both})=0,"",SUM(${both})/COUNT(${both}))`;
    },
  },
  lineOf(
    {
      key: 'heatPumpSideKwh',
      label: 'Electricity, heat pump’s side',
      unit: 'kWh',
      format: 'number0',
      description: 'Electricity in, with the immersion heater or without hot water, as the cost has it.',
    },
    ['electricityKwh', 'hotWaterHeatKwh', 'hotWaterInMeterKwh'],
    ([electricity, heat, inMeter], at) =>
      electricity! +
      (bothByImmersion(at, 'heatPumpSideHotWater') ? heat! : 0) -
      (isChoice(at, 'hotWaterSide', 'neither') ? inMeter! : 0),
    ([electricity, heat, inMeter], at) =>
      `${electricity}+IF(${bothByImmersionFormula(at, 'heatPumpSideHotWater')},${heat},0)` +
      `-IF(${choiceIs(at, 'hotWaterSide', 'neither')},${inMeter},0)`,
  ),
  lineOf(
    {
      key: 'heatPumpCarbonKg',
      label: 'Carbon, heat pump’s side',
      unit: 'kg CO₂e',
      format: 'number0',
      description: 'Electricity of its side × carbon factor.',
    },
    ['heatPumpSideKwh', 'electricityCarbonKgPerKwh'],
    ([electricity, factor]) => electricity! * factor!,
    ([electricity, factor]) => `${electricity}*${factor}`,
  ),
  lineOf(
    {
      key: 'boilerSideKwh',
      label: 'Electricity, boiler’s side',
      unit: 'kWh',
      format: 'number0',
      description: 'Its own, where that is typed, and the immersion heater’s where it made the hot water.',
    },
    ['days', 'hotWaterHeatKwh'],
    ([days, heat], at) =>
      (at.number('boilerElectricityKwhPerDay') ?? 0) * days! +
      (bothByImmersion(at, 'boilerSideHotWater') ? heat! : 0),
    ([days, heat], at) =>
      `SUM(${at.cell('boilerElectricityKwhPerDay')})*${days}+IF(${bothByImmersionFormula(at, 'boilerSideHotWater')},${heat},0)`,
  ),
  lineOf(
    {
      key: 'boilerCarbonKg',
      label: 'Carbon, boiler’s side',
      unit: 'kg CO₂e',
      format: 'number0',
      description: 'Boiler’s gas × carbon factor, + electricity of its side × carbon factor.',
    },
    ['boilerGasBestKwh', 'gasCarbonKgPerKwh', 'boilerSideKwh', 'electricityCarbonKgPerKwh'],
    ([gas, gasFactor, electricity, electricityFactor]) =>
      gas! * gasFactor! + electricity! * electricityFactor!,
    ([gas, gasFactor, electricity, electricityFactor]) =>
      `${gas}*${gasFactor}+${electricity}*${electricityFactor}`,
  ),
];
