import type { CellScalar } from '../../functions/described-function.js';
import { useAtWeather } from '../predict-use.js';
import { NEVER, simplePayback } from '../simple-payback.js';
import { twoSidedTQuantile } from '../two-sided-t-quantile.js';
import { yearNeeds, yearNeedsFormula, yearVerdict, yearVerdictFormula } from '../year-verdict.js';
import {
  BLANK,
  differenceOf,
  energyAndFixedOf,
  type HeatingLine,
  known,
  type LineLabel,
  type LineReferences,
  type LineValues,
  lineOf,
  total,
} from './heating-line.js';
import { gasPredictionErrorLine } from './prediction-error.js';
import { totalWhere, totalWhereFormula } from './total-lines.js';
import { COST_FIT, fitOf, HEAT_FIT, YEAR_FIT_LINES } from './year-fit-lines.js';

const MONTHS_OF_A_YEAR = 12;

/** Why there is no figure for a year, in the order in which it is asked. */
const REFUSALS = {
  noWeather: 'No year: the degree days of a usual year are not known.',
  tooFew: 'No year: it needs three months with heat, cold and mild ones.',
  noCold: 'No year: no month is as cold as it is where most heating falls.',
  noMild: 'No year: all months are much colder than the year.',
  base: 'No year: on a day without heating, heat would come out below 0.',
  gasBase: 'No (a): without heating, last year’s gas would come out below 0.',
  slope: 'No year: heat does not rise with cold in these months.',
} as const;

/** A line that is blank as well where there can be no figure for a year. */
function yearLine(
  label: LineLabel,
  needs: readonly string[],
  value: (figures: number[], at: LineValues) => CellScalar,
  formula: (cells: string[], at: LineReferences) => string,
): HeatingLine {
  return {
    ...label,
    value: (at) => {
      const figures = needs.map((key) => at.number(key));
      return figures.includes(null) || at.text('yearRefusal') !== '' ? BLANK : value(figures as number[], at);
    },
    formula: (at) => {
      const cells = needs.map((key) => at.cell(key));
      const can = `AND(COUNT(${cells.join(',')})=${cells.length},${at.cell('yearRefusal')}="")`;
      return `IF(${can},${formula(cells, at)},"")`;
    },
  };
}

const HEAT = ['yearDays', 'yearHeatBaseKwhPerDay', 'yearHeatKwhPerDegreeDay', 'yearMeanDegreeDays'] as const;

/** Heat of the year times what a kWh of it takes, which rises with cold: month by month, so the spread counts. */
function heatTimes(label: LineLabel, baseKey: string, perDegreeKey: string): HeatingLine {
  return yearLine(
    label,
    [...HEAT, 'yearHeatingDegreeDays', baseKey, perDegreeKey],
    ([days, base, slope, mean, heating, each, rise]) =>
      days! * (base! * (each! + rise! * mean!) + slope! * mean! * (each! + rise! * heating!)),
    ([days, base, slope, mean, heating, each, rise]) =>
      `${days}*(${base}*(${each}+${rise}*${mean})+${slope}*${mean}*(${each}+${rise}*${heating}))`,
  );
}

