import { fitDailyUse, monthsToFit, monthsToFitFormula, type WeatherFit } from '../fit-use-to-degree-days.js';
import { predictionStandardError, useAtWeather } from '../predict-use.js';
import { NEVER, simplePayback } from '../simple-payback.js';
import { twoSidedTQuantile } from '../two-sided-t-quantile.js';
import { yearNeeds, yearNeedsFormula, yearVerdict, yearVerdictFormula } from '../year-verdict.js';
import {
  BLANK,
  differenceOf,
  energyAndFixedOf,
  type HeatingLine,
  known,
  type LineReferences,
  type LineValues,
  lineOf,
  total,
} from './heating-line.js';
import { gasPredictionErrorLine } from './prediction-error.js';
import { totalWhere, totalWhereFormula } from './total-lines.js';

const MONTHS_OF_A_YEAR = 12;
const YEAR = ['yearDays', 'yearDegreeDays'] as const;

/** A fit of two month columns, for the year's use and its standard error. */
function yearOf(
  key: string,
  what: string,
  yColumn: string,
  xColumn: string,
  countKey: string,
): HeatingLine[] {
  const lineThrough = (at: LineValues): WeatherFit | null =>
    at.number(countKey)! > 0 && at.number('yearDegreeDays') !== null
      ? fitDailyUse(known(at.column(xColumn)), known(at.column(yColumn)))
      : null;
  const year = (at: LineValues): { days: number; degreeDays: number; periods: number } => ({
    days: at.number('yearDays')!,
    degreeDays: at.number('yearDegreeDays')!,
    periods: MONTHS_OF_A_YEAR,
  });
  const ifFit = (at: LineReferences, then: string): string =>
    `IF(AND(${at.cell(countKey)}>0,COUNT(${at.cell('yearDegreeDays')})=1),${then},"")`;
  return [
    {
      key: countKey,
      label: `Months for ${what}`,
      unit: 'count',
      format: 'number0',
      description:
        'Months that the annual figure is fitted to; 0 where fewer than three, or all of about the same weather.',
      value: (at) => monthsToFit(known(at.column(xColumn))),
      formula: (at) => monthsToFitFormula(at.column(xColumn)),
    },
    {
      key: `${key}Kwh`,
      label: `${what} in a year`,
      unit: 'kWh',
      format: 'number0',
      description: 'Intercept × days of a year + slope × degree days of a year.',
      value: (at) => {
        const line = lineThrough(at);
        if (line === null) return BLANK;
        const { days, degreeDays } = year(at);
        return useAtWeather(line.baseKwhPerDay, line.kwhPerDegreeDay, days, degreeDays);
      },
      formula: (at) => {
        const [y, x] = [at.column(yColumn), at.column(xColumn)];
        return ifFit(
          at,
          `INTERCEPT(${y},${x})*${at.cell('yearDays')}+SLOPE(${y},${x})*${at.cell('yearDegreeDays')}`,
        );
      },
    },
    {
      key: `${key}StandardErrorKwh`,
      label: `Standard error of ${what.toLowerCase()} in a year`,
      unit: 'kWh',
      format: 'number0',
      description: 'Doubt in the fitted line and scatter of twelve months about it.',
      value: (at) => {
        const line = lineThrough(at);
        return line === null ? BLANK : predictionStandardError(line, year(at));
      },
      formula: (at) => {
        const [y, x] = [at.column(yColumn), at.column(xColumn)];
        const [days, degreeDays] = YEAR.map((k) => at.cell(k));
        return ifFit(
          at,
          `STEYX(${y},${x})*SQRT(${days}^2/COUNT(${x})+(${degreeDays}-${days}*AVERAGE(${x}))^2/DEVSQ(${x})+${days}^2/${MONTHS_OF_A_YEAR})`,
        );
      },
    },
  ];
}

/** What a side pays a day beside energy, averaged over the months and carried to a year. */
function fixedInAYear(key: string, label: string, column: string): HeatingLine {
  return {
    key,
    label,
    unit: '£',
    format: 'pounds',
    description: 'What the months paid a day × days of a year.',
    value: (at) => {
      const days = totalWhere(at, 'days', column);
      return days > 0 ? (total(at.column(column)) / days) * at.number('yearDays')! : BLANK;
    },
    formula: (at) => {
      const days = totalWhereFormula(at, 'days', column);
      return `IF(${days}>0,SUM(${at.column(column)})/${days}*${at.cell('yearDays')},"")`;
    },
  };
}

