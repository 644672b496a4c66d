import { choiceIs, isChoice } from './choices.js';
import { BLANK, type HeatingLine, lineOf } from './heating-line.js';

/** Below this a month's heat is mostly hot water, and says little of how the heat pump takes the cold; °C. */
const COLD_FROM_C = 1;

const COLD_NEEDS = ['fitDegreeDaysPerDay', 'fitHeatKwhPerDay'] as const;
const isCold = (degreeDaysPerDay: number, heat: number): boolean =>
  degreeDaysPerDay >= COLD_FROM_C && heat > 0;
const coldFormula = (degreeDaysPerDay: string, heat: string, then: string): string =>
  `IF(AND(${degreeDaysPerDay}>=${COLD_FROM_C},${heat}>0),${then},"")`;

/** Whether a month can be fitted to its heat meter: told before the totals, which count such months. */
export const HEAT_METER_MONTH_LINES: readonly HeatingLine[] = [
  lineOf(
    {
      key: 'comparedHeatKwh',
      label: 'Heat compared',
      unit: 'kWh',
      format: 'number0',
      description: 'Heat out, less hot water where it is on neither side and the heat pump makes it.',
    },
    ['heatKwh', 'hotWaterHeatKwh'],
    ([heat, hotWater], at) =>
      heat! -
      (isChoice(at, 'hotWaterSide', 'neither') && isChoice(at, 'heatPumpSideHotWater', 'heat pump')
        ? hotWater!
        : 0),
    ([heat, hotWater], at) =>
      `${heat}-IF(AND(${choiceIs(at, 'hotWaterSide', 'neither')},${choiceIs(at, 'heatPumpSideHotWater', 'heat pump')}),${hotWater},0)`,
  ),
  lineOf(
    {
      key: 'heatMeterDegreeDaysPerDay',
      label: 'Degree days a day, months with heat meter',
      unit: '°C',
      format: 'number2',
      description: 'Degree days ÷ days where heat and its cost are known.',
    },
    ['degreeDaysUsed', 'days', 'comparedHeatKwh', 'heatPumpEnergyPounds'],
    ([degreeDays, days]) => degreeDays! / days!,
    ([degreeDays, days]) => `${degreeDays}/${days}`,
  ),
];

/**
 * Daily figures from which a year is estimated. A row a month; they read which meter the year rests on, so they come
 * after the totals.
 */
export const FIT_MONTH_LINES: readonly HeatingLine[] = [
  {
    key: 'fitHeatKwhPerDay',
    label: 'Heat a day, for the year',
    unit: 'kWh/day',
    format: 'number2',
    description:
      'By the heat meter; where it has fewer than three months, last year’s gas at this weather stands for heat.',
    value: (at) => {
      const [degreeDays, days] = [at.number('degreeDaysUsed'), at.number('days')];
      if (degreeDays === null || days === null || at.number('heatPumpEnergyPounds') === null) return BLANK;
      if (at.number('heatMeterMonths')! > 0) {
        const heat = at.number('comparedHeatKwh');
        return heat === null ? BLANK : heat / days;
      }
      const gas = at.number('gasFromMeterKwh');
      return gas === null ? BLANK : gas / days;
    },
    formula: (at) => {
      const [degreeDays, days, cost] = ['degreeDaysUsed', 'days', 'heatPumpEnergyPounds'].map(at.cell);
      const a = (key: string): string => `IF(COUNT(${at.cell(key)})=1,${at.cell(key)}/${days},"")`;
      return `IF(COUNT(${degreeDays},${days},${cost})<3,"",IF(${at.cell('heatMeterMonths')}>0,${a('comparedHeatKwh')},${a('gasFromMeterKwh')}))`;
    },
  },
  lineOf(
    {
      key: 'fitDegreeDaysPerDay',
      label: 'Degree days a day, for the year',
      unit: '°C',
      format: 'number2',
      description: 'Degree days ÷ days where that heat is known.',
    },
    ['degreeDaysUsed', 'days', 'fitHeatKwhPerDay'],
    ([degreeDays, days]) => degreeDays! / days!,
    ([degreeDays, days]) => `${degreeDays}/${days}`,
  ),
  lineOf(
    {
      key: 'coldDegreeDaysPerDay',
      label: 'Degree days a day, cold months',
      unit: '°C',
      format: 'number2',
      description: `The same where it is ${COLD_FROM_C} °C or more, and there was heat.`,
    },
    COLD_NEEDS,
    ([degreeDays, heat]) => (isCold(degreeDays!, heat!) ? degreeDays! : BLANK),
    ([degreeDays, heat]) => coldFormula(degreeDays!, heat!, degreeDays!),
  ),
  lineOf(
    {
      key: 'costPerHeatPounds',
      label: 'Cost of a kWh of heat',
      unit: '£/kWh',
      format: 'number2',
      description: 'Heat pump’s electricity compared ÷ that heat, in cold months: COP and rate in one.',
    },
    [...COLD_NEEDS, 'heatPumpEnergyPounds', 'days'],
    ([degreeDays, heat, cost, days]) => (isCold(degreeDays!, heat!) ? cost! / days! / heat! : BLANK),
    ([degreeDays, heat, cost, days]) => coldFormula(degreeDays!, heat!, `${cost}/${days}/${heat}`),
  ),
  lineOf(
    {
      key: 'electricityPerHeat',
      label: 'Electricity for a kWh of heat',
      unit: 'kWh/kWh',
      format: 'number2',
      description: 'Electricity compared ÷ that heat, in cold months: 1 ÷ COP.',
    },
    [...COLD_NEEDS, 'electricityKwh', 'hotWaterInMeterKwh', 'days'],
    ([degreeDays, heat, electricity, inMeter, days], at) => {
      const compared = electricity! - (isChoice(at, 'hotWaterSide', 'neither') ? inMeter! : 0);
      return isCold(degreeDays!, heat!) ? compared / days! / heat! : BLANK;
    },
    ([degreeDays, heat, electricity, inMeter, days], at) =>
      coldFormula(
        degreeDays!,
        heat!,
        `(${electricity}-IF(${choiceIs(at, 'hotWaterSide', 'neither')},${inMeter},0))/${days}/${heat}`,
      ),
  ),
  lineOf(
    {
      key: 'boilerHeatBesideKwhPerDay',
      label: 'Heat from the boiler beside that',
      unit: 'kWh/day',
      format: 'number2',
      description:
        'Heat from the boiler less heat compared: hot water that another machine makes on one of the sides.',
    },
    ['boilerHeatKwh', 'comparedHeatKwh', 'days', 'fitDegreeDaysPerDay'],
    ([boiler, compared, days]) => (boiler! - compared!) / days!,
    ([boiler, compared, days]) => `(${boiler}-${compared})/${days}`,
  ),
];