/** Doubt in the line of heat, at what its two parts are worth, £. */
function heatScatter(label: LineLabel, eachKey: string, degreeKey: string): HeatingLine {
  return yearLine(
    label,
    ['yearDays', eachKey, degreeKey],
    ([days, each, degree], at) => {
      const { scatter, points, meanX, spreadX } = fitOf(at, HEAT_FIT)!;
      const variance =
        each! ** 2 / points + (degree! - each! * meanX) ** 2 / spreadX + each! ** 2 / MONTHS_OF_A_YEAR;
      return days! * scatter * Math.sqrt(variance);
    },
    ([days, each, degree], at) => {
      const [y, x] = [at.column(HEAT_FIT.y), at.column(HEAT_FIT.x)];
      return `${days}*STEYX(${y},${x})*SQRT(${each}^2/COUNT(${x})+(${degree}-${each}*AVERAGE(${x}))^2/DEVSQ(${x})+${each}^2/${MONTHS_OF_A_YEAR})`;
    },
  );
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

/** Half-width of the range of a difference: independent doubts, at the fewest degrees of freedom among them. */
function rangeOf(
  label: Pick<LineLabel, 'key' | 'label'>,
  doubts: readonly string[],
  months: readonly string[],
  costKey: string,
): HeatingLine {
  return yearLine(
    {
      ...label,
      unit: '£',
      format: 'pounds',
      description: 'Half-width at the chosen confidence: t × root of the sum of the squared doubts.',
    },
    // There is no range of a cost that can't be said.
    [...doubts, ...months, costKey],
    (figures, at) => {
      const freedom = Math.min(...figures.slice(doubts.length, doubts.length + months.length)) - 2;
      const error = Math.hypot(...figures.slice(0, doubts.length));
      return twoSidedTQuantile(at.number('confidence')!, freedom) * error;
    },
    (cells, at) => {
      const freedom = `MIN(${cells.slice(doubts.length, doubts.length + months.length).join(',')})-2`;
      const squares = cells.slice(0, doubts.length).map((cell) => `${cell}^2`);
      return `TINV(1-${at.cell('confidence')},${freedom})*SQRT(${squares.join('+')})`;
    },
  );
}

/** Single figures for a whole year of usual weather. */
export const HEATING_YEAR_LINES: readonly HeatingLine[] = [
  ...YEAR_FIT_LINES,
  lineOf(
    {
      key: 'yearWeatherRefusal',
      label: 'Weather that speaks against a year',
      unit: 'none',
      format: 'text',
      description: 'The lines are not carried far beyond the weather that was metered.',
    },
    ['coldestDegreeDays', 'mildestDegreeDays', 'yearHeatingDegreeDays', 'yearMeanDegreeDays'],
    ([coldest, mildest, heating, mean]) =>
      coldest! < heating! ? REFUSALS.noCold : mildest! > mean! ? REFUSALS.noMild : BLANK,
    ([coldest, mildest, heating, mean]) =>
      `IF(${coldest}<${heating},"${REFUSALS.noCold}",IF(${mildest}>${mean},"${REFUSALS.noMild}",""))`,
  ),
  lineOf(
    {
      key: 'yearHeatRefusal',
      label: 'Heat that speaks against a year',
      unit: 'none',
      format: 'text',
      description: 'A house takes no heat below 0; a standard error of the intercept is let pass.',
    },
    ['fitHeatBaseKwhPerDay', 'fitHeatBaseStandardError', 'yearHeatKwhPerDegreeDay'],
    ([base, error, slope]) => (base! < -error! ? REFUSALS.base : slope! > 0 ? BLANK : REFUSALS.slope),
    ([base, error, slope]) =>
      `IF(${base}+${error}<0,"${REFUSALS.base}",IF(${slope}>0,"","${REFUSALS.slope}"))`,
  ),
  {
    key: 'yearRefusal',
    label: 'Why there is no year',
    unit: 'none',
    format: 'text',
    description: 'Blank where the months speak for a year.',
    value: (at) => {
      if (!((at.number('yearDegreeDays') ?? 0) > 0)) return REFUSALS.noWeather;
      if (at.number('yearMonths') === 0) return REFUSALS.tooFew;
      return at.text('yearWeatherRefusal') || at.text('yearHeatRefusal');
    },
    formula: (at) => {
      const [weather, heat] = [at.cell('yearWeatherRefusal'), at.cell('yearHeatRefusal')];
      return (
        `IF(SUM(${at.cell('yearDegreeDays')})<=0,"${REFUSALS.noWeather}",IF(${at.cell('yearMonths')}=0,"${REFUSALS.tooFew}",` +
        `IF(${weather}="",${heat},${weather})))`
      );
    },
  },
  yearLine(
    {
      key: 'yearHeatKwh',
      label: 'Heat in a year',
      unit: 'kWh',
      format: 'number0',
      description: 'Heat that does not depend on weather × days + slope × degree days of a year.',
    },
    HEAT,
    ([days, base, slope, mean]) => days! * (base! + slope! * mean!),
    ([days, base, slope, mean]) => `${days}*(${base}+${slope}*${mean})`,
  ),
  heatTimes(
    {
      key: 'yearElectricityKwh',
      label: 'Electricity in a year',
      unit: 'kWh',
      format: 'number0',
      description: 'Heat × what a kWh of it takes, both as they change with weather over the year.',
    },
    'yearElectricityPerHeatBase',
    'yearElectricityPerHeatPerDegree',
  ),
  heatTimes(
    {
      key: 'yearHeatPumpEnergyPounds',
      label: 'Cost of that electricity',
      unit: '£/year',
      format: 'pounds',
      description: 'Heat × what a kWh of it cost, both as they change with weather over the year.',
    },
    'yearCostBasePounds',
    'yearCostPerDegreePounds',
  ),
  lineOf(
    {
      key: 'yearEnergyPencePerKwh',
      label: 'Rate for the year',
      unit: 'p/kWh',
      format: 'pence',
      description: 'Cost of electricity in a year ÷ electricity in a year.',
    },
    ['yearHeatPumpEnergyPounds', 'yearElectricityKwh'],
    ([cost, electricity]) => (electricity! > 0 ? (cost! * 100) / electricity! : BLANK),
    ([cost, electricity]) => `IF(${electricity}>0,${cost}*100/${electricity},"")`,
  ),
  fixedInAYear(
    'yearHeatPumpFixedPounds',
    'Heat pump’s side beside the heat pump, a year',
    'heatPumpFixedPounds',
  ),
  fixedInAYear('yearBoilerFixedPounds', 'Boiler’s side beside gas burnt, a year', 'boilerFixedPounds'),
  lineOf(
    {
      key: 'yearHeatPumpPounds',
      label: 'Heat pump’s side, a year',
      unit: '£/year',
      format: 'pounds',
      description: 'Cost of electricity in a year + what its side pays beside.',
    },
    ['yearHeatPumpEnergyPounds', 'yearHeatPumpFixedPounds'],
    ([energy, fixed]) => energy! + fixed!,
    ([energy, fixed]) => `${energy}+${fixed}`,
  ),
  {
    key: 'yearBoilerHeatKwh',
    label: 'Heat from the boiler in a year',
    unit: 'kWh',
    format: 'number0',
    description: 'Heat in a year and what the boiler makes beside it; blank without a heat meter.',
    value: (at) => {
      const heat = at.number('yearHeatKwh');
      const beside = known(at.column('boilerHeatBesideKwhPerDay'));
      if (heat === null || at.number('heatMeterMonths') === 0 || beside.length === 0) return BLANK;
      return Math.max(0, heat + (at.number('yearDays')! * total(beside)) / beside.length);
    },
    formula: (at) => {
      const [heat, beside] = [at.cell('yearHeatKwh'), at.column('boilerHeatBesideKwhPerDay')];
      return `IF(AND(COUNT(${heat})=1,${at.cell('heatMeterMonths')}>0,COUNT(${beside})>0),MAX(0,SUM(${heat})+${at.cell('yearDays')}*SUM(${beside})/MAX(1,COUNT(${beside}))),"")`;
    },
  },
  lineOf(
    {
      key: 'yearGasRefusal',
      label: 'Why there is no year from last year’s gas',
      unit: 'none',
      format: 'text',
      description: 'Blank where its intercept is not below 0, a standard error let pass.',
    },
    ['gasBaseKwhPerDay', 'gasBaseStandardError'],
    ([base, error]) => (base! + error! < 0 ? REFUSALS.gasBase : BLANK),
    ([base, error]) => `IF(${base}+${error}<0,"${REFUSALS.gasBase}","")`,
  ),
  lineOf(
    {
      key: 'yearMeterDegreeDays',
      label: 'Degree days of a year for last year’s gas',
      unit: '°C·day',
      format: 'number0',
      description:
        'Degree days of a year, and for rooms warmer than then so much more on each day that is heated.',
    },
    ['yearDegreeDays', 'yearDays', 'gasHeatedShare'],
    ([degreeDays, days, heated], at) =>
      Math.max(0, degreeDays! + (at.number('roomsWarmerC') ?? 0) * days! * heated!),
    ([degreeDays, days, heated], at) =>
      `MAX(0,${degreeDays}+SUM(${at.cell('roomsWarmerC')})*${days}*${heated})`,
  ),
  lineOf(
    {
      key: 'yearGasFromMeterKwh',
      label: 'Boiler’s gas in a year (a)',
      unit: 'kWh',
      format: 'number0',
      description:
        'Last year’s gas at a year of usual weather, less gas left out; at least 0. Blank where it would be below 0 without heating.',
    },
    ['gasBaseKwhPerDay', 'gasKwhPerDegreeDay', 'yearDays', 'yearMeterDegreeDays', 'leaveOutGasKwhPerDay'],
    ([base, slope, days, degreeDays, leaveOut], at) =>
      at.text('yearGasRefusal') === ''
        ? Math.max(0, useAtWeather(Math.max(0, base!), slope!, days!, degreeDays!) - leaveOut! * days!)
        : BLANK,
    ([base, slope, days, degreeDays, leaveOut], at) =>
      `IF(${at.cell('yearGasRefusal')}="",MAX(0,MAX(0,${base})*${days}+${slope}*${degreeDays}-${leaveOut}*${days}),"")`,
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
    'yearMeterDegreeDays',
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
    'gasRateOfMeterPence',
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
  yearLine(
    {
      key: 'yearHeatWeightedDegreeDays',
      label: 'Degree days a day where the year’s heat falls',
      unit: '°C',
      format: 'number2',
      description: 'Weighted by heat, hot water included.',
    },
    [...HEAT.slice(1), 'yearHeatingDegreeDays'],
    ([base, slope, mean, heating]) => ((base! + slope! * heating!) * mean!) / (base! + slope! * mean!),
    ([base, slope, mean, heating]) => `(${base}+${slope}*${heating})*${mean}/(${base}+${slope}*${mean})`,
  ),
  yearLine(
    {
      key: 'yearCostScatterPounds',
      label: 'Doubt in the cost of a kWh of heat',
      unit: '£',
      format: 'pounds',
      description:
        'Standard error over the year: of its line through the cold months, and of twelve months about it.',
    },
    ['yearHeatKwh', 'yearHeatWeightedDegreeDays'],
    ([heat, mean], at) => {
      const { scatter, points, meanX, spreadX } = fitOf(at, COST_FIT)!;
      return heat! * scatter * Math.sqrt(1 / points + (mean! - meanX) ** 2 / spreadX + 1 / MONTHS_OF_A_YEAR);
    },
    ([heat, mean], at) => {
      const [y, x] = [at.column(COST_FIT.y), at.column(COST_FIT.x)];
      return `${heat}*STEYX(${y},${x})*SQRT(1/COUNT(${x})+(${mean}-AVERAGE(${x}))^2/DEVSQ(${x})+1/${MONTHS_OF_A_YEAR})`;
    },
  ),
  yearLine(
    {
      key: 'yearSpreadDoubtPounds',
      label: 'Doubt in the spread of the year’s weather',
      unit: '£',
      format: 'pounds',
      description:
        'Standard error of that spread at what it is worth: the more COP falls in the cold, the more.',
    },
    [...HEAT, 'yearCostPerDegreePounds', 'yearWeatherSpreadDoubt'],
    ([days, , slope, mean, rise, doubt]) => days! * slope! * rise! * mean! ** 2 * doubt!,
    ([days, , slope, mean, rise, doubt]) => `${days}*${slope}*${rise}*${mean}^2*${doubt}`,
  ),
  yearLine(
    {
      key: 'yearEachKwhPounds',
      label: 'Worth of a kWh of heat each day',
      unit: '£/kWh',
      format: 'number2',
      description: 'Mean over the year of what it cost.',
    },
    ['yearCostBasePounds', 'yearCostPerDegreePounds', 'yearMeanDegreeDays'],
    ([base, rise, mean]) => base! + rise! * mean!,
    ([base, rise, mean]) => `${base}+${rise}*${mean}`,
  ),
  yearLine(
    {
      key: 'yearEachSlopePounds',
      label: 'Worth of a kWh of heat each degree day',
      unit: '£·°C/kWh',
      format: 'number2',
      description: 'The same weighted by degree days, × degree days a day.',
    },
    ['yearCostBasePounds', 'yearCostPerDegreePounds', 'yearHeatingDegreeDays', 'yearMeanDegreeDays'],
    ([base, rise, heating, mean]) => mean! * (base! + rise! * heating!),
    ([base, rise, heating, mean]) => `${mean}*(${base}+${rise}*${heating})`,
  ),
  heatScatter(
    {
      key: 'yearHeatScatterPounds',
      label: 'Doubt in heat, (a)',
      unit: '£',
      format: 'pounds',
      description: 'Standard error of heat in a year at what the heat pump’s costs.',
    },
    'yearEachKwhPounds',
    'yearEachSlopePounds',
  ),
  lineOf(
    {
      key: 'yearGasScatterPounds',
      label: 'Doubt in last year’s gas, (a)',
      unit: '£',
      format: 'pounds',
      description: 'Standard error of (a) in a year × gas rate.',
    },
    ['yearGasFromMeterStandardErrorKwh', 'gasRateOfMeterPence'],
    ([error, rate]) => (error! * rate!) / 100,
    ([error, rate]) => `${error}*${rate}/100`,
  ),
  rangeOf(
    { key: 'yearFromMeterRangePounds', label: 'Give or take (a)' },
    ['yearCostScatterPounds', 'yearHeatScatterPounds', 'yearSpreadDoubtPounds', 'yearGasScatterPounds'],
    ['yearMonths', 'gasFitMonths'],
    'yearDifferenceFromMeterPounds',
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
  yearLine(
    {
      key: 'yearEachKwhLessGasPounds',
      label: 'Worth of a kWh of heat each day, less gas',
      unit: '£/kWh',
      format: 'number2',
      description:
        'The boiler burns for the same heat, so its cost is taken off: only the difference is in doubt.',
    },
    ['yearEachKwhPounds', 'meanGasRatePence', 'boilerEfficiency'],
    ([each, rate, efficiency]) => each! - rate! / 100 / efficiency!,
    ([each, rate, efficiency]) => `${each}-${rate}/100/${efficiency}`,
  ),
  yearLine(
    {
      key: 'yearEachSlopeLessGasPounds',
      label: 'Worth of a kWh of heat each degree day, less gas',
      unit: '£·°C/kWh',
      format: 'number2',
      description: 'The same for the part that depends on weather.',
    },
    ['yearEachSlopePounds', 'meanGasRatePence', 'boilerEfficiency', 'yearMeanDegreeDays'],
    ([each, rate, efficiency, mean]) => each! - (rate! / 100 / efficiency!) * mean!,
    ([each, rate, efficiency, mean]) => `${each}-${rate}/100/${efficiency}*${mean}`,
  ),
  heatScatter(
    {
      key: 'yearHeatScatterLessGasPounds',
      label: 'Doubt in heat, (b)',
      unit: '£',
      format: 'pounds',
      description:
        'Standard error of heat in a year at what the heat pump’s costs less what the boiler’s would.',
    },
    'yearEachKwhLessGasPounds',
    'yearEachSlopeLessGasPounds',
  ),
  rangeOf(
    { key: 'yearFromHeatRangePounds', label: 'Give or take (b)' },
    ['yearCostScatterPounds', 'yearHeatScatterLessGasPounds', 'yearSpreadDoubtPounds'],
    ['yearMonths'],
    'yearDifferenceFromHeatPounds',
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
  {
    key: 'yearSavingRangePounds',
    label: 'Give or take',
    unit: '£',
    format: 'pounds',
    description: 'The wider range of (a) and (b); 0 where there is none.',
    value: (at) => Math.max(0, ...known(RANGES.map((key) => at.number(key)))),
    formula: (at) => `MAX(0,${RANGES.map(at.cell).join(',')})`,
  },
  lineOf(
    {
      key: 'paybackYears',
      label: 'Simple payback',
      unit: 'years',
      format: 'number1',
      description:
        'Extra cost ÷ saved in a year; no interest, no change of prices. Not said where the range leaves open whether anything is saved.',
    },
    ['extraCostPounds', 'yearSavingPounds', 'yearSavingRangePounds'],
    ([cost, saving, range]) =>
      saving! > 0 && saving! <= range! ? UNSURE : (simplePayback(cost!, saving!) ?? NEVER),
    ([cost, saving, range]) =>
      `IF(${saving}<=0,"${NEVER}",IF(${saving}<=${range},"${UNSURE}",${cost}/${saving}))`,
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
        at.text('yearRefusal') === '' ? at.number('yearMonths')! : 0,
        at.number('winterShare')!,
      ),
    formula: (at) =>
      yearVerdictFormula(
        at.cell('monthsCompared'),
        `IF(${at.cell('yearRefusal')}="",${at.cell('yearMonths')},0)`,
        at.cell('yearNeeds'),
      ),
  },
];

/** What payback says where the range of the saving reaches down to none. */
const UNSURE = 'not sure';
const RANGES = ['yearFromMeterRangePounds', 'yearFromHeatRangePounds'] as const;

function yearDifferences(at: LineValues): number[] {
  return known([at.number('yearDifferenceFromMeterPounds'), at.number('yearDifferenceFromHeatPounds')]);
}
