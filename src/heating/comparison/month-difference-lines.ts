import { boilerEfficiencyAtEqualCost } from '../boiler-efficiency-at-equal-cost.js';
import { estimatesApart, estimatesApartDescribed } from '../estimates-apart.js';
import { heatingVerdict, heatingVerdictDescribed } from '../heating-verdict.js';
import { BLANK, differenceOf, type HeatingLine, lineOf } from './heating-line.js';

/** Heat pump against boiler, in money and in words. A row a month; each line reads only lines above it. */
export const DIFFERENCE_MONTH_LINES: readonly HeatingLine[] = [
  differenceOf(
    {
      key: 'estimatesDifferencePounds',
      label: '(a) less (b)',
      unit: '£',
      format: 'pounds',
      description: 'How far the two estimates of the boiler’s side lie apart.',
    },
    'boilerFromMeterPounds',
    'boilerFromHeatPounds',
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
  differenceOf(
    {
      key: 'differenceFromMeterPounds',
      label: 'Heat pump less boiler (a)',
      unit: '£',
      format: 'pounds',
      description: 'Negative: the heat pump was cheaper.',
    },
    'heatPumpSidePounds',
    'boilerFromMeterPounds',
  ),
  differenceOf(
    {
      key: 'differenceFromHeatPounds',
      label: 'Heat pump less boiler (b)',
      unit: '£',
      format: 'pounds',
      description: 'Negative: the heat pump was cheaper.',
    },
    'heatPumpSidePounds',
    'boilerFromHeatPounds',
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
      if (meter) {
        return at.number('heatKwh') !== null && at.number('boilerEfficiency') === null
          ? METER_ONLY_NO_EFFICIENCY
          : METER_ONLY;
      }
      if (heat) return at.number('degreeDaysUsed') === null ? HEAT_ONLY_NO_WEATHER : HEAT_ONLY_NO_GAS;
      return NEITHER;
    },
    formula: (at) => {
      const meter = `COUNT(${at.cell('boilerFromMeterPounds')})`;
      const heat = `COUNT(${at.cell('boilerFromHeatPounds')})`;
      const noEfficiency = `AND(COUNT(${at.cell('heatKwh')})=1,COUNT(${at.cell('boilerEfficiency')})=0)`;
      const meterOnly = `IF(${noEfficiency},"${METER_ONLY_NO_EFFICIENCY}","${METER_ONLY}")`;
      return (
        `IF(COUNT(${at.cell('days')})=0,"",IF(${meter}+${heat}=2,"${BOTH}",IF(${meter}=1,${meterOnly},` +
        `IF(${heat}=0,"${NEITHER}",IF(COUNT(${at.cell('degreeDaysUsed')})=0,"${HEAT_ONLY_NO_WEATHER}","${HEAT_ONLY_NO_GAS}")))))`
      );
    },
  },
];

const NO_HEAT_PUMP_COST = 'No verdict: this month has no cost of the heat pump on the chosen basis.';
const NO_ESTIMATE = 'No verdict: needs last year’s gas and degree days, or a heat meter.';
const BOTH = 'Both estimates.';
const METER_ONLY = 'Last year’s gas meter only: no heat meter this month.';
const METER_ONLY_NO_EFFICIENCY = 'Last year’s gas meter only: the boiler’s efficiency is not known.';
const HEAT_ONLY_NO_WEATHER = 'Heat meter only: degree days are missing or have gaps.';
const HEAT_ONLY_NO_GAS = 'Heat meter only: last year’s gas is not known well enough.';
const NEITHER = 'Neither estimate.';
