import { monthsToFit, monthsToFitFormula } from '../fit-use-to-degree-days.js';
import { type StraightLine, straightLine } from '../straight-line.js';
import { WHOLE_YEAR_DAYS, weatherSquares } from './gas-lines.js';
import {
  BLANK,
  type HeatingLine,
  known,
  type LineLabel,
  type LineReferences,
  type LineValues,
  lineOf,
} from './heating-line.js';
import { totalWhere, totalWhereFormula } from './total-lines.js';

/** Columns of a line through the months: what is fitted, and the degree days a day beside it. */
interface FitColumns {
  y: string;
  x: string;
}
/** Heat a day, of all months with heat. */
export const HEAT_FIT: FitColumns = { y: 'fitHeatKwhPerDay', x: 'fitDegreeDaysPerDay' };
/** Cost of a kWh of heat, of cold months. */
export const COST_FIT: FitColumns = { y: 'costPerHeatPounds', x: 'coldDegreeDaysPerDay' };
/** Electricity for a kWh of heat, of cold months. */
const ELECTRICITY_FIT: FitColumns = { y: 'electricityPerHeat', x: 'coldDegreeDaysPerDay' };

/** The line through such columns, where there are months enough. */
export function fitOf(at: LineValues, { y, x }: FitColumns): StraightLine | null {
  if (!(at.number('yearMonths')! > 0)) return null;
  return straightLine(known(at.column(x)), known(at.column(y)));
}

/** A formula on the two columns, where there are months enough. */
export function fitFormula(
  at: LineReferences,
  columns: FitColumns,
  formula: (y: string, x: string) => string,
): string {
  return `IF(${at.cell('yearMonths')}>0,${formula(at.column(columns.y), at.column(columns.x))},"")`;
}

function fitLine(
  label: LineLabel,
  columns: FitColumns,
  value: (fit: StraightLine) => number,
  formula: (y: string, x: string) => string,
): HeatingLine {
  return {
    ...label,
    value: (at) => {
      const fit = fitOf(at, columns);
      return fit === null ? BLANK : value(fit);
    },
    formula: (at) => fitFormula(at, columns, formula),
  };
}

const intercept = (label: LineLabel, columns: FitColumns): HeatingLine =>
  fitLine(
    label,
    columns,
    (fit) => fit.intercept,
    (y, x) => `INTERCEPT(${y},${x})`,
  );
const slope = (label: LineLabel, columns: FitColumns): HeatingLine =>
  fitLine(
    label,
    columns,
    (fit) => fit.slope,
    (y, x) => `SLOPE(${y},${x})`,
  );

/**
 * Mean square ÷ square of the mean of degree days a day, by month, where no whole year of weather is known: 1.5 for a
 * season like a sine that just touches 0 in summer; more where summer is long. Common practice, no source.
 */
const USUAL_SPREAD = 1.6;
/** How far the spread of one year is from that of another, and how far the usual one may be off; from memory. */
const SPREAD_DOUBT = { ofAnotherYear: 0.1, usual: 0.3 } as const;

