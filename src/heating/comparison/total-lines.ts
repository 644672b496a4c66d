import { breakEvenCop } from '../break-even-cop.js';
import { breakEvenElectricityRate } from '../break-even-electricity-rate.js';
import { ESTIMATES_WORDS } from '../estimates-verdict.js';
import { monthsToFit, monthsToFitFormula } from '../fit-use-to-degree-days.js';
import { roundHalfAway } from '../round-half-away.js';
import { twoSidedTQuantile } from '../two-sided-t-quantile.js';
import {
  BLANK,
  differenceOf,
  type HeatingLine,
  known,
  type LineFormat,
  type LineLabel,
  type LineReferences,
  type LineValues,
  lineOf,
  total,
} from './heating-line.js';
import { GAS_SCATTER_KEYS, gasPredictionError, gasPredictionErrorFormula } from './prediction-error.js';
import { verdictLines } from './verdict-lines.js';

/** The sum of a column over the months compared, blank unless each has it: a sum over fewer would mislead. */
function sumOfAll(
  key: string,
  column: string,
  label: string,
  unit: string,
  format: LineFormat,
  description: string,
): HeatingLine {
  return {
    key,
    label,
    unit,
    format,
    description: `${description} Blank unless every month compared has it.`,
    value: (at) => {
      const electricity = at.column('electricityKwh');
      const values = known(at.column(column).filter((_, i) => electricity[i] !== null));
      return values.length > 0 && values.length === at.number('months') ? total(values) : BLANK;
    },
    formula: (at) => {
      const both = `COUNTIFS(${at.column('electricityKwh')},"${ANY_NUMBER}",${at.column(column)},"${ANY_NUMBER}")`;
      const sum = totalWhereFormula(at, column, 'electricityKwh');
      return `IF(AND(${at.cell('months')}>0,${both}=${at.cell('months')}),${sum},"")`;
    },
  };
}

/** A criterion that every number meets, and no text or blank. */
const ANY_NUMBER = '>-1E+300';

function countOf(key: string, column: string, label: string, description: string): HeatingLine {
  return {
    key,
    label,
    unit: 'count',
    format: 'number0',
    description,
    value: (at) => known(at.column(column)).length,
    formula: (at) => `COUNT(${at.column(column)})`,
  };
}

/** The sum of a column over the months in which another is known. */
export function totalWhere(at: LineValues, column: string, where: string): number {
  const condition = at.column(where);
  return total(at.column(column).filter((_, i) => condition[i] !== null));
}

/** The formula of {@link totalWhere}. */
export function totalWhereFormula(at: LineReferences, column: string, where: string): string {
  return `SUMIF(${at.column(where)},"${ANY_NUMBER}",${at.column(column)})`;
}

function fromColumns(
  label: LineLabel,
  value: HeatingLine['value'],
  formula: HeatingLine['formula'],
): HeatingLine {
  return { ...label, value, formula };
}

/** The sum of a column over the months in which another is known, as a line. */
function sumWhere(label: LineLabel, column: string, where: string): HeatingLine {
  return fromColumns(
    label,
    (at) => totalWhere(at, column, where),
    (at) => totalWhereFormula(at, column, where),
  );
}