/** Half-width of the range of a difference between electricity and gas, whose doubts are independent. */
function rangeOf(
  key: string,
  label: string,
  gasErrorKey: string,
  gasMonthsKey: string,
  costKey: string,
  gasPoundsPerKwh: { value: (at: LineValues) => number; formula: (at: LineReferences) => string },
): HeatingLine {
  return lineOf(
    {
      key,
      label,
      unit: '£',
      format: 'pounds',
      description:
        'Half-width at the chosen confidence: t × √(electricity’s error² + the boiler’s error²), each at its rate, with the fewer months’ degrees of freedom.',
    },
    [
      'yearElectricityStandardErrorKwh',
      'yearEnergyPencePerKwh',
      gasErrorKey,
      gasMonthsKey,
      'yearElectricityMonths',
      // There is no range of a cost that can't be said.
      costKey,
    ],
    ([electricityError, rate, gasError, gasMonths, electricityMonths], at) => {
      const freedom = Math.min(gasMonths!, electricityMonths!) - 2;
      const pounds = Math.hypot((electricityError! * rate!) / 100, gasError! * gasPoundsPerKwh.value(at));
      return twoSidedTQuantile(at.number('confidence')!, freedom) * pounds;
    },
    ([electricityError, rate, gasError, gasMonths, electricityMonths], at) =>
      `TINV(1-${at.cell('confidence')},MIN(${gasMonths},${electricityMonths})-2)*` +
      `SQRT((${electricityError}*${rate}/100)^2+(${gasError}*${gasPoundsPerKwh.formula(at)})^2)`,
  );
}

