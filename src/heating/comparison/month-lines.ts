import { boilerEfficiencyAtEqualCost } from '../boiler-efficiency-at-equal-cost.js';
import { breakEvenCop } from '../break-even-cop.js';
import { breakEvenElectricityRate } from '../break-even-electricity-rate.js';
import { coefficientOfPerformance } from '../coefficient-of-performance.js';
import { estimateBoilerFromHeat } from '../estimate-boiler-from-heat.js';
import { estimateBoilerFromMeter, estimateBoilerFromMeterDescribed } from '../estimate-boiler-from-meter.js';
import { estimatesApart, estimatesApartDescribed } from '../estimates-apart.js';
import { heatingVerdict, heatingVerdictDescribed } from '../heating-verdict.js';
import { predictionStandardError } from '../predict-use.js';
import { BLANK, type HeatingLine, type LineReferences, type LineValues, lineOf } from './heating-line.js';

/** A rate of the month where it is given, else the one for all months. */
function rateUsed(key: string, label: string, unit: string, monthKey: string, inputKey: string): HeatingLine {
  return {
    key,
    label,
    unit,
    format: 'pence',
    description: 'The month’s own where it is given, else the one for all months.',
    value: (at) => (at.number('days') === null ? BLANK : (at.number(monthKey) ?? at.number(inputKey)!)),
    formula: (at) =>
      `IF(COUNT(${at.cell('days')})=0,"",IF(COUNT(${at.cell(monthKey)})=1,${at.cell(monthKey)},${at.cell(inputKey)}))`,
  };
}

/** What a kWh of hot water cost on one side: paying it at the wrong rate is the usual slip, so the rate is shown. */
function hotWaterPaid(key: string, label: string, poundsKey: string): HeatingLine {
  return lineOf(
    {
      key,
      label,
      unit: 'p/kWh of heat',
      format: 'pence',
      description: 'Cost of hot water on this side ÷ its heat; an immersion heater pays its own rate.',
    },
    [poundsKey, 'hotWaterHeatKwh'],
    ([cost, heat]) => (heat! > 0 ? (cost! * 100) / heat! : BLANK),
    ([cost, heat]) => `IF(${heat}>0,${cost}*100/${heat},"")`,
  );
}

const isChoice = (at: LineValues, key: string, choice: string): boolean => at.text(key) === choice;
const choiceIs = (at: LineReferences, key: string, choice: string): string => `${at.cell(key)}="${choice}"`;

const bothByImmersion = (at: LineValues, sideKey: string): boolean =>
  isChoice(at, 'hotWaterSide', 'both') && isChoice(at, sideKey, 'immersion heater');
const bothByImmersionFormula = (at: LineReferences, sideKey: string): string =>
  `AND(${choiceIs(at, 'hotWaterSide', 'both')},${choiceIs(at, sideKey, 'immersion heater')})`;

