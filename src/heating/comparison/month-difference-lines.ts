import { boilerEfficiencyAtEqualCost } from '../boiler-efficiency-at-equal-cost.js';
import { estimatesApart, estimatesApartDescribed } from '../estimates-apart.js';
import { BLANK, differenceOf, type HeatingLine, known, type LineValues, lineOf } from './heating-line.js';
import { verdictLines } from './verdict-lines.js';

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
  endOfEstimates('differenceLowPounds', 'Lowest of (a) and (b)', 'MIN'),
  endOfEstimates('differenceHighPounds', 'Highest of (a) and (b)', 'MAX'),
  lineOf(
    {
      key: 'sameWithinPounds',
      label: 'Counts as the same within',
      unit: '£',
      format: 'pounds',
      description: 'Share of the heat pump’s side up to which a difference is called none.',
    },
    ['sameWithinShare', 'heatPumpSidePounds'],
    ([share, heatPump]) => share! * Math.abs(heatPump!),
    ([share, heatPump]) => `${share}*ABS(${heatPump})`,
  ),
  ...verdictLines({
    lowPounds: 'differenceLowPounds',
    highPounds: 'differenceHighPounds',
    sameWithinPounds: 'sameWithinPounds',
    nearPounds: 'monthNearPounds',
    farPounds: 'monthFarPounds',
    amount: 'monthAmountInWords',
    words: 'monthDifferenceInWords',
    sentence: 'monthSentence',
  }),
  {
    key: 'monthVerdict',
    label: 'Verdict',
    unit: 'none',
    format: 'text',
    description: 'In words, from the lowest and highest of the estimates.',
    value: (at) => {
      if (at.number('days') === null) return BLANK;
      if (at.number('heatPumpSidePounds') === null) return NO_HEAT_PUMP_COST;
      return at.number('differenceLowPounds') === null ? NO_ESTIMATE : at.text('monthSentence');
    },
    formula: (at) => {
      const unknown = (key: string): string => `COUNT(${at.cell(key)})=0`;
      return (
        `IF(${unknown('days')},"",IF(${unknown('heatPumpSidePounds')},"${NO_HEAT_PUMP_COST}",` +
        `IF(${unknown('differenceLowPounds')},"${NO_ESTIMATE}",${at.cell('monthSentence')})))`
      );
    },
  },
  {
    key: 'monthMeterOnlyNote',
    label: 'Why only (a)',
    unit: 'none',
    format: 'text',
    description: 'What estimate (b) lacks, for a month that has (a) alone.',
    value: (at) =>
      at.number('heatKwh') !== null && at.number('boilerEfficiency') === null
        ? METER_ONLY_NO_EFFICIENCY
        : METER_ONLY,
    formula: (at) =>
      `IF(AND(COUNT(${at.cell('heatKwh')})=1,COUNT(${at.cell('boilerEfficiency')})=0),"${METER_ONLY_NO_EFFICIENCY}","${METER_ONLY}")`,
  },
  {
    key: 'monthHeatOnlyNote',
    label: 'Why only (b)',
    unit: 'none',
    format: 'text',
    description: 'What estimate (a) lacks, for a month that has (b) alone.',
    value: (at) => (at.number('degreeDaysUsed') === null ? HEAT_ONLY_NO_WEATHER : HEAT_ONLY_NO_GAS),
    formula: (at) =>
      `IF(COUNT(${at.cell('degreeDaysUsed')})=0,"${HEAT_ONLY_NO_WEATHER}","${HEAT_ONLY_NO_GAS}")`,
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
      if (meter) return at.text('monthMeterOnlyNote');
      return heat ? at.text('monthHeatOnlyNote') : NEITHER;
    },
    formula: (at) => {
      const meter = `COUNT(${at.cell('boilerFromMeterPounds')})`;
      const heat = `COUNT(${at.cell('boilerFromHeatPounds')})`;
      return (
        `IF(COUNT(${at.cell('days')})=0,"",IF(${meter}+${heat}=2,"${BOTH}",IF(${meter}=1,${at.cell('monthMeterOnlyNote')},` +
        `IF(${heat}=1,${at.cell('monthHeatOnlyNote')},"${NEITHER}"))))`
      );
    },
  },
];

function differencesOf(at: LineValues): number[] {
  return known([at.number('differenceFromMeterPounds'), at.number('differenceFromHeatPounds')]);
}

/** One end of the estimates that there are. */
function endOfEstimates(key: string, label: string, pick: 'MIN' | 'MAX'): HeatingLine {
  return {
    key,
    label,
    unit: '£',
    format: 'pounds',
    description: 'Of heat pump less boiler, where there is an estimate.',
    value: (at) => {
      const differences = differencesOf(at);
      if (differences.length === 0) return BLANK;
      return pick === 'MIN' ? Math.min(...differences) : Math.max(...differences);
    },
    formula: (at) => {
      const both = `${at.cell('differenceFromMeterPounds')},${at.cell('differenceFromHeatPounds')}`;
      return `IF(COUNT(${both})=0,"",${pick}(${both}))`;
    },
  };
}

const NO_HEAT_PUMP_COST = 'No verdict: this month has no cost of the heat pump on the chosen basis.';
const NO_ESTIMATE = 'No verdict: needs last year’s gas and degree days, or a heat meter.';
const BOTH = 'Both estimates.';
const METER_ONLY = 'Last year’s gas meter only: no heat meter this month.';
const METER_ONLY_NO_EFFICIENCY = 'Last year’s gas meter only: the boiler’s efficiency is not known.';
const HEAT_ONLY_NO_WEATHER = 'Heat meter only: degree days are missing or have gaps.';
const HEAT_ONLY_NO_GAS = 'Heat meter only: last year’s gas is not known well enough.';
const NEITHER = 'Neither estimate.';