/** Single figures over all months compared. */
export const HEATING_TOTAL_LINES: readonly HeatingLine[] = [
  countOf('months', 'electricityKwh', 'Months compared', 'Months with electricity of the heat pump.'),
  countOf(
    'monthsFromMeter',
    'differenceFromMeterPounds',
    'Months with estimate (a)',
    'From last year’s meter.',
  ),
  countOf('monthsFromHeat', 'differenceFromHeatPounds', 'Months with estimate (b)', 'From heat delivered.'),
  countOf(
    'monthsCompared',
    'differenceBestPounds',
    'Months with a comparison',
    'With at least one estimate.',
  ),
  {
    key: 'heatMeterMonths',
    label: 'Months of the heat meter for the year',
    unit: 'count',
    format: 'number0',
    description:
      'Months with heat, its cost and degree days; 0 where fewer than three, or all of about the same weather: then last year’s gas stands for heat.',
    value: (at) => monthsToFit(known(at.column('heatMeterDegreeDaysPerDay'))),
    formula: (at) => monthsToFitFormula(at.column('heatMeterDegreeDaysPerDay')),
  },
  sumOfAll('totalDays', 'days', 'Days', 'days', 'number0', 'Days compared.'),
  sumOfAll('totalElectricityKwh', 'electricityKwh', 'Electricity in', 'kWh', 'number0', 'All months.'),
  sumOfAll('totalHeatKwh', 'heatKwh', 'Heat out', 'kWh', 'number0', 'All months.'),
  sumOfAll('totalDegreeDays', 'degreeDaysUsed', 'Degree days', '°C·day', 'number0', 'All months.'),
  fromColumns(
    {
      key: 'totalCop',
      label: 'COP',
      unit: 'kWh heat/kWh electricity',
      format: 'number2',
      description: 'Heat out ÷ electricity in, over the months with a heat meter.',
    },
    (at) => {
      const electricity = totalWhere(at, 'electricityKwh', 'cop');
      return electricity > 0 ? totalWhere(at, 'heatKwh', 'cop') / electricity : BLANK;
    },
    (at) => {
      const electricity = totalWhereFormula(at, 'electricityKwh', 'cop');
      return `IF(${electricity}>0,${totalWhereFormula(at, 'heatKwh', 'cop')}/${electricity},"")`;
    },
  ),
  sumOfAll(
    'totalSingleRatePounds',
    'costSingleRatePounds',
    'Cost at the single rate',
    '£',
    'pounds',
    'All months.',
  ),
  sumOfAll(
    'totalHalfHourlyPounds',
    'costHalfHourlyPounds',
    'Cost at half-hourly rates',
    '£',
    'pounds',
    'All months.',
  ),
  sumOfAll(
    'totalBatteryPounds',
    'costBatteryPounds',
    'Cost through the battery',
    '£',
    'pounds',
    'All months.',
  ),
  sumOfAll('totalHeatPumpSidePounds', 'heatPumpSidePounds', 'Heat pump’s side', '£', 'pounds', 'All months.'),
  fromColumns(
    {
      key: 'totalHeatAtGasRatePounds',
      label: 'Boiler’s heat at the gas rate',
      unit: '£',
      format: 'pounds',
      description: 'Over the months with a heat meter: what it would cost at an efficiency of 100%.',
    },
    (at) => total(at.column('boilerHeatAtGasRatePounds')),
    (at) => `SUM(${at.column('boilerHeatAtGasRatePounds')})`,
  ),
  sumWhere(
    {
      key: 'totalHeatBesideGasRateKwh',
      label: 'That heat',
      unit: 'kWh',
      format: 'number0',
      description: 'Heat from the boiler of the same months.',
    },
    'boilerHeatKwh',
    'boilerHeatAtGasRatePounds',
  ),
  sumWhere(
    {
      key: 'totalGasBesideGasRateKwh',
      label: 'Gas of (a) beside a gas rate',
      unit: 'kWh',
      format: 'number0',
      description: 'Gas of estimate (a) in the months that have a gas rate.',
    },
    'gasFromMeterKwh',
    'gasRateUsedPence',
  ),
  fromColumns(
    {
      key: 'gasRateOfMeterPence',
      label: 'Gas rate of (a)',
      unit: 'p/kWh',
      format: 'pence',
      description:
        'Mean of the months’ gas rates, weighted by the gas of estimate (a); a plain mean without any.',
    },
    (at) => {
      const gas = at.number('totalGasBesideGasRateKwh')!;
      const rates = at.column('gasRateUsedPence');
      if (gas > 0) {
        return total(at.column('gasFromMeterKwh').map((kwh, i) => (kwh ?? 0) * (rates[i] ?? 0))) / gas;
      }
      return known(rates).length > 0 ? total(rates) / known(rates).length : BLANK;
    },
    (at) => {
      const [gas, rates] = [at.cell('totalGasBesideGasRateKwh'), at.column('gasRateUsedPence')];
      // SUMPRODUCT with two ranges takes texts for 0.
      const weighted = `SUMPRODUCT(${at.column('gasFromMeterKwh')},${rates})/${gas}`;
      return `IF(${gas}>0,${weighted},IF(COUNT(${rates})>0,SUM(${rates})/COUNT(${rates}),""))`;
    },
  ),
  fromColumns(
    {
      key: 'meanGasRatePence',
      label: 'Mean gas rate',
      unit: 'p/kWh',
      format: 'pence',
      description:
        'Mean of the months’ gas rates, weighted by the heat that the boiler would have made; by the gas of (a) without a heat meter.',
    },
    (at) => {
      const heat = at.number('totalHeatBesideGasRateKwh')!;
      if (heat > 0) return (at.number('totalHeatAtGasRatePounds')! * 100) / heat;
      return at.number('gasRateOfMeterPence') ?? BLANK;
    },
    (at) => {
      const heat = at.cell('totalHeatBesideGasRateKwh');
      return `IF(${heat}>0,${at.cell('totalHeatAtGasRatePounds')}*100/MAX(${heat},1E-9),${at.cell('gasRateOfMeterPence')})`;
    },
  ),
  fromColumns(
    {
      key: 'totalAverageRatePence',
      label: 'Average rate paid',
      unit: 'p/kWh',
      format: 'pence',
      description: 'Cost on the chosen basis ÷ electricity, over the months that have both.',
    },
    (at) => {
      const electricity = totalWhere(at, 'electricityKwh', 'costChosenPounds');
      return electricity > 0 ? (total(at.column('costChosenPounds')) * 100) / electricity : BLANK;
    },
    (at) => {
      const electricity = totalWhereFormula(at, 'electricityKwh', 'costChosenPounds');
      return `IF(${electricity}>0,SUM(${at.column('costChosenPounds')})*100/${electricity},"")`;
    },
  ),
  lineOf(
    {
      key: 'totalBreakEvenCop',
      label: 'Break-even COP, fuel alone',
      unit: 'kWh heat/kWh electricity',
      format: 'number2',
      description:
        'Average rate paid ÷ mean gas rate × boiler efficiency; above it the heat pump is cheaper, standing charges apart.',
    },
    ['totalAverageRatePence', 'meanGasRatePence', 'boilerEfficiency'],
    ([rate, gas, efficiency]) => (gas! > 0 && rate! >= 0 ? breakEvenCop(rate!, gas!, efficiency!) : BLANK),
    ([rate, gas, efficiency]) => `IF(AND(${gas}>0,${rate}>=0),${rate}/${gas}*${efficiency},"")`,
  ),
  lineOf(
    {
      key: 'totalBreakEvenElectricityPence',
      label: 'Break-even rate, fuel alone',
      unit: 'p/kWh',
      format: 'pence',
      description: 'Mean gas rate ÷ boiler efficiency × COP; below it the heat pump is cheaper.',
    },
    ['meanGasRatePence', 'boilerEfficiency', 'totalCop'],
    ([gas, efficiency, cop]) => (cop! > 0 ? breakEvenElectricityRate(gas!, efficiency!, cop!) : BLANK),
    ([gas, efficiency, cop]) => `IF(${cop}>0,${gas}/${efficiency}*${cop},"")`,
  ),
  sumOfAll(
    'totalFromMeterPounds',
    'boilerFromMeterPounds',
    'Boiler’s side, from last year’s meter (a)',
    '£',
    'pounds',
    'All months.',
  ),
  sumOfAll(
    'totalMeterDegreeDays',
    'meterDegreeDays',
    'Degree days for last year’s gas',
    '°C·day',
    'number0',
    'All months.',
  ),
  lineOf(
    {
      key: 'totalGasStandardErrorKwh',
      label: 'Standard error of the gas of (a)',
      unit: 'kWh',
      format: 'number0',
      description: 'Of all months: doubt in the fitted line and scatter of so many months about it.',
    },
    [...GAS_SCATTER_KEYS, 'totalDays', 'totalMeterDegreeDays', 'months'],
    (figures) => gasPredictionError(figures, figures[4]!, figures[5]!, figures[6]!),
    (cells) => gasPredictionErrorFormula(cells, cells[4]!, cells[5]!, cells[6]!),
  ),
  lineOf(
    {
      key: 'totalFromMeterRangePounds',
      label: '(a) give or take',
      unit: '£',
      format: 'pounds',
      description:
        'Half-width of the range of (a) at the chosen confidence: standard error of the gas of all months × t × its gas rate.',
    },
    // The cost itself is there because the range is blank where it is.
    ['totalGasStandardErrorKwh', 'gasFitMonths', 'gasRateOfMeterPence', 'totalFromMeterPounds'],
    ([error, fitMonths, rate], at) =>
      (twoSidedTQuantile(at.number('confidence')!, fitMonths! - 2) * error! * rate!) / 100,
    ([error, fitMonths, rate], at) => `TINV(1-${at.cell('confidence')},${fitMonths}-2)*${error}*${rate}/100`,
  ),
  sumOfAll(
    'totalFromHeatPounds',
    'boilerFromHeatPounds',
    'Boiler’s side, from heat delivered (b)',
    '£',
    'pounds',
    'All months.',
  ),
  fromColumns(
    {
      key: 'totalApartShare',
      label: 'How far apart (a) and (b) are',
      unit: 'share',
      format: 'share',
      description:
        'Difference of the sums of (a) and (b) as a share of their mean, over the months that have both.',
    },
    (at) => {
      const mean = total(at.column('estimatesMeanPounds'));
      return mean > 0 ? Math.abs(total(at.column('estimatesDifferencePounds'))) / mean : BLANK;
    },
    (at) => {
      const mean = `SUM(${at.column('estimatesMeanPounds')})`;
      return `IF(${mean}>0,ABS(SUM(${at.column('estimatesDifferencePounds')}))/${mean},"")`;
    },
  ),
  sumOfAll(
    'totalDifferenceFromMeterPounds',
    'differenceFromMeterPounds',
    'Heat pump less boiler (a)',
    '£',
    'pounds',
    'Negative: the heat pump was cheaper.',
  ),
  sumOfAll(
    'totalDifferenceFromHeatPounds',
    'differenceFromHeatPounds',
    'Heat pump less boiler (b)',
    '£',
    'pounds',
    'Negative: the heat pump was cheaper.',
  ),
  fromColumns(
    {
      key: 'totalDifferenceBestPounds',
      label: 'Heat pump less boiler',
      unit: '£',
      format: 'pounds',
      description: 'Sum of the months that have at least one estimate; negative: the heat pump was cheaper.',
    },
    (at) => (at.number('monthsCompared')! > 0 ? total(at.column('differenceBestPounds')) : BLANK),
    (at) => `IF(${at.cell('monthsCompared')}>0,SUM(${at.column('differenceBestPounds')}),"")`,
  ),
  fromColumns(
    {
      key: 'totalLowPounds',
      label: 'Lowest estimate of the difference',
      unit: '£',
      format: 'pounds',
      description:
        'Of (a) and (b) where they cover all months; else the sum of the months’ own best estimates.',
    },
    (at) => rangeOfTotals(at)?.low ?? BLANK,
    (at) => rangeOfTotalsFormula(at, 'MIN'),
  ),
  fromColumns(
    {
      key: 'totalHighPounds',
      label: 'Highest estimate of the difference',
      unit: '£',
      format: 'pounds',
      description:
        'Of (a) and (b) where they cover all months; else the sum of the months’ own best estimates.',
    },
    (at) => rangeOfTotals(at)?.high ?? BLANK,
    (at) => rangeOfTotalsFormula(at, 'MAX'),
  ),
  lineOf(
    {
      key: 'leftForGasPounds',
      label: 'Left for gas',
      unit: '£',
      format: 'pounds',
      description: 'Over the same months: heat pump’s side less what the boiler’s pays beside gas burnt.',
    },
    ['totalHeatAtGasRatePounds', 'boilerEfficiency'],
    ([heat, efficiency], at) => total(at.column('differenceFromHeatPounds')) + heat! / efficiency!,
    ([heat, efficiency], at) => `SUM(${at.column('differenceFromHeatPounds')})+${heat}/${efficiency}`,
  ),
  lineOf(
    {
      key: 'totalEqualCostEfficiency',
      label: 'Boiler efficiency at equal cost',
      unit: 'share 0–1',
      format: 'share',
      description:
        'Over the months with a heat meter. A better boiler would have been cheaper; above 100% none could.',
    },
    ['totalHeatAtGasRatePounds', 'leftForGasPounds'],
    ([heat, left]) => (left! > 0 && heat! > 0 ? heat! / left! : BLANK),
    ([heat, left]) => `IF(${heat}>0,IF(${left}>0,${heat}/${left},""),"")`,
  ),
  sumOfAll(
    'totalHeatPumpCarbonKg',
    'heatPumpCarbonKg',
    'Carbon, heat pump’s side',
    'kg CO₂e',
    'number0',
    'All months.',
  ),
  sumOfAll(
    'totalBoilerCarbonKg',
    'boilerCarbonKg',
    'Carbon, boiler’s side',
    'kg CO₂e',
    'number0',
    'All months.',
  ),
  differenceOf(
    {
      key: 'carbonSavedKg',
      label: 'Carbon saved',
      unit: 'kg CO₂e',
      format: 'number0',
      description: 'Boiler’s side less heat pump’s side.',
    },
    'totalBoilerCarbonKg',
    'totalHeatPumpCarbonKg',
  ),
  lineOf(
    {
      key: 'totalSameWithinPounds',
      label: 'Counts as the same within',
      unit: '£',
      format: 'pounds',
      description:
        'Share of the heat pump’s side, of the months compared, up to which a difference is called none.',
    },
    ['sameWithinShare'],
    ([share], at) => share! * Math.abs(comparedHeatPumpSide(at)),
    ([share], at) => `${share}*ABS(${totalWhereFormula(at, 'heatPumpSidePounds', 'differenceBestPounds')})`,
  ),
  ...verdictLines({
    lowPounds: 'totalLowPounds',
    highPounds: 'totalHighPounds',
    sameWithinPounds: 'totalSameWithinPounds',
    nearPounds: 'totalNearPounds',
    farPounds: 'totalFarPounds',
    amount: 'totalAmountInWords',
    words: 'totalDifferenceInWords',
    sentence: 'totalSentence',
  }),
  fromColumns(
    {
      key: 'verdict',
      label: 'Verdict',
      unit: 'none',
      format: 'text',
      description: 'The answer in a sentence, and how many months it covers.',
    },
    (at) =>
      at.number('totalLowPounds') === null
        ? NO_VERDICT
        : `${at.text('totalSentence')} (${at.number('monthsCompared')} of ${at.number('months')} month${at.number('months') === 1 ? '' : 's'})`,
    (at) =>
      `IF(COUNT(${at.cell('totalLowPounds')})=0,"${NO_VERDICT}",` +
      `${at.cell('totalSentence')}&" ("&${at.cell('monthsCompared')}&" of "&${at.cell('months')}&" month"&IF(${at.cell('months')}=1,")","s)"))`,
  ),
  lineOf(
    {
      key: 'estimatesInWords',
      label: 'How far apart, in words',
      unit: 'none',
      format: 'text',
      description: 'Whether the two independent estimates agree, by the two shares of the settings.',
    },
    ['totalApartShare', 'agreeWithinShare', 'disagreeBeyondShare'],
    ([apart, agree, disagree]) => {
      const { estimates, apart: unit, ...how } = ESTIMATES_WORDS;
      const words = apart! <= agree! ? how.agree : apart! <= disagree! ? how.differ : how.disagree;
      return `${estimates}${words}: ${roundHalfAway(apart! * 100)}${unit}`;
    },
    ([apart, agree, disagree]) => {
      const { estimates, apart: unit, ...how } = ESTIMATES_WORDS;
      const words = `IF(${apart}<=${agree},"${how.agree}",IF(${apart}<=${disagree},"${how.differ}","${how.disagree}"))`;
      return `"${estimates}"&${words}&": "&ROUND(${apart}*100,0)&"${unit}"`;
    },
  ),
  lineOf(
    {
      key: 'estimatesAdvice',
      label: 'What to do about it',
      unit: 'none',
      format: 'text',
      description: 'End of the sentence on the two estimates.',
    },
    ['totalApartShare', 'agreeWithinShare', 'disagreeBeyondShare'],
    ([apart, agree, disagree]) => {
      const { advice } = ESTIMATES_WORDS;
      return apart! <= agree! ? advice.agree : apart! <= disagree! ? advice.differ : advice.disagree;
    },
    ([apart, agree, disagree]) => {
      const { advice } = ESTIMATES_WORDS;
      return `IF(${apart}<=${agree},"${advice.agree}",IF(${apart}<=${disagree},"${advice.differ}","${advice.disagree}"))`;
    },
  ),
  fromColumns(
    {
      key: 'estimatesVerdict',
      label: 'How sure',
      unit: 'none',
      format: 'text',
      description: 'Whether the two independent estimates agree.',
    },
    (at) =>
      at.number('totalApartShare') === null
        ? ONE_ESTIMATE
        : at.text('estimatesInWords') + at.text('estimatesAdvice'),
    (at) =>
      `IF(COUNT(${at.cell('totalApartShare')})=0,"${ONE_ESTIMATE}",${at.cell('estimatesInWords')}&${at.cell('estimatesAdvice')})`,
  ),
];

const NO_VERDICT = 'No verdict: no month has both a cost of the heat pump and an estimate of the boiler.';
const ONE_ESTIMATE = 'No month has both estimates, so nothing confirms the one.';

function comparedHeatPumpSide(at: LineValues): number {
  return totalWhere(at, 'heatPumpSidePounds', 'differenceBestPounds');
}

function rangeOfTotals(at: LineValues): { low: number; high: number } | null {
  const whole = [
    at.number('totalDifferenceFromMeterPounds'),
    at.number('totalDifferenceFromHeatPounds'),
  ].filter((d) => d !== null);
  if (whole.length > 0) return { low: Math.min(...whole), high: Math.max(...whole) };
  const best = at.number('totalDifferenceBestPounds');
  return best === null ? null : { low: best, high: best };
}

function rangeOfTotalsFormula(at: LineReferences, pick: 'MIN' | 'MAX'): string {
  const whole = `${at.cell('totalDifferenceFromMeterPounds')},${at.cell('totalDifferenceFromHeatPounds')}`;
  return `IF(COUNT(${whole})>0,${pick}(${whole}),${at.cell('totalDifferenceBestPounds')})`;
}