/** Columns of the months compared, a row a month, in the order of the sheet. */
export const HEATING_MONTH_LINES: readonly HeatingLine[] = [
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
    ([rate, gas, efficiency]) => (gas! > 0 ? breakEvenCop(rate!, gas!, efficiency!) : BLANK),
    ([rate, gas, efficiency]) => `IF(${gas}>0,${rate}/${gas}*${efficiency},"")`,
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
      description: 'Hot water heat a day × days.',
    },
    ['hotWaterKwhPerDay', 'days'],
    ([heat, days]) => heat! * days!,
    ([heat, days]) => `${heat}*${days}`,
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
  lineOf(
    {
      key: 'heatPumpFixedPounds',
      label: 'Heat pump’s side beside the heat pump',
      unit: '£',
      format: 'pounds',
      description:
        'Immersion heater where hot water is on both sides, and gas standing charge where gas was kept.',
    },
    ['hotWaterHeatKwh', 'heatPumpSideHotWaterPence', 'gasStandingUsedPence', 'days'],
    ([heat, rate, standing, days], at) =>
      (bothByImmersion(at, 'heatPumpSideHotWater') ? (heat! * rate!) / 100 : 0) +
      (isChoice(at, 'gasSupply', 'kept') ? (standing! * days!) / 100 : 0),
    ([heat, rate, standing, days], at) =>
      `IF(${bothByImmersionFormula(at, 'heatPumpSideHotWater')},${heat}*${rate}/100,0)+` +
      `IF(${choiceIs(at, 'gasSupply', 'kept')},${standing}*${days}/100,0)`,
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
  lineOf(
    {
      key: 'gasFromMeterStandardError',
      label: 'Standard error of (a)',
      unit: 'kWh',
      format: 'number0',
      description: 'Doubt in the fitted line and scatter of a single month; blank with an entered base.',
    },
    [
      'gasResidualKwhPerDay',
      'gasFitMonths',
      'gasMeanDegreeDaysPerDay',
      'gasDegreeDaysSpread',
      'days',
      'degreeDaysUsed',
    ],
    ([residualStandardError, periods, meanDegreeDaysPerDay, degreeDaysSpread, days, degreeDays]) =>
      predictionStandardError(
        {
          residualStandardError: residualStandardError!,
          periods: periods!,
          meanDegreeDaysPerDay: meanDegreeDaysPerDay!,
          degreeDaysSpread: degreeDaysSpread!,
        },
        { days: days!, degreeDays: degreeDays!, periods: 1 },
      ),
    ([scatter, months, mean, spread, days, degreeDays]) =>
      `${scatter}*SQRT(${days}^2/${months}+(${degreeDays}-${days}*${mean})^2/${spread}+${days}^2)`,
  ),
  lineOf(
    {
      key: 'boilerFromMeterPounds',
      label: 'Boiler’s side, from last year’s meter (a)',
      unit: '£',
      format: 'pounds',
      description: 'Gas (a) × gas rate + what its side pays beside.',
    },
    ['gasFromMeterKwh', 'gasRateUsedPence', 'boilerFixedPounds'],
    ([gas, rate, fixed]) => (gas! * rate!) / 100 + fixed!,
    ([gas, rate, fixed]) => `${gas}*${rate}/100+${fixed}`,
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
  lineOf(
    {
      key: 'boilerFromHeatPounds',
      label: 'Boiler’s side, from heat delivered (b)',
      unit: '£',
      format: 'pounds',
      description: 'Gas (b) × gas rate + what its side pays beside.',
    },
    ['gasFromHeatKwh', 'gasRateUsedPence', 'boilerFixedPounds'],
    ([gas, rate, fixed]) => (gas! * rate!) / 100 + fixed!,
    ([gas, rate, fixed]) => `${gas}*${rate}/100+${fixed}`,
  ),
  lineOf(
    {
      key: 'estimatesDifferencePounds',
      label: '(a) less (b)',
      unit: '£',
      format: 'pounds',
      description: 'How far the two estimates of the boiler’s side lie apart.',
    },
    ['boilerFromMeterPounds', 'boilerFromHeatPounds'],
    ([meter, heat]) => meter! - heat!,
    ([meter, heat]) => `${meter}-${heat}`,
  ),
  lineOf(
    {
      key: 'estimatesMeanPounds',
      label: 'Mean of (a) and (b)',
      unit: '£',
      format: 'pounds',
      description: 'Where both are known.',
    },
    ['boilerFromMeterPounds', 'boilerFromHeatPounds'],
    ([meter, heat]) => (meter! + heat!) / 2,
    ([meter, heat]) => `(${meter}+${heat})/2`,
  ),
  lineOf(
    {
      key: 'estimatesApartShare',
      label: 'How far apart',
      unit: 'share',
      format: 'share',
      description: 'Difference of the two as a share of their mean.',
    },
    ['boilerFromMeterPounds', 'boilerFromHeatPounds'],
    ([meter, heat]) => estimatesApart(meter!, heat!),
    (cells) => estimatesApartDescribed.formula!(cells),
  ),
  lineOf(
    {
      key: 'differenceFromMeterPounds',
      label: 'Heat pump less boiler (a)',
      unit: '£',
      format: 'pounds',
      description: 'Negative: the heat pump was cheaper.',
    },
    ['heatPumpSidePounds', 'boilerFromMeterPounds'],
    ([heatPump, boiler]) => heatPump! - boiler!,
    ([heatPump, boiler]) => `${heatPump}-${boiler}`,
  ),
  lineOf(
    {
      key: 'differenceFromHeatPounds',
      label: 'Heat pump less boiler (b)',
      unit: '£',
      format: 'pounds',
      description: 'Negative: the heat pump was cheaper.',
    },
    ['heatPumpSidePounds', 'boilerFromHeatPounds'],
    ([heatPump, boiler]) => heatPump! - boiler!,
    ([heatPump, boiler]) => `${heatPump}-${boiler}`,
  ),
  {
    key: 'differenceBestPounds',
    label: 'Heat pump less boiler',
    unit: '£',
    format: 'pounds',
    description: 'Mean of (a) and (b), or the one that there is.',
    value: (at) => {
      const meter = at.number('differenceFromMeterPounds');
      const heat = at.number('differenceFromHeatPounds');
      if (meter === null) return heat ?? BLANK;
      return heat === null ? meter : (meter + heat) / 2;
    },
    formula: (at) => {
      const both = `${at.cell('differenceFromMeterPounds')},${at.cell('differenceFromHeatPounds')}`;
      return `IF(COUNT(${both})=0,"",SUM(${both})/COUNT(${both}))`;
    },
  },
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
      key: 'boilerHeatAtGasRatePounds',
      label: 'That heat at the gas rate',
      unit: '£',
      format: 'pounds',
      description: 'Heat from the boiler × gas rate: what it would cost at an efficiency of 100%.',
    },
    ['boilerHeatKwh', 'gasRateUsedPence', 'heatPumpSidePounds'],
    ([heat, rate]) => (heat! * rate!) / 100,
    ([heat, rate]) => `${heat}*${rate}/100`,
  ),
  lineOf(
    {
      key: 'equalCostEfficiency',
      label: 'Boiler efficiency at equal cost',
      unit: 'share 0–1',
      format: 'share',
      description:
        'A better boiler would have been cheaper; above 100% none could. Blank: its fixed part alone costs more.',
    },
    ['boilerHeatKwh', 'gasRateUsedPence', 'heatPumpSidePounds', 'boilerFixedPounds'],
    ([heat, rate, cost, fixed]) => boilerEfficiencyAtEqualCost(heat!, rate!, cost!, fixed!) ?? BLANK,
    ([heat, rate, cost, fixed]) => `IF(${cost}-${fixed}>0,${heat}*${rate}/100/(${cost}-${fixed}),"")`,
  ),
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
      key: 'boilerCarbonKg',
      label: 'Carbon, boiler’s side',
      unit: 'kg CO₂e',
      format: 'number0',
      description:
        'Boiler’s gas × carbon factor, + the immersion heater’s electricity where it made the hot water.',
    },
    ['boilerGasBestKwh', 'gasCarbonKgPerKwh', 'hotWaterHeatKwh', 'electricityCarbonKgPerKwh'],
    ([gas, gasFactor, heat, electricityFactor], at) =>
      gas! * gasFactor! + (bothByImmersion(at, 'boilerSideHotWater') ? heat! * electricityFactor! : 0),
    ([gas, gasFactor, heat, electricityFactor], at) =>
      `${gas}*${gasFactor}+IF(${bothByImmersionFormula(at, 'boilerSideHotWater')},${heat}*${electricityFactor},0)`,
  ),
  lineOf(
    {
      key: 'fitDegreeDaysPerDay',
      label: 'Degree days a day',
      unit: '°C',
      format: 'number2',
      description: 'For the annual figure: degree days ÷ days where electricity is known.',
    },
    ['degreeDaysUsed', 'days', 'electricityKwh'],
    ([degreeDays, days]) => degreeDays! / days!,
    ([degreeDays, days]) => `${degreeDays}/${days}`,
  ),
  lineOf(
    {
      key: 'fitElectricityKwhPerDay',
      label: 'Electricity a day',
      unit: 'kWh/day',
      format: 'number2',
      description: 'For the annual figure: electricity in ÷ days where degree days are known.',
    },
    ['electricityKwh', 'days', 'degreeDaysUsed'],
    ([electricity, days]) => electricity! / days!,
    ([electricity, days]) => `${electricity}/${days}`,
  ),
  lineOf(
    {
      key: 'fitHeatDegreeDaysPerDay',
      label: 'Degree days a day, months with heat meter',
      unit: '°C',
      format: 'number2',
      description: 'For the annual figure: degree days ÷ days where heat is known.',
    },
    ['degreeDaysUsed', 'days', 'boilerHeatKwh'],
    ([degreeDays, days]) => degreeDays! / days!,
    ([degreeDays, days]) => `${degreeDays}/${days}`,
  ),
  lineOf(
    {
      key: 'fitBoilerHeatKwhPerDay',
      label: 'Heat from the boiler a day',
      unit: 'kWh/day',
      format: 'number2',
      description: 'For the annual figure: heat from the boiler ÷ days where degree days are known.',
    },
    ['boilerHeatKwh', 'days', 'degreeDaysUsed'],
    ([heat, days]) => heat! / days!,
    ([heat, days]) => `${heat}/${days}`,
  ),
  {
    key: 'monthVerdict',
    label: 'Verdict',
    unit: 'none',
    format: 'text',
    description: 'In words, from the lowest and highest of the estimates.',
    value: (at) => {
      if (at.number('days') === null) return BLANK;
      const heatPump = at.number('heatPumpSidePounds');
      if (heatPump === null) return NO_HEAT_PUMP_COST;
      const differences = [
        at.number('differenceFromMeterPounds'),
        at.number('differenceFromHeatPounds'),
      ].filter((d) => d !== null);
      if (differences.length === 0) return NO_ESTIMATE;
      return heatingVerdict(
        Math.min(...differences),
        Math.max(...differences),
        at.number('sameWithinShare')! * Math.abs(heatPump),
      );
    },
    formula: (at) => {
      const both = `${at.cell('differenceFromMeterPounds')},${at.cell('differenceFromHeatPounds')}`;
      const heatPump = at.cell('heatPumpSidePounds');
      const verdict = heatingVerdictDescribed.formula!([
        `MIN(${both})`,
        `MAX(${both})`,
        `${at.cell('sameWithinShare')}*ABS(${heatPump})`,
      ]);
      return `IF(COUNT(${at.cell('days')})=0,"",IF(COUNT(${heatPump})=0,"${NO_HEAT_PUMP_COST}",IF(COUNT(${both})=0,"${NO_ESTIMATE}",${verdict})))`;
    },
  },
  {
    key: 'monthNote',
    label: 'Rests on',
    unit: 'none',
    format: 'text',
    description: 'Which of the two estimates the month has, and why not both.',
    value: (at) => {
      if (at.number('days') === null) return BLANK;
      const meter = at.number('boilerFromMeterPounds') !== null;
      const heat = at.number('boilerFromHeatPounds') !== null;
      if (meter && heat) return BOTH;
      if (meter) return METER_ONLY;
      if (heat) return at.number('degreeDaysUsed') === null ? HEAT_ONLY_NO_WEATHER : HEAT_ONLY_NO_GAS;
      return NEITHER;
    },
    formula: (at) => {
      const meter = `COUNT(${at.cell('boilerFromMeterPounds')})`;
      const heat = `COUNT(${at.cell('boilerFromHeatPounds')})`;
      return (
        `IF(COUNT(${at.cell('days')})=0,"",IF(${meter}+${heat}=2,"${BOTH}",IF(${meter}=1,"${METER_ONLY}",` +
        `IF(${heat}=0,"${NEITHER}",IF(COUNT(${at.cell('degreeDaysUsed')})=0,"${HEAT_ONLY_NO_WEATHER}","${HEAT_ONLY_NO_GAS}")))))`
      );
    },
  },
];

const NO_HEAT_PUMP_COST = 'No verdict: this month has no cost of the heat pump on the chosen basis.';
const NO_ESTIMATE = 'No verdict: needs last year’s gas and degree days, or a heat meter.';
const BOTH = 'Both estimates.';
const METER_ONLY = 'Last year’s gas meter only: no heat meter this month.';
const HEAT_ONLY_NO_WEATHER = 'Heat meter only: degree days are missing or have gaps.';
const HEAT_ONLY_NO_GAS = 'Heat meter only: last year’s gas is not known well enough.';
const NEITHER = 'Neither estimate.';
