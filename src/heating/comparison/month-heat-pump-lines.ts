import { breakEvenCop } from '../break-even-cop.js';
import { breakEvenElectricityRate } from '../break-even-electricity-rate.js';
import { coefficientOfPerformance } from '../coefficient-of-performance.js';
import { bothByImmersion, bothByImmersionFormula, choiceIs, isChoice } from './choices.js';
import { BLANK, type HeatingLine, lineOf } from './heating-line.js';
import { hotWaterPaid } from './hot-water-paid.js';
import { servicingLine } from './servicing-line.js';

/** A rate of the month where it is given, else the one for all months. */
function rateUsed(key: string, label: string, unit: string, monthKey: string, inputKey: string): HeatingLine {
  return {
    key,
    label,
    unit,
    format: 'pence',
    description: 'The month’s own where it is given, else the one for all months.',
    value: (at) =>
      at.number('days') === null ? BLANK : (at.number(monthKey) ?? at.number(inputKey) ?? BLANK),
    formula: (at) => {
      const [days, month, input] = [at.cell('days'), at.cell(monthKey), at.cell(inputKey)];
      return `IF(COUNT(${days})=0,"",IF(COUNT(${month})=1,${month},IF(COUNT(${input})=1,${input},"")))`;
    },
  };
}

/** What the heat pump did and what its side cost. A row a month; each line reads only lines above it. */
export const HEAT_PUMP_MONTH_LINES: readonly HeatingLine[] = [
  rateUsed('singleRateUsedPence', 'Single rate used', 'p/kWh', 'monthSingleRatePence', 'singleRatePence'),
  rateUsed('gasRateUsedPence', 'Gas rate used', 'p/kWh', 'monthGasRatePence', 'gasRatePence'),
  rateUsed(
    'gasStandingUsedPence',
    'Gas standing charge used',
    'p/day',
    'monthGasStandingPencePerDay',
    'gasStandingPencePerDay',
  ),
  lineOf(
    {
      key: 'cop',
      label: 'COP',
      unit: 'kWh heat/kWh electricity',
      format: 'number2',
      description: 'Heat out ÷ electricity in.',
    },
    ['heatKwh', 'electricityKwh'],
    ([heat, electricity]) => (electricity! > 0 ? coefficientOfPerformance(heat!, electricity!) : BLANK),
    ([heat, electricity]) => `IF(${electricity}>0,${heat}/${electricity},"")`,
  ),
  {
    key: 'degreeDaysUsed',
    label: 'Degree days',
    unit: '°C·day',
    format: 'number1',
    description:
      'Known degree days where they cover every day; else scaled up if that was chosen, else blank. A figure without a count of days is taken as whole.',
    value: (at) => {
      const degreeDays = at.number('degreeDays');
      const days = at.number('days');
      if (degreeDays === null || days === null) return BLANK;
      const covered = at.number('daysWithTemperature');
      if (covered === null || covered >= days) return degreeDays;
      return isChoice(at, 'scaleDegreeDays', 'yes') && covered > 0 ? (degreeDays * days) / covered : BLANK;
    },
    formula: (at) => {
      const [degreeDays, days, covered] = ['degreeDays', 'days', 'daysWithTemperature'].map(at.cell);
      return (
        `IF(COUNT(${degreeDays},${days})<2,"",IF(COUNT(${covered})=0,${degreeDays},IF(${covered}>=${days},${degreeDays},` +
        `IF(AND(${choiceIs(at, 'scaleDegreeDays', 'yes')},${covered}>0),${degreeDays}*${days}/${covered},""))))`
      );
    },
  },
  lineOf(
    {
      key: 'electricityPerDegreeDay',
      label: 'Electricity a degree day',
      unit: 'kWh/(°C·day)',
      format: 'number2',
      description: 'Electricity in ÷ degree days.',
    },
    ['electricityKwh', 'degreeDaysUsed'],
    ([electricity, degreeDays]) => (degreeDays! > 0 ? electricity! / degreeDays! : BLANK),
    ([electricity, degreeDays]) => `IF(${degreeDays}>0,${electricity}/${degreeDays},"")`,
  ),
  lineOf(
    {
      key: 'heatPerDegreeDay',
      label: 'Heat a degree day',
      unit: 'kWh/(°C·day)',
      format: 'number2',
      description: 'Heat out ÷ degree days.',
    },
    ['heatKwh', 'degreeDaysUsed'],
    ([heat, degreeDays]) => (degreeDays! > 0 ? heat! / degreeDays! : BLANK),
    ([heat, degreeDays]) => `IF(${degreeDays}>0,${heat}/${degreeDays},"")`,
  ),
  lineOf(
    {
      key: 'costSingleRatePounds',
      label: 'Cost at the single rate',
      unit: '£',
      format: 'pounds',
      description: 'Electricity in × single rate.',
    },
    ['electricityKwh', 'singleRateUsedPence'],
    ([electricity, rate]) => (electricity! * rate!) / 100,
    ([electricity, rate]) => `${electricity}*${rate}/100`,
  ),
  {
    key: 'costChosenPounds',
    label: 'Cost on the chosen basis',
    unit: '£',
    format: 'pounds',
    description:
      'The cost that the comparison uses; electricity’s standing charge is paid either way and left out.',
    value: (at) => {
      const basis = at.text('costBasis');
      const key =
        basis === 'half-hourly'
          ? 'costHalfHourlyPounds'
          : basis === 'battery'
            ? 'costBatteryPounds'
            : 'costSingleRatePounds';
      return at.number(key) ?? BLANK;
    },
    formula: (at) => {
      const shown = (key: string): string => `IF(COUNT(${at.cell(key)})=1,${at.cell(key)},"")`;
      return (
        `IF(${choiceIs(at, 'costBasis', 'single rate')},${shown('costSingleRatePounds')},` +
        `IF(${choiceIs(at, 'costBasis', 'half-hourly')},${shown('costHalfHourlyPounds')},` +
        `IF(${choiceIs(at, 'costBasis', 'battery')},${shown('costBatteryPounds')},NA())))`
      );
    },
  },
  lineOf(
    {
      key: 'averageRatePence',
      label: 'Average rate paid',
      unit: 'p/kWh',
      format: 'pence',
      description: 'Cost on the chosen basis ÷ electricity in.',
    },
    ['costChosenPounds', 'electricityKwh'],
    ([cost, electricity]) => (electricity! > 0 ? (cost! * 100) / electricity! : BLANK),
    ([cost, electricity]) => `IF(${electricity}>0,${cost}*100/${electricity},"")`,
  ),
  lineOf(
    {
      key: 'breakEvenCop',
      label: 'Break-even COP',
      unit: 'kWh heat/kWh electricity',
      format: 'number2',
      description: 'Average rate ÷ gas rate × boiler efficiency; above it the heat pump is cheaper.',
    },
    ['averageRatePence', 'gasRateUsedPence', 'boilerEfficiency'],
    ([rate, gas, efficiency]) => (gas! > 0 && rate! >= 0 ? breakEvenCop(rate!, gas!, efficiency!) : BLANK),
    ([rate, gas, efficiency]) => `IF(AND(${gas}>0,${rate}>=0),${rate}/${gas}*${efficiency},"")`,
  ),
  lineOf(
    {
      key: 'breakEvenElectricityPence',
      label: 'Break-even electricity rate',
      unit: 'p/kWh',
      format: 'pence',
      description: 'Gas rate ÷ boiler efficiency × COP; below it the heat pump is cheaper.',
    },
    ['gasRateUsedPence', 'boilerEfficiency', 'cop'],
    ([gas, efficiency, cop]) => (cop! > 0 ? breakEvenElectricityRate(gas!, efficiency!, cop!) : BLANK),
    ([gas, efficiency, cop]) => `IF(${cop}>0,${gas}/${efficiency}*${cop},"")`,
  ),
  lineOf(
    {
      key: 'hotWaterHeatKwh',
      label: 'Hot water heat',
      unit: 'kWh',
      format: 'number0',
      description:
        'Hot water heat a day × days; where the heat pump makes it, at most what its heat meter shows.',
    },
    ['hotWaterKwhPerDay', 'days'],
    ([heat, days], at) => {
      const metered = isChoice(at, 'heatPumpSideHotWater', 'heat pump') ? at.number('heatKwh') : null;
      return Math.min(heat! * days!, metered ?? Number.POSITIVE_INFINITY);
    },
    ([heat, days], at) => {
      const metered = at.cell('heatKwh');
      const limited = `AND(${choiceIs(at, 'heatPumpSideHotWater', 'heat pump')},COUNT(${metered})=1)`;
      return `IF(${limited},MIN(${heat}*${days},${metered}),${heat}*${days})`;
    },
  ),
  lineOf(
    {
      key: 'hotWaterInMeterKwh',
      label: 'Hot water in the heat pump’s electricity',
      unit: 'kWh',
      format: 'number0',
      description: 'Hot water heat ÷ its COP where the heat pump makes it, at most all of its electricity.',
    },
    ['hotWaterHeatKwh', 'hotWaterCop', 'electricityKwh'],
    ([heat, cop, electricity], at) =>
      isChoice(at, 'heatPumpSideHotWater', 'heat pump') ? Math.min(electricity!, heat! / cop!) : 0,
    ([heat, cop, electricity], at) =>
      `IF(${choiceIs(at, 'heatPumpSideHotWater', 'heat pump')},MIN(${electricity},${heat}/${cop}),0)`,
  ),
  lineOf(
    {
      key: 'heatPumpSideHotWaterPounds',
      label: 'Hot water, heat pump’s side',
      unit: '£',
      format: 'pounds',
      description:
        'Where it is on both sides: by immersion heater at its rate, or the heat pump’s at the average rate paid.',
    },
    [
      'hotWaterHeatKwh',
      'heatPumpSideHotWaterPence',
      'hotWaterInMeterKwh',
      'costChosenPounds',
      'electricityKwh',
    ],
    ([heat, immersionRate, inMeter, cost, electricity], at) => {
      if (!isChoice(at, 'hotWaterSide', 'both')) return 0;
      if (isChoice(at, 'heatPumpSideHotWater', 'immersion heater')) return (heat! * immersionRate!) / 100;
      return electricity! > 0 ? (cost! * inMeter!) / electricity! : 0;
    },
    ([heat, immersionRate, inMeter, cost, electricity], at) =>
      `IF(${choiceIs(at, 'hotWaterSide', 'both')},IF(${choiceIs(at, 'heatPumpSideHotWater', 'immersion heater')},` +
      `${heat}*${immersionRate}/100,IF(${electricity}>0,${cost}*${inMeter}/${electricity},0)),0)`,
  ),
  hotWaterPaid(
    'heatPumpSideHotWaterPaidPence',
    'Paid for hot water, heat pump’s side',
    'heatPumpSideHotWaterPounds',
  ),
  servicingLine(
    'heatPumpServicingMonthPounds',
    'Servicing of the heat pump',
    'heatPumpServicingPoundsPerYear',
  ),
  lineOf(
    {
      key: 'heatPumpFixedPounds',
      label: 'Heat pump’s side beside the heat pump',
      unit: '£',
      format: 'pounds',
      description:
        'Immersion heater where hot water is on both sides, gas standing charge where gas was kept, and servicing.',
    },
    [
      'hotWaterHeatKwh',
      'heatPumpSideHotWaterPence',
      'gasStandingUsedPence',
      'days',
      'heatPumpServicingMonthPounds',
    ],
    ([heat, rate, standing, days, servicing], at) =>
      (bothByImmersion(at, 'heatPumpSideHotWater') ? (heat! * rate!) / 100 : 0) +
      (isChoice(at, 'gasSupply', 'kept') ? (standing! * days!) / 100 : 0) +
      servicing!,
    ([heat, rate, standing, days, servicing], at) =>
      `IF(${bothByImmersionFormula(at, 'heatPumpSideHotWater')},${heat}*${rate}/100,0)+` +
      `IF(${choiceIs(at, 'gasSupply', 'kept')},${standing}*${days}/100,0)+${servicing}`,
  ),
  lineOf(
    {
      key: 'heatPumpEnergyPounds',
      label: 'Heat pump’s electricity compared',
      unit: '£',
      format: 'pounds',
      description: 'Cost on the chosen basis, less hot water’s part where hot water is on neither side.',
    },
    ['costChosenPounds', 'hotWaterInMeterKwh', 'electricityKwh'],
    ([cost, hotWater, electricity], at) =>
      isChoice(at, 'hotWaterSide', 'neither') && electricity! > 0
        ? cost! * (1 - hotWater! / electricity!)
        : cost!,
    ([cost, hotWater, electricity], at) =>
      `IF(AND(${choiceIs(at, 'hotWaterSide', 'neither')},${electricity}>0),${cost}*(1-${hotWater}/MAX(${electricity},1E-9)),${cost})`,
  ),
  lineOf(
    {
      key: 'heatPumpSidePounds',
      label: 'Heat pump’s side',
      unit: '£',
      format: 'pounds',
      description: 'Electricity compared + what its side pays beside.',
    },
    ['heatPumpEnergyPounds', 'heatPumpFixedPounds'],
    ([energy, fixed]) => energy! + fixed!,
    ([energy, fixed]) => `${energy}+${fixed}`,
  ),
];
