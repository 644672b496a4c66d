import { estimateBoilerFromHeat } from '../estimate-boiler-from-heat.js';
import { estimateBoilerFromMeter, estimateBoilerFromMeterDescribed } from '../estimate-boiler-from-meter.js';
import { bothByImmersion, bothByImmersionFormula, choiceIs, isChoice } from './choices.js';
import { energyAndFixedOf, type HeatingLine, lineOf } from './heating-line.js';
import { hotWaterPaid } from './hot-water-paid.js';
import { gasPredictionErrorLine } from './prediction-error.js';

/** What the boiler’s side would have cost, estimated twice. A row a month; each line reads only lines above it. */
export const BOILER_MONTH_LINES: readonly HeatingLine[] = [
  lineOf(
    {
      key: 'boilerHeatKwh',
      label: 'Heat from the boiler',
      unit: 'kWh',
      format: 'number0',
      description:
        'Heat out without hot water, + hot water heat where it is on both sides and the boiler made it. At least 0.',
    },
    ['heatKwh', 'hotWaterHeatKwh'],
    ([heat, hotWater], at) =>
      Math.max(0, heat! - (isChoice(at, 'heatPumpSideHotWater', 'heat pump') ? hotWater! : 0)) +
      (isChoice(at, 'hotWaterSide', 'both') && isChoice(at, 'boilerSideHotWater', 'boiler') ? hotWater! : 0),
    ([heat, hotWater], at) =>
      `MAX(0,${heat}-IF(${choiceIs(at, 'heatPumpSideHotWater', 'heat pump')},${hotWater},0))+` +
      `IF(AND(${choiceIs(at, 'hotWaterSide', 'both')},${choiceIs(at, 'boilerSideHotWater', 'boiler')}),${hotWater},0)`,
  ),
  lineOf(
    {
      key: 'boilerSideHotWaterPounds',
      label: 'Hot water, boiler’s side',
      unit: '£',
      format: 'pounds',
      description:
        'Where it is on both sides: by boiler at the gas rate, or by immersion heater at its rate.',
    },
    ['hotWaterHeatKwh', 'boilerSideHotWaterPence', 'gasRateUsedPence', 'boilerEfficiency'],
    ([heat, immersionRate, gasRate, efficiency], at) => {
      if (!isChoice(at, 'hotWaterSide', 'both')) return 0;
      return isChoice(at, 'boilerSideHotWater', 'boiler')
        ? ((heat! / efficiency!) * gasRate!) / 100
        : (heat! * immersionRate!) / 100;
    },
    ([heat, immersionRate, gasRate, efficiency], at) =>
      `IF(${choiceIs(at, 'hotWaterSide', 'both')},IF(${choiceIs(at, 'boilerSideHotWater', 'boiler')},` +
      `${heat}/${efficiency}*${gasRate}/100,${heat}*${immersionRate}/100),0)`,
  ),
  hotWaterPaid(
    'boilerSideHotWaterPaidPence',
    'Paid for hot water, boiler’s side',
    'boilerSideHotWaterPounds',
  ),
  lineOf(
    {
      key: 'boilerFixedPounds',
      label: 'Boiler’s side beside gas burnt',
      unit: '£',
      format: 'pounds',
      description:
        'Gas standing charge, and the immersion heater where it made hot water and that is on both sides.',
    },
    ['gasStandingUsedPence', 'days', 'hotWaterHeatKwh', 'boilerSideHotWaterPence'],
    ([standing, days, heat, rate], at) =>
      (standing! * days!) / 100 + (bothByImmersion(at, 'boilerSideHotWater') ? (heat! * rate!) / 100 : 0),
    ([standing, days, heat, rate], at) =>
      `${standing}*${days}/100+IF(${bothByImmersionFormula(at, 'boilerSideHotWater')},${heat}*${rate}/100,0)`,
  ),
  lineOf(
    {
      key: 'gasFromMeterKwh',
      label: 'Boiler’s gas, from last year’s meter (a)',
      unit: 'kWh',
      format: 'number0',
      description: 'Base × days + weather part × degree days − gas left out × days; at least 0.',
    },
    ['gasBaseKwhPerDay', 'gasKwhPerDegreeDay', 'days', 'degreeDaysUsed', 'leaveOutGasKwhPerDay'],
    ([baseKwhPerDay, kwhPerDegreeDay, days, degreeDays, leaveOutKwhPerDay]) =>
      estimateBoilerFromMeter({
        baseKwhPerDay: baseKwhPerDay!,
        kwhPerDegreeDay: kwhPerDegreeDay!,
        days: days!,
        degreeDays: degreeDays!,
        leaveOutKwhPerDay: leaveOutKwhPerDay!,
      }),
    (cells) => estimateBoilerFromMeterDescribed.formula!(cells),
  ),
  gasPredictionErrorLine(
    {
      key: 'gasFromMeterStandardError',
      label: 'Standard error of (a)',
      unit: 'kWh',
      format: 'number0',
      description: 'Doubt in the fitted line and scatter of a single month; blank with an entered base.',
    },
    'days',
    'degreeDaysUsed',
    1,
  ),
  energyAndFixedOf(
    {
      key: 'boilerFromMeterPounds',
      label: 'Boiler’s side, from last year’s meter (a)',
      unit: '£',
      format: 'pounds',
      description: 'Gas (a) × gas rate + what its side pays beside.',
    },
    'gasFromMeterKwh',
    'gasRateUsedPence',
    'boilerFixedPounds',
  ),
  lineOf(
    {
      key: 'gasFromHeatKwh',
      label: 'Boiler’s gas, from heat delivered (b)',
      unit: 'kWh',
      format: 'number0',
      description: 'Heat from the boiler ÷ boiler efficiency; blank without a heat meter.',
    },
    ['boilerHeatKwh', 'boilerEfficiency'],
    ([heat, efficiency]) => estimateBoilerFromHeat(heat!, efficiency!),
    ([heat, efficiency]) => `${heat}/${efficiency}`,
  ),
  energyAndFixedOf(
    {
      key: 'boilerFromHeatPounds',
      label: 'Boiler’s side, from heat delivered (b)',
      unit: '£',
      format: 'pounds',
      description: 'Gas (b) × gas rate + what its side pays beside.',
    },
    'gasFromHeatKwh',
    'gasRateUsedPence',
    'boilerFixedPounds',
  ),
];
