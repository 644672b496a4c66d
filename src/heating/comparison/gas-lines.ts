import { slopeFromTotals } from '../adjust-use-to-degree-days.js';
import { fitDailyUse, monthsToFit, monthsToFitFormula, type WeatherFit } from '../fit-use-to-degree-days.js';
import {
  BLANK,
  type HeatingLine,
  known,
  type LineReferences,
  type LineValues,
  lineOf,
  total,
} from './heating-line.js';

/** From so many days on, months are a whole year of weather. */
export const WHOLE_YEAR_DAYS = 350;

/** Sum of days × square of degree days a day, over the rows that have both. */
export function weatherSquares(
  days: readonly (number | null)[],
  degreeDaysPerDay: readonly (number | null)[],
): number {
  return total(degreeDaysPerDay.map((x, i) => (x === null ? null : (days[i] ?? 0) * x * x)));
}

/** Columns worked out of last year's gas, a row a month. */
export const GAS_MONTH_LINES: readonly HeatingLine[] = [
  lineOf(
    {
      key: 'gasKwhPerDay',
      label: 'Gas a day',
      unit: 'kWh/day',
      format: 'number2',
      description: 'Gas ÷ days, where days, gas and degree days are all known.',
    },
    ['gasKwh', 'gasDays', 'gasDegreeDays'],
    ([gas, days]) => gas! / days!,
    ([gas, days]) => `${gas}/${days}`,
  ),
  lineOf(
    {
      key: 'gasDegreeDaysPerDay',
      label: 'Degree days a day',
      unit: '°C',
      format: 'number2',
      description: 'Degree days ÷ days, in the same rows.',
    },
    ['gasDegreeDays', 'gasDays', 'gasKwh'],
    ([degreeDays, days]) => degreeDays! / days!,
    ([degreeDays, days]) => `${degreeDays}/${days}`,
  ),
];

/** Whether the gas is taken apart by regression: enough months, different weather, no base entered. */
function fitted(at: LineValues): WeatherFit | null {
  return at.number('enteredBaseGasKwhPerDay') === null && at.number('gasFitMonths')! > 0
    ? fitDailyUse(known(at.column('gasDegreeDaysPerDay')), known(at.column('gasKwhPerDay')))
    : null;
}

function ifFitted(at: LineReferences, then: string, otherwise = '""'): string {
  return `IF(AND(COUNT(${at.cell('enteredBaseGasKwhPerDay')})=0,${at.cell('gasFitMonths')}>0),${then},${otherwise})`;
}

const y = (at: LineReferences): string => at.column('gasKwhPerDay');
const x = (at: LineReferences): string => at.column('gasDegreeDaysPerDay');

/** A sum over the rows of last year's gas that can be used. */
function usable(key: string, label: string, unit: string, column: string): HeatingLine {
  return {
    key,
    label,
    unit,
    format: 'number0',
    description: 'Of the months with days, gas and degree days.',
    value: (at) => {
      const perDay = at.column('gasKwhPerDay');
      return total(at.column(column).filter((_, i) => perDay[i] !== null));
    },
    formula: (at) => `SUMIF(${y(at)},">=0",${at.column(column)})`,
  };
}

