import type { Reference } from '../../../formula/nodes.js';
import { areaReference } from '../../book/terms.js';
import type { Field } from '../../fields/field.js';
import { GAS_FIELDS } from '../../fields/gas-fields.js';
import { flagOf, HEATING_TABLES, RANGE_RULES, SHARES_RULE } from '../../fields/heating-fields.js';
import { SETTING_FIELDS } from '../../fields/heating-settings.js';
import { SHEETS } from '../../layout.js';
import type { Book } from '../book.js';
import { quoted } from '../cells.js';
import type { Check } from '../checks.js';
import { ref } from '../references.js';
import { heatPumpOfReadings } from './heat-pump-readings.js';
import { figureName } from './heating-figures-rows.js';
import { leastPricedFormula, METERS_NOTE } from './heating-months-rows.js';
import {
  gasName,
  heatingMonthName,
  settingCell,
  TEMPERATURE_PROBLEM,
  temperatureName,
} from './heating-rows.js';
import { OTHER_WAY_NAME } from './other-way-of-degree-days.js';
import { summerGasTooMuch } from './used-setting-formula.js';

const NUMBER = '">-1E+300"';
const whole = (text: string): string => `IF(${text},1,0)`;
/** How many rows have numbers in some columns and none in another. */
function without(columns: readonly string[], missing: string): string {
  const all = columns.map((column) => `${column},${NUMBER}`).join(',');
  return `COUNTIFS(${all})-COUNTIFS(${all},${missing},${NUMBER})`;
}

function inputChecks(): Check[] {
  const summerGas = settingCell('enteredBaseGasKwhPerDay');
  return [
    {
      name: 'Heating: settings that can’t be used',
      formula: 'heating_settings_wrong',
      advice: `On ${SHEETS.heatingInputs}: until it is right, such a setting counts as in a fresh workbook.`,
      kind: 'fault',
    },
    {
      name: 'Heating: estimates disagree at less than they agree',
      formula: SHARES_RULE.is,
      advice: `Put the two shares on ${SHEETS.heatingInputs} in order.`,
      kind: 'fault',
    },
    {
      name: 'Heating: what nobody measured is at most less than at least',
      formula: flagOf(RANGE_RULES),
      advice: `Swap the two on ${SHEETS.heatingInputs}: the range takes them either way.`,
      kind: 'fault',
    },
    {
      name: 'Heating: summer gas a day is more than all gas metered',
      formula: `IF(ISNUMBER(${summerGas}),${whole(summerGasTooMuch(summerGas))},0)`,
      advice: 'Lower it, or clear it: the regression finds it. Until then it is not used.',
      kind: 'fault',
    },
    {
      name: 'Heating: sets of rates out of order, without a month, or not numbers',
      formula: 'heating_rates_wrong+heating_rates_out_of_order',
      advice: `On ${SHEETS.heatingInputs}: oldest first, without a gap, each from a month on.`,
      kind: 'fault',
    },
    {
      name: 'Heating: typed degree days or what-if figures that can’t be used',
      formula: 'typed_degree_days_wrong+what_if_wrong',
      advice: `On ${SHEETS.heatingInputs}: a month and its degree days, 0 or more; what-if figures above 0.`,
      kind: 'fault',
    },
  ];
}

function gasChecks(): Check[] {
  return [
    {
      name: 'Gas: rows that can’t be used',
      formula: 'SUM(gas_rows_unusable)',
      advice: `On ${SHEETS.gas}: first day, last day, and kWh or a volume with its unit.`,
      kind: 'fault',
    },
    {
      name: 'Gas: rows without degree days',
      formula: without([gasName('gasDays'), gasName('gasKwh')], gasName('gasDegreeDays')),
      advice: `Such a row is not used: fill ${SHEETS.temperatures} for its days, or type its degree days.`,
      kind: 'fault',
    },
    {
      name: 'Gas: rows that overlap or are out of order',
      formula: 'SUM(gas_rows_overlapping)',
      advice: `On ${SHEETS.gas}: oldest first; a row begins after the last day of the one above.`,
      kind: 'fault',
    },
  ];
}

function temperatureChecks(): Check[] {
  const problems = (code: number): string => `COUNTIFS(${temperatureName('problem')},${code})`;
  return [
    {
      name: 'Temperatures: rows that can’t be used',
      formula: problems(TEMPERATURE_PROBLEM.unusable),
      advice: `On ${SHEETS.temperatures}: a real date, and the mean, or maximum and minimum the right way round.`,
      kind: 'fault',
    },
    {
      name: 'Temperatures: days repeated or out of order',
      formula: problems(TEMPERATURE_PROBLEM.repeatedOrOutOfOrder),
      advice: 'Sort by day and take out repeats; a day that stands twice counts with its mean.',
      kind: 'fault',
    },
    {
      name: 'Temperatures: days without a mean, and without maximum and minimum',
      formula: problems(TEMPERATURE_PROBLEM.noTemperature),
      advice: 'Such a day counts as not there: type them, or let a fill bring them.',
      kind: 'note',
    },
    {
      name: 'Temperatures: days whose degree days are found in another way than those of the readings',
      formula: OTHER_WAY_NAME,
      advice: `The ways differ by a few per cent: choose the like on ${SHEETS.heatingInputs}, Weather.`,
      kind: 'note',
    },
  ];
}