/** The lines through the months, and the weather of the year that they are carried to. */
export const YEAR_FIT_LINES: readonly HeatingLine[] = [
  {
    key: 'yearMonths',
    label: 'Months for the year',
    unit: 'count',
    format: 'number0',
    description:
      'Months with heat and at least a degree day a day; 0 where fewer than three, or all of about the same weather.',
    value: (at) => monthsToFit(known(at.column(COST_FIT.x))),
    formula: (at) => monthsToFitFormula(at.column(COST_FIT.x)),
  },
  {
    key: 'yearFitDays',
    label: 'Days of the months with heat',
    unit: 'days',
    format: 'number0',
    description: 'And degree days.',
    value: (at) => totalWhere(at, 'days', HEAT_FIT.x),
    formula: (at) => totalWhereFormula(at, 'days', HEAT_FIT.x),
  },
  {
    key: 'yearFitDegreeDays',
    label: 'Their degree days',
    unit: '°C·day',
    format: 'number0',
    description: 'Of the same months.',
    value: (at) => totalWhere(at, 'degreeDaysUsed', HEAT_FIT.x),
    formula: (at) => totalWhereFormula(at, 'degreeDaysUsed', HEAT_FIT.x),
  },
  lineOf(
    {
      key: 'monthsWeatherSpread',
      label: 'Spread of their weather',
      unit: 'ratio',
      format: 'number2',
      description: `Mean square of degree days a day ÷ square of their mean; blank unless they cover ${WHOLE_YEAR_DAYS} days.`,
    },
    ['yearFitDays', 'yearFitDegreeDays'],
    ([days, degreeDays], at) =>
      days! < WHOLE_YEAR_DAYS || degreeDays! <= 0
        ? BLANK
        : (weatherSquares(at.column('days'), at.column(HEAT_FIT.x)) * days!) / degreeDays! ** 2,
    ([days, degreeDays], at) => {
      const x = at.column(HEAT_FIT.x);
      return `IF(${days}<${WHOLE_YEAR_DAYS},"",IF(${degreeDays}<=0,"",SUMPRODUCT(${at.column('days')},${x},${x})*${days}/${degreeDays}^2))`;
    },
  ),
  {
    key: 'yearWeatherSpread',
    label: 'Spread of the year’s weather',
    unit: 'ratio',
    format: 'number2',
    description: `That of the months where they are a year, else of last year’s gas, else ${USUAL_SPREAD}: common practice, no source.`,
    value: (at) => at.number('monthsWeatherSpread') ?? at.number('gasWeatherSpread') ?? USUAL_SPREAD,
    formula: (at) => bySpread(at, at.cell('monthsWeatherSpread'), at.cell('gasWeatherSpread'), USUAL_SPREAD),
  },
  {
    key: 'yearWeatherSpreadDoubt',
    label: 'Standard error of that spread',
    unit: 'ratio',
    format: 'number2',
    description: 'None of the months’ own; of another year, and of the usual one, from memory.',
    value: (at) =>
      at.number('monthsWeatherSpread') !== null
        ? 0
        : at.number('gasWeatherSpread') !== null
          ? SPREAD_DOUBT.ofAnotherYear
          : SPREAD_DOUBT.usual,
    formula: (at) => bySpread(at, '0', String(SPREAD_DOUBT.ofAnotherYear), SPREAD_DOUBT.usual),
  },
  lineOf(
    {
      key: 'yearMeanDegreeDays',
      label: 'Degree days a day of the year',
      unit: '°C',
      format: 'number2',
      description: 'Degree days of a year ÷ its days.',
    },
    ['yearDegreeDays', 'yearDays'],
    ([degreeDays, days]) => degreeDays! / days!,
    ([degreeDays, days]) => `${degreeDays}/${days}`,
  ),
  lineOf(
    {
      key: 'yearHeatingDegreeDays',
      label: 'Degree days a day where the year’s heating falls',
      unit: '°C',
      format: 'number2',
      description: 'The same weighted by degree days: × the spread of the year’s weather.',
    },
    ['yearMeanDegreeDays', 'yearWeatherSpread'],
    ([mean, spread]) => mean! * spread!,
    ([mean, spread]) => `${mean}*${spread}`,
  ),
  {
    key: 'mildestDegreeDays',
    label: 'Mildest weather that the months speak for',
    unit: '°C',
    format: 'number2',
    description:
      'Degree days a day of the mildest month, less half of what lies between mildest and coldest.',
    value: (at) => {
      if (!(at.number('yearMonths')! > 0)) return BLANK;
      const x = known(at.column(HEAT_FIT.x));
      const mildest = Math.min(...x);
      return mildest - (Math.max(...x) - mildest) / 2;
    },
    formula: (at) => fitFormula(at, HEAT_FIT, (_, x) => `MIN(${x})-(MAX(${x})-MIN(${x}))/2`),
  },
  {
    key: 'coldestDegreeDays',
    label: 'Coldest weather that the months speak for',
    unit: '°C',
    format: 'number2',
    description: 'Degree days a day of the coldest month.',
    value: (at) => (at.number('yearMonths')! > 0 ? Math.max(...known(at.column(HEAT_FIT.x))) : BLANK),
    formula: (at) => fitFormula(at, HEAT_FIT, (_, x) => `MAX(${x})`),
  },
  intercept(
    {
      key: 'fitHeatBaseKwhPerDay',
      label: 'Heat a day without degree days, as fitted',
      unit: 'kWh/day',
      format: 'number2',
      description: 'Intercept of heat a day on degree days a day: hot water.',
    },
    HEAT_FIT,
  ),
  fitLine(
    {
      key: 'fitHeatBaseStandardError',
      label: 'Standard error of that',
      unit: 'kWh/day',
      format: 'number2',
      description: 'How surely the intercept is known.',
    },
    HEAT_FIT,
    (fit) => fit.scatter * Math.sqrt(1 / fit.points + fit.meanX ** 2 / fit.spreadX),
    (y, x) => `STEYX(${y},${x})*SQRT(1/COUNT(${x})+AVERAGE(${x})^2/DEVSQ(${x}))`,
  ),
  lineOf(
    {
      key: 'yearHeatBaseKwhPerDay',
      label: 'Heat a day that does not depend on weather',
      unit: 'kWh/day',
      format: 'number2',
      description: 'The intercept, at least 0.',
    },
    ['fitHeatBaseKwhPerDay'],
    ([base]) => Math.max(0, base!),
    ([base]) => `MAX(0,${base})`,
  ),
  lineOf(
    {
      key: 'yearHeatKwhPerDegreeDay',
      label: 'Heat that depends on weather',
      unit: 'kWh/(°C·day)',
      format: 'number2',
      description: 'The slope; through 0 and the mean of the months where the intercept is below 0.',
    },
    ['fitHeatBaseKwhPerDay'],
    ([base], at) => {
      const fit = fitOf(at, HEAT_FIT)!;
      return base! < 0 ? (fit.intercept + fit.slope * fit.meanX) / fit.meanX : fit.slope;
    },
    ([base], at) => {
      const [y, x] = [at.column(HEAT_FIT.y), at.column(HEAT_FIT.x)];
      return `IF(${base}<0,AVERAGE(${y})/AVERAGE(${x}),SLOPE(${y},${x}))`;
    },
  ),
  intercept(
    {
      key: 'yearCostBasePounds',
      label: 'Cost of a kWh of heat without degree days',
      unit: '£/kWh',
      format: 'number2',
      description: 'Intercept of what a kWh of heat cost on degree days a day, cold months.',
    },
    COST_FIT,
  ),
  slope(
    {
      key: 'yearCostPerDegreePounds',
      label: 'Rise of that cost with cold',
      unit: '£/kWh/°C',
      format: 'number2',
      description: 'Its slope: COP falls in the cold.',
    },
    COST_FIT,
  ),
  intercept(
    {
      key: 'yearElectricityPerHeatBase',
      label: 'Electricity for a kWh of heat without degree days',
      unit: 'kWh/kWh',
      format: 'number2',
      description: 'Intercept of 1 ÷ COP on degree days a day, cold months.',
    },
    ELECTRICITY_FIT,
  ),
  slope(
    {
      key: 'yearElectricityPerHeatPerDegree',
      label: 'Rise of that electricity with cold',
      unit: 'kWh/kWh/°C',
      format: 'number2',
      description: 'Its slope: COP falls in the cold.',
    },
    ELECTRICITY_FIT,
  ),
];

function bySpread(at: LineReferences, months: string, gas: string, otherwise: number): string {
  return `IF(COUNT(${at.cell('monthsWeatherSpread')})=1,${months},IF(COUNT(${at.cell('gasWeatherSpread')})=1,${gas},${otherwise}))`;
}