/** Single figures of last year's gas. */
export const GAS_FIT_LINES: readonly HeatingLine[] = [
  {
    key: 'gasFitMonths',
    label: 'Months of last year’s gas to fit',
    unit: 'count',
    format: 'number0',
    description:
      'Months with days, gas and degree days; 0 where fewer than three, or all of about the same weather.',
    value: (at) => monthsToFit(known(at.column('gasDegreeDaysPerDay'))),
    formula: (at) => monthsToFitFormula(x(at)),
  },
  {
    key: 'gasBaseKwhPerDay',
    label: 'Gas that does not depend on weather',
    unit: 'kWh/day',
    format: 'number2',
    description: 'The entered summer gas a day, or the intercept of gas a day on degree days a day.',
    value: (at) => at.number('enteredBaseGasKwhPerDay') ?? fitted(at)?.baseKwhPerDay ?? BLANK,
    formula: (at) =>
      `IF(COUNT(${at.cell('enteredBaseGasKwhPerDay')})=1,${at.cell('enteredBaseGasKwhPerDay')},${ifFitted(at, `INTERCEPT(${y(at)},${x(at)})`)})`,
  },
  usable('gasUsableKwh', 'Gas of the months that can be used', 'kWh', 'gasKwh'),
  usable('gasUsableDays', 'Their days', 'days', 'gasDays'),
  usable('gasUsableDegreeDays', 'Their degree days', '°C·day', 'gasDegreeDays'),
  {
    key: 'gasHeatedShare',
    label: 'Days of that year that were heated',
    unit: 'share 0–1',
    format: 'share',
    description: 'Share of the days in months with at least a degree day a day; 1 where nothing is known.',
    value: (at) => {
      const days = at.number('gasUsableDays')!;
      const x = at.column('gasDegreeDaysPerDay');
      return days > 0 ? total(at.column('gasDays').filter((_, i) => (x[i] ?? 0) >= 1)) / days : 1;
    },
    formula: (at) => {
      const days = at.cell('gasUsableDays');
      return `IF(${days}>0,SUMIF(${x(at)},">=1",${at.column('gasDays')})/MAX(1,${days}),1)`;
    },
  },
  lineOf(
    {
      key: 'gasForWeatherKwh',
      label: 'Gas left for the weather',
      unit: 'kWh',
      format: 'number0',
      description: 'Of those months, less the entered summer gas a day; blank without one.',
    },
    ['enteredBaseGasKwhPerDay', 'gasUsableKwh', 'gasUsableDays'],
    ([base, kwh, days]) => kwh! - base! * days!,
    ([base, kwh, days]) => `${kwh}-${base}*${days}`,
  ),
  {
    key: 'gasKwhPerDegreeDay',
    label: 'Gas that depends on weather',
    unit: 'kWh/(°C·day)',
    format: 'number2',
    description: 'The slope of that line; with an entered base, what is left of all gas ÷ all degree days.',
    value: (at) => {
      const fit = fitted(at);
      if (fit !== null) return fit.kwhPerDegreeDay;
      const base = at.number('enteredBaseGasKwhPerDay');
      const [useKwh, days, degreeDays] = ['gasUsableKwh', 'gasUsableDays', 'gasUsableDegreeDays'].map(
        (key) => at.number(key)!,
      );
      return base === null || degreeDays === 0
        ? BLANK
        : slopeFromTotals({ useKwh: useKwh!, days: days!, degreeDays: degreeDays! }, base);
    },
    formula: (at) => {
      const [left, degreeDays] = [at.cell('gasForWeatherKwh'), at.cell('gasUsableDegreeDays')];
      return ifFitted(
        at,
        `SLOPE(${y(at)},${x(at)})`,
        `IF(COUNT(${left})=0,"",IF(${degreeDays}=0,"",IF(${left}<0,NA(),${left}/${degreeDays})))`,
      );
    },
  },
  {
    key: 'gasSlopeStandardError',
    label: 'Standard error of the weather part',
    unit: 'kWh/(°C·day)',
    format: 'number2',
    description: 'How surely the slope is known; blank with an entered base.',
    value: (at) => fitted(at)?.slopeStandardError ?? BLANK,
    formula: (at) => ifFitted(at, `STEYX(${y(at)},${x(at)})/SQRT(DEVSQ(${x(at)}))`),
  },
  {
    key: 'gasBaseStandardError',
    label: 'Standard error of the part that does not',
    unit: 'kWh/day',
    format: 'number2',
    description: 'How surely the intercept is known; 0 with an entered base.',
    value: (at) => fitted(at)?.baseStandardError ?? 0,
    formula: (at) =>
      ifFitted(
        at,
        `STEYX(${y(at)},${x(at)})*SQRT(1/COUNT(${x(at)})+AVERAGE(${x(at)})^2/DEVSQ(${x(at)}))`,
        '0',
      ),
  },
  {
    key: 'gasWeatherSpread',
    label: 'Spread of last year’s weather',
    unit: 'ratio',
    format: 'number2',
    description: `Mean square of degree days a day ÷ square of their mean; blank unless they cover ${WHOLE_YEAR_DAYS} days.`,
    value: (at) => {
      const [days, degreeDays] = [at.number('gasUsableDays')!, at.number('gasUsableDegreeDays')!];
      if (days < WHOLE_YEAR_DAYS || degreeDays <= 0) return BLANK;
      return (
        (weatherSquares(at.column('gasDays'), at.column('gasDegreeDaysPerDay')) * days) / degreeDays ** 2
      );
    },
    formula: (at) => {
      const [days, degreeDays] = [at.cell('gasUsableDays'), at.cell('gasUsableDegreeDays')];
      const squares = `SUMPRODUCT(${at.column('gasDays')},${x(at)},${x(at)})`;
      return `IF(${days}<${WHOLE_YEAR_DAYS},"",IF(${degreeDays}<=0,"",${squares}*${days}/${degreeDays}^2))`;
    },
  },
  {
    key: 'gasResidualKwhPerDay',
    label: 'Scatter about the line',
    unit: 'kWh/day',
    format: 'number2',
    description: 'Standard error of a month’s gas a day about the line.',
    value: (at) => fitted(at)?.residualStandardError ?? BLANK,
    formula: (at) => ifFitted(at, `STEYX(${y(at)},${x(at)})`),
  },
  {
    key: 'gasRSquared',
    label: 'Explained by weather',
    unit: 'share 0–1',
    format: 'share',
    description: 'Share of the variance of gas a day that degree days explain (R²).',
    value: (at) => fitted(at)?.rSquared ?? BLANK,
    formula: (at) => ifFitted(at, `RSQ(${y(at)},${x(at)})`),
  },
  {
    key: 'gasMeanDegreeDaysPerDay',
    label: 'Mean degree days a day',
    unit: '°C',
    format: 'number2',
    description: 'Of the months fitted; the line is known best there.',
    value: (at) => fitted(at)?.meanDegreeDaysPerDay ?? BLANK,
    formula: (at) => ifFitted(at, `AVERAGE(${x(at)})`),
  },
  {
    key: 'gasDegreeDaysSpread',
    label: 'Spread of degree days a day',
    unit: '°C²',
    format: 'number2',
    description: 'Sum of squared deviations from that mean.',
    value: (at) => fitted(at)?.degreeDaysSpread ?? BLANK,
    formula: (at) => ifFitted(at, `DEVSQ(${x(at)})`),
  },
  {
    key: 'leaveOutGasKwhPerDay',
    label: 'Gas left out of the estimate',
    unit: 'kWh/day',
    format: 'number2',
    description: 'Other gas, and hot water’s gas where hot water is on neither side and the boiler made it.',
    value: (at) => {
      const other = at.number('otherGasKwhPerDay')!;
      if (at.text('hotWaterSide') !== 'neither' || at.text('boilerSideHotWater') !== 'boiler') return other;
      const efficiency = at.number('boilerEfficiency');
      return efficiency === null ? BLANK : other + at.number('hotWaterKwhPerDay')! / efficiency;
    },
    formula: (at) => {
      const [other, efficiency] = [at.cell('otherGasKwhPerDay'), at.cell('boilerEfficiency')];
      return (
        `IF(AND(${at.cell('hotWaterSide')}="neither",${at.cell('boilerSideHotWater')}="boiler"),` +
        `IF(COUNT(${efficiency})=0,"",${other}+${at.cell('hotWaterKwhPerDay')}/${efficiency}),${other})`
      );
    },
  },
];