/** How many cells hold something of the gas or the boiler: 0 where nobody asks what the boiler would have cost. */
function typedOfBoiler(): string {
  const [firstGas, lastGas] = [GAS_FIELDS[0], GAS_FIELDS.at(-1)];
  const [firstRates, lastRates] = [HEATING_TABLES.rates[0], HEATING_TABLES.rates.at(-1)];
  if (!firstGas || !lastGas || !firstRates || !lastRates) throw new RangeError('no gas is declared');
  const settings = (first: string, last: string): string => ref(between(fieldOf(first), fieldOf(last)));
  const cells = [
    ref(between(firstGas.firstDay, lastGas.volume)),
    settings('boilerEfficiency', 'gasStandingPencePerDay'),
    settings('enteredBaseGasKwhPerDay', 'enteredBaseGasKwhPerDay'),
    settings('boilerElectricityKwhPerDay', 'boilerServicingPoundsPerYear'),
    ref(between(firstRates.gasRate, lastRates.gasStanding)),
  ];
  return `COUNTA(${cells.join(',')})`;
}
const fieldOf = (key: string): Field => {
  const field = SETTING_FIELDS[key];
  if (field === undefined) throw new RangeError(`no heating setting is called ${key}`);
  return field;
};
const between = ({ cell: { place: first } }: Field, { cell: { place: last } }: Field): Reference =>
  areaReference({
    sheet: first.sheet,
    firstRow: first.row,
    lastRow: last.row,
    firstColumn: first.column,
    lastColumn: last.column,
  });

function monthChecks(book: Book): Check[] {
  const days = ref(book.workings.calendar.date);
  const month = heatingMonthName;
  const noteIs = (note: string): string => `SUMPRODUCT((${month('metersNote')}=${quoted(note)})*1)`;
  return [
    {
      name: 'Heating: months left out because the heat pump’s readings have gaps',
      formula: noteIs(METERS_NOTE.heatPumpGaps),
      advice: `Fill the missing half-hours, or lower the share on ${SHEETS.heatingInputs}, How sure.`,
      kind: 'fault',
    },
    {
      name: 'Heating: months whose heat meter has gaps',
      formula: noteIs(METERS_NOTE.heatGaps),
      advice: 'Their heat is left out; estimate (a) speaks alone.',
      kind: 'note',
    },
    {
      name: 'Heating: months without heat',
      formula: without([month('electricityKwh')], month('heatKwh')),
      advice: 'Only last year’s gas tells what the boiler would have used.',
      kind: 'note',
    },
    {
      name: 'Heating: months without degree days',
      formula: `IF(${typedOfBoiler()}=0,0,${without([month('electricityKwh')], month('degreeDaysUsed'))})`,
      advice: `Fill outdoor temperatures, or type the month’s degree days on ${SHEETS.heatingInputs}; without them there is no estimate (a).`,
      kind: 'fault',
    },
    {
      name: 'Heating: months with a COP below 1 or above 7',
      formula: `COUNTIFS(${month('cop')},"<1")+COUNTIFS(${month('cop')},">7")`,
      advice: 'Check the units of both meters, and that they cover the same machine.',
      kind: 'fault',
    },
    {
      name: 'Heat pump by month and by half-hour differ',
      formula: whole(
        `ABS(SUM(${month('heatPumpMeteredKwh')})-${heatPumpOfReadings(book, `MIN(${days})`, `MAX(${days})+1`)})>0.000001`,
      ),
      advice:
        'The parts do not sum to the whole: readings stand twice or between half-hours, or a formula was changed.',
      kind: 'fault',
    },
  ];
}

/** Added after all others, so that none of them moves. */
export function laterHeatingChecks(): Check[] {
  const [share, electricity] = ['heatPumpPricedShare', 'electricityKwh'].map(heatingMonthName);
  return [
    {
      name: 'Heating: months without a cost, as the import has gaps while the heat pump ran',
      // At a single rate all kWh have their cost.
      formula: `IF(${figureName('costBasis')}="single rate",0,COUNTIFS(${share},"<"&${leastPricedFormula()},${electricity},${NUMBER}))`,
      advice: `What it cost there is not known. Fill the missing half-hours, or lower the share on ${SHEETS.heatingInputs}, How sure.`,
      kind: 'fault',
    },
  ];
}

/** The checks of the heating sheets. */
export function heatingChecks(book: Book): Check[] {
  return [...inputChecks(), ...gasChecks(), ...temperatureChecks(), ...monthChecks(book)];
}