/** Single figures for a whole year of usual weather. */
export const HEATING_YEAR_LINES: readonly HeatingLine[] = [
  ...yearOf(
    'yearElectricity',
    'Electricity',
    'fitElectricityKwhPerDay',
    'fitDegreeDaysPerDay',
    'yearElectricityMonths',
  ),
  ...yearOf(
    'yearBoilerHeat',
    'Heat from the boiler',
    'fitBoilerHeatKwhPerDay',
    'fitHeatDegreeDaysPerDay',
    'yearHeatMonths',
  ),
  {
    key: 'yearEnergyPencePerKwh',
    label: 'Rate for the year',
    unit: 'p/kWh',
    format: 'pence',
    description: 'Electricity compared ÷ electricity in, as these months paid it.',
    value: (at) => {
      const electricity = totalWhere(at, 'electricityKwh', 'heatPumpEnergyPounds');
      return electricity > 0 ? (total(at.column('heatPumpEnergyPounds')) * 100) / electricity : BLANK;
    },
    formula: (at) => {
      const electricity = totalWhereFormula(at, 'electricityKwh', 'heatPumpEnergyPounds');
      return `IF(${electricity}>0,SUM(${at.column('heatPumpEnergyPounds')})*100/${electricity},"")`;
    },
  },
  fixedInAYear(
    'yearHeatPumpFixedPounds',
    'Heat pump’s side beside the heat pump, a year',
    'heatPumpFixedPounds',
  ),
  fixedInAYear('yearBoilerFixedPounds', 'Boiler’s side beside gas burnt, a year', 'boilerFixedPounds'),
  energyAndFixedOf(
    {
      key: 'yearHeatPumpPounds',
      label: 'Heat pump’s side, a year',
      unit: '£/year',
      format: 'pounds',
      description: 'Electricity in a year × its rate + what its side pays beside.',
    },
    'yearElectricityKwh',
    'yearEnergyPencePerKwh',
    'yearHeatPumpFixedPounds',
  ),
  lineOf(
    {
      key: 'yearGasFromMeterKwh',
      label: 'Boiler’s gas in a year (a)',
      unit: 'kWh',
      format: 'number0',
      description: 'Last year’s gas at a year of usual weather, less gas left out; at least 0.',
    },
    ['gasBaseKwhPerDay', 'gasKwhPerDegreeDay', 'yearDays', 'yearDegreeDays', 'leaveOutGasKwhPerDay'],
    ([base, slope, days, degreeDays, leaveOut]) =>
      Math.max(0, useAtWeather(base!, slope!, days!, degreeDays!) - leaveOut! * days!),
    ([base, slope, days, degreeDays, leaveOut]) =>
      `MAX(0,${base}*${days}+${slope}*${degreeDays}-${leaveOut}*${days})`,
  ),
  gasPredictionErrorLine(
    {
      key: 'yearGasFromMeterStandardErrorKwh',
      label: 'Standard error of (a) in a year',
      unit: 'kWh',
      format: 'number0',
      description:
        'Doubt in the fitted line and scatter of twelve months about it; blank with an entered base.',
    },
    'yearDays',
    'yearDegreeDays',
    MONTHS_OF_A_YEAR,
  ),
  energyAndFixedOf(
    {
      key: 'yearFromMeterPounds',
      label: 'Boiler’s side, a year (a)',
      unit: '£/year',
      format: 'pounds',
      description: 'Gas in a year (a) × gas rate + what its side pays beside.',
    },
    'yearGasFromMeterKwh',
    'meanGasRatePence',
    'yearBoilerFixedPounds',
  ),
  lineOf(
    {
      key: 'yearFromHeatPounds',
      label: 'Boiler’s side, a year (b)',
      unit: '£/year',
      format: 'pounds',
      description: 'Heat in a year ÷ boiler efficiency × gas rate + what its side pays beside.',
    },
    ['yearBoilerHeatKwh', 'boilerEfficiency', 'meanGasRatePence', 'yearBoilerFixedPounds'],
    ([heat, efficiency, rate, fixed]) => ((heat! / efficiency!) * rate!) / 100 + fixed!,
    ([heat, efficiency, rate, fixed]) => `${heat}/${efficiency}*${rate}/100+${fixed}`,
  ),
  differenceOf(
    {
      key: 'yearDifferenceFromMeterPounds',
      label: 'Heat pump less boiler, a year (a)',
      unit: '£/year',
      format: 'pounds',
      description: 'Negative: the heat pump is cheaper.',
    },
    'yearHeatPumpPounds',
    'yearFromMeterPounds',
  ),
  rangeOf(
    'yearFromMeterRangePounds',
    'Give or take (a)',
    'yearGasFromMeterStandardErrorKwh',
    'gasFitMonths',
    'yearFromMeterPounds',
    {
      value: (at) => at.number('meanGasRatePence')! / 100,
      formula: (at) => `${at.cell('meanGasRatePence')}/100`,
    },
  ),
  differenceOf(
    {
      key: 'yearDifferenceFromHeatPounds',
      label: 'Heat pump less boiler, a year (b)',
      unit: '£/year',
      format: 'pounds',
      description: 'Negative: the heat pump is cheaper.',
    },
    'yearHeatPumpPounds',
    'yearFromHeatPounds',
  ),
  rangeOf(
    'yearFromHeatRangePounds',
    'Give or take (b)',
    'yearBoilerHeatStandardErrorKwh',
    'yearHeatMonths',
    'yearFromHeatPounds',
    {
      value: (at) => at.number('meanGasRatePence')! / at.number('boilerEfficiency')! / 100,
      formula: (at) => `${at.cell('meanGasRatePence')}/${at.cell('boilerEfficiency')}/100`,
    },
  ),
  {
    key: 'yearSavingPounds',
    label: 'Saved in a year',
    unit: '£/year',
    format: 'pounds',
    description:
      'Boiler less heat pump: mean of (a) and (b), or the one that there is; negative: it costs more.',
    value: (at) => {
      const differences = yearDifferences(at);
      return differences.length === 0 ? BLANK : -total(differences) / differences.length;
    },
    formula: (at) => {
      const both = `${at.cell('yearDifferenceFromMeterPounds')},${at.cell('yearDifferenceFromHeatPounds')}`;
      return `IF(COUNT(${both})=0,"",-SUM(${both})/COUNT(${both}))`;
    },
  },
  lineOf(
    {
      key: 'paybackYears',
      label: 'Simple payback',
      unit: 'years',
      format: 'number1',
      description: 'Extra cost ÷ saved in a year; no interest, no change of prices.',
    },
    ['extraCostPounds', 'yearSavingPounds'],
    ([cost, saving]) => simplePayback(cost!, saving!) ?? NEVER,
    ([cost, saving]) => `IF(${saving}>0,${cost}/${saving},"${NEVER}")`,
  ),
  {
    key: 'winterShare',
    label: 'How wintry these months are',
    unit: 'ratio',
    format: 'number2',
    description: 'Degree days a day of these months ÷ those of the year; 0 where the year’s are not known.',
    value: (at) => {
      const yearDegreeDays = at.number('yearDegreeDays') ?? 0;
      const days = totalWhere(at, 'days', 'degreeDaysUsed');
      if (yearDegreeDays <= 0 || days <= 0) return 0;
      return total(at.column('degreeDaysUsed')) / days / (yearDegreeDays / at.number('yearDays')!);
    },
    formula: (at) => {
      const days = totalWhereFormula(at, 'days', 'degreeDaysUsed');
      const yearDegreeDays = at.cell('yearDegreeDays');
      return `IF(COUNT(${yearDegreeDays})=0,0,IF(OR(${yearDegreeDays}<=0,${days}<=0),0,SUM(${at.column('degreeDaysUsed')})/${days}/(${yearDegreeDays}/${at.cell('yearDays')})))`;
    },
  },
  {
    key: 'yearNeeds',
    label: 'What a year needs',
    unit: 'none',
    format: 'text',
    description: 'What is said of months from which no year can be estimated.',
    value: (at) => yearNeeds(at.number('monthsCompared')!, at.number('winterShare')!),
    formula: (at) => yearNeedsFormula(at.cell('monthsCompared'), at.cell('winterShare')),
  },
  {
    key: 'yearVerdict',
    label: 'Is it a year?',
    unit: 'none',
    format: 'text',
    description: 'How far these months speak for a year.',
    value: (at) =>
      yearVerdict(
        at.number('monthsCompared')!,
        at.number('yearDegreeDays') === null ? 0 : at.number('yearElectricityMonths')!,
        at.number('winterShare')!,
      ),
    formula: (at) =>
      yearVerdictFormula(
        at.cell('monthsCompared'),
        `IF(COUNT(${at.cell('yearDegreeDays')})=0,0,${at.cell('yearElectricityMonths')})`,
        at.cell('yearNeeds'),
      ),
  },
];

function yearDifferences(at: LineValues): number[] {
  return known([at.number('yearDifferenceFromMeterPounds'), at.number('yearDifferenceFromHeatPounds')]);
}
