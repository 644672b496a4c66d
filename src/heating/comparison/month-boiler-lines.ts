import { estimateBoilerFromHeat } from '../estimate-boiler-from-heat.js';
import { estimateBoilerFromMeter, estimateBoilerFromMeterDescribed } from '../estimate-boiler-from-meter.js';
import { bothByImmersion, bothByImmersionFormula, choiceIs, isChoice } from './choices.js';
import { BLANK, energyAndFixedOf, type HeatingLine, lineOf } from './heating-line.js';
import { hotWaterPaid } from './hot-water-paid.js';
import { gasPredictionErrorLine } from './prediction-error.js';
import { servicingLine } from './servicing-line.js';

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
  {
    key: 'boilerElectricityRatePence',
    label: 'Rate of the boiler’s electricity',
    unit: 'p/kWh',
    format: 'pence',
    description: 'The single rate of the month; without one, the average rate that the heat pump paid.',
    value: (at) => at.number('singleRateUsedPence') ?? at.number('averageRatePence') ?? BLANK,
    formula: (at) => {
      const single = at.cell('singleRateUsedPence');
      return `IF(COUNT(${single})=1,${single},${at.cell('averageRatePence')})`;
    },
  },
  {
    key: 'boilerElectricityPounds',
    label: 'Boiler’s own electricity',
    unit: '£',
    format: 'pounds',
    description: 'A day’s × days × its rate; 0 where none is typed.',
    value: (at) => {
      const [day, days] = [at.number('boilerElectricityKwhPerDay'), at.number('days')];
      if (day === null) return 0;
      const rate = at.number('boilerElectricityRatePence');
      return days === null || rate === null ? BLANK : (day * days * rate) / 100;
    },
    formula: (at) => {
      const [day, days, rate] = ['boilerElectricityKwhPerDay', 'days', 'boilerElectricityRatePence'].map(
        at.cell,
      );
      return `IF(COUNT(${day})=0,0,IF(COUNT(${days},${rate})<2,"",${day}*${days}*${rate}/100))`;
    },
  },
  servicingLine('boilerServicingMonthPounds', 'Servicing of the boiler', 'boilerServicingPoundsPerYear'),
  lineOf(
    {
      key: 'boilerFixedPounds',
      label: 'Boiler’s side beside gas burnt',
      unit: '£',
      format: 'pounds',
      description:
        'Gas standing charge, the immersion heater where it made hot water and that is on both sides, the boiler’s electricity and servicing.',
    },
    [
      'gasStandingUsedPence',
      'days',
      'hotWaterHeatKwh',
      'boilerSideHotWaterPence',
      'boilerElectricityPounds',
      'boilerServicingMonthPounds',
    ],
    ([standing, days, heat, rate, electricity, servicing], at) =>
      (standing! * days!) / 100 +
      (bothByImmersion(at, 'boilerSideHotWater') ? (heat! * rate!) / 100 : 0) +
      electricity! +
      servicing!,
    ([standing, days, heat, rate, electricity, servicing], at) =>
      `${standing}*${days}/100+IF(${bothByImmersionFormula(at, 'boilerSideHotWater')},${heat}*${rate}/100,0)+${electricity}+${servicing}`,
  ),
  lineOf(
    {
      key: 'meterDegreeDays',
      label: 'Degree days for last year’s gas',
      unit: '°C·day',
      format: 'number1',
      description:
        'Degree days, and for rooms warmer than then so much more on each day of a month that is heated: with a degree day a day.',
    },
    ['degreeDaysUsed', 'days'],
    ([degreeDays, days], at) =>
      degreeDays! >= days!
        ? Math.max(0, degreeDays! + (at.number('roomsWarmerC') ?? 0) * days!)
        : degreeDays!,
    ([degreeDays, days], at) =>
      `IF(${degreeDays}>=${days},MAX(0,${degreeDays}+SUM(${at.cell('roomsWarmerC')})*${days}),${degreeDays})`,
  ),
  lineOf(
    {
      key: 'gasFromMeterKwh',
      label: 'Boiler’s gas, from last year’s meter (a)',
      unit: 'kWh',
      format: 'number0',
      description: 'Base × days + weather part × degree days − gas left out × days; at least 0.',
    },
    ['gasBaseKwhPerDay', 'gasKwhPerDegreeDay', 'days', 'meterDegreeDays', 'leaveOutGasKwhPerDay'],
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
    'meterDegreeDays',
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
