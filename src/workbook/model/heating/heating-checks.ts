import { absoluteColumn, sheetPrefix } from '../../cell-address.js';
import { METERS_NOTE } from '../../evaluate/heating/heating-month-lines.js';
import { isSummerGasTooMuch } from '../../evaluate/heating/heating-results.js';
import { TEMPERATURE_PROBLEM } from '../../evaluate/heating/temperature-lines.js';
import { isWrongSetting } from '../../evaluate/heating/used-settings.js';
import type { WorkbookResults } from '../../evaluate/workbook-results.js';
import { DEGREE_DAY_ROWS, GAS_ROWS, HEATING_RATE_ROWS } from '../../inputs/heating-cells.js';
import { FIRST_ROW, SHEETS } from '../../layout.js';
import { quoted } from '../cells.js';
import type { Check } from '../checks.js';
import { HALF_HOUR as H, halfHourColumn, READING, readingColumn } from '../columns.js';
import type { CellValue } from '../sheet-model.js';
import { figureCell, TARIFF_PLACE } from './heating-figures-rows.js';
import { monthLetters } from './heating-months-rows.js';
import {
  GAS as G,
  GAS_LINE_LETTERS,
  gasColumn,
  heatingMonthColumn,
  DEGREE_DAY_TABLE as M,
  monthDegreeDayColumn,
  RATES_TABLE as R,
  SENSITIVITY_COUNT,
  SENSITIVITY_TABLE,
  settingCell,
  TEMPERATURE as T,
  temperatureColumn,
} from './heating-rows.js';
import { type PlacedSetting, SETTINGS } from './heating-settings.js';
import { summerGasTooMuch } from './used-setting-formula.js';

const isNumber = (cell: CellValue | undefined): cell is number => typeof cell === 'number';
const whole = (text: string): string => `IF(${text},1,0)`;
const monthColumn = (key: string): string => heatingMonthColumn(monthLetters(key));
/** A count over rows, a term a row: programs differ in what a blank cell is within an array. */
const overRows = (first: number, count: number, term: (row: number) => string): string =>
  Array.from({ length: count }, (_, i) => term(first + i)).join('+');
const countOf = (flags: readonly boolean[]): number => flags.filter(Boolean).length;

function wrongSetting({ input }: PlacedSetting): string {
  const cell = settingCell(input.key);
  if (input.key === TARIFF_PLACE) return `IF(ISBLANK(${cell}),0,${whole(`${figureCell(TARIFF_PLACE)}=0`)})`;
  if (input.choices !== undefined) {
    return `IF(OR(${input.choices.map((choice) => `${cell}=${quoted(choice)}`).join(',')}),0,1)`;
  }
  const limits = [
    ...(input.min === undefined ? [] : [`${cell}>=${input.min}`]),
    ...(input.max === undefined ? [] : [`${cell}<=${input.max}`]),
  ];
  const inside = limits.length === 0 ? '0' : `IF(AND(${limits.join(',')}),0,1)`;
  const blank = input.optional === true ? `IF(ISBLANK(${cell}),0,1)` : '1';
  return `IF(ISNUMBER(${cell}),${inside},${blank})`;
}

function inputChecks(): Check[] {
  return [
    {
      name: 'Heating: settings that can’t be used',
      formula: SETTINGS.map(wrongSetting).join('+'),
      count: ({ inputs, heating }) =>
        countOf(
          SETTINGS.map(({ input }) => {
            const cell = inputs.heating.settings[input.key] ?? null;
            return input.key === TARIFF_PLACE
              ? cell !== null && heating.tariff < 0
              : isWrongSetting(input, cell);
          }),
        ),
      advice: `On ${SHEETS.heatingInputs}: until it is right, such a setting counts as in a fresh workbook.`,
      kind: 'fault',
    },
    {
      name: 'Heating: estimates disagree at less than they agree',
      formula: whole(`SUM(${settingCell('disagreeBeyondShare')})<SUM(${settingCell('agreeWithinShare')})`),
      count: ({ inputs: { heating } }) => {
        const figure = (key: string): number => {
          const cell = heating.settings[key];
          return isNumber(cell) ? cell : 0;
        };
        return figure('disagreeBeyondShare') < figure('agreeWithinShare') ? 1 : 0;
      },
      advice: `Put the two shares on ${SHEETS.heatingInputs} in order.`,
      kind: 'fault',
    },
    {
      name: 'Heating: summer gas a day is more than all gas metered',
      formula: `IF(ISNUMBER(${settingCell('enteredBaseGasKwhPerDay')}),${whole(summerGasTooMuch(settingCell('enteredBaseGasKwhPerDay')))},0)`,
      count: ({ inputs, heating }) =>
        isSummerGasTooMuch(inputs.heating.settings.enteredBaseGasKwhPerDay ?? null, heating.gas) ? 1 : 0,
      advice: 'Lower it, or clear it: the regression finds it. Until then it is not used.',
      kind: 'fault',
    },
    {
      name: 'Heating: sets of rates out of order, without a month, or not numbers',
      formula: ratesFormula(),
      count: wrongRates,
      advice: `On ${SHEETS.heatingInputs}: oldest first, without a gap, each from a month on.`,
      kind: 'fault',
    },
    {
      name: 'Heating: typed degree days or what-if figures that can’t be used',
      formula: typedFormula(),
      count: wrongTyped,
      advice: `On ${SHEETS.heatingInputs}: a month and its degree days, 0 or more; what-if figures above 0.`,
      kind: 'fault',
    },
  ];
}

function ratesFormula(): string {
  const sheet = sheetPrefix(SHEETS.heatingInputs);
  const last = R.first + HEATING_RATE_ROWS - 1;
  const block = `${sheet}$${R.gasRate}$${R.first}:$${R.singleRate}$${last}`;
  const from = (row: number): string => `${sheet}$${R.from}$${row}`;
  const wholeRow = (row: number): string => `${from(row)}:$${R.singleRate}$${row}`;
  return [
    overRows(R.first + 1, HEATING_RATE_ROWS - 1, (row) =>
      whole(`AND(ISNUMBER(${from(row)}),OR(NOT(ISNUMBER(${from(row - 1)})),${from(row)}<=${from(row - 1)}))`),
    ),
    overRows(R.first, HEATING_RATE_ROWS, (row) =>
      whole(`AND(NOT(ISNUMBER(${from(row)})),COUNTA(${wholeRow(row)})>0)`),
    ),
    `COUNTA(${block})-COUNT(${block})`,
    `COUNTIFS(${block},"<0")`,
  ].join('+');
}

function wrongRates({ inputs }: WorkbookResults): number {
  const { rates } = inputs.heating;
  const from = rates.map((row) => row.from);
  const values = rates.flatMap((row) => [row.gasRate, row.gasStanding, row.singleRate]);
  return (
    countOf(
      from.slice(1).map((cell, i) => {
        const above = from[i];
        return isNumber(cell) && (!isNumber(above) || cell <= above);
      }),
    ) +
    countOf(rates.map((row) => !isNumber(row.from) && Object.values(row).some((cell) => cell !== null))) +
    countOf(values.map((cell) => cell !== null && !isNumber(cell))) +
    countOf(values.map((cell) => isNumber(cell) && cell < 0))
  );
}

function typedFormula(): string {
  const degreeDays = monthDegreeDayColumn(M.degreeDays);
  const sheet = sheetPrefix(SHEETS.heatingInputs);
  const pair = (row: number): string => `${sheet}$${M.month}$${row}:$${M.degreeDays}$${row}`;
  const figures = absoluteColumn(
    SHEETS.heatingInputs,
    SENSITIVITY_TABLE.value,
    SENSITIVITY_TABLE.first,
    SENSITIVITY_TABLE.first + SENSITIVITY_COUNT - 1,
  );
  return (
    `${overRows(M.first, DEGREE_DAY_ROWS, (row) => whole(`AND(COUNTA(${pair(row)})>0,COUNT(${pair(row)})<2)`))}+COUNTIFS(${degreeDays},"<0")` +
    `+${SENSITIVITY_COUNT}-COUNTIFS(${figures},">0")`
  );
}

function wrongTyped({ inputs: { heating } }: WorkbookResults): number {
  return (
    countOf(
      heating.monthDegreeDays.map(
        ({ month, degreeDays }) =>
          (month !== null || degreeDays !== null) && !(isNumber(month) && isNumber(degreeDays)),
      ),
    ) +
    countOf(heating.monthDegreeDays.map(({ degreeDays }) => isNumber(degreeDays) && degreeDays < 0)) +
    SENSITIVITY_COUNT -
    countOf(heating.sensitivity.map((cell) => isNumber(cell) && cell > 0))
  );
}

function gasChecks(): Check[] {
  const taken = (key: string): string => gasColumn(GAS_LINE_LETTERS[key]!);
  const usable = `ISNUMBER(${taken('gasDays')})*ISNUMBER(${taken('gasKwh')})`;
  const sheet = sheetPrefix(SHEETS.gas);
  const at = (letters: string, row: number): string => `${sheet}$${letters}$${row}`;
  return [
    {
      name: 'Gas: rows that can’t be used',
      formula: overRows(FIRST_ROW, GAS_ROWS, (row) =>
        whole(
          `AND(COUNTA(${at(G.firstDay, row)}:$${G.volume}$${row})>0,COUNT(${at(GAS_LINE_LETTERS.gasDays!, row)}:$${GAS_LINE_LETTERS.gasKwh!}$${row})<2)`,
        ),
      ),
      count: ({ inputs, heating }) =>
        countOf(
          inputs.heating.gas.map((row, i) => {
            const any = [row.firstDay, row.lastDay, row.kwh, row.volume].some((cell) => cell !== null);
            const { gasDays, gasKwh } = heating.gas[i]!;
            return any && (gasDays === null || gasKwh === null);
          }),
        ),
      advice: `On ${SHEETS.gas}: first day, last day, and kWh or a volume with its unit.`,
      kind: 'fault',
    },
    {
      name: 'Gas: rows without degree days',
      formula: `SUMPRODUCT(${usable}*(1-ISNUMBER(${taken('gasDegreeDays')})))`,
      count: ({ heating }) =>
        countOf(
          heating.gas.map(
            ({ gasDays, gasKwh, gasDegreeDays }) =>
              gasDays !== null && gasKwh !== null && gasDegreeDays === null,
          ),
        ),
      advice: `Such a row is not used: fill ${SHEETS.temperatures} for its days, or type its degree days.`,
      kind: 'fault',
    },
    {
      name: 'Gas: rows that overlap or are out of order',
      formula: overRows(FIRST_ROW + 1, GAS_ROWS - 1, (row) =>
        whole(
          `AND(ISNUMBER(${at(G.firstDay, row)}),ISNUMBER(${at(G.lastDay, row - 1)}),${at(G.firstDay, row)}<=${at(G.lastDay, row - 1)})`,
        ),
      ),
      count: ({ inputs: { heating } }) =>
        countOf(
          heating.gas.slice(1).map(({ firstDay }, i) => {
            const { lastDay } = heating.gas[i]!;
            return isNumber(firstDay) && isNumber(lastDay) && firstDay <= lastDay;
          }),
        ),
      advice: `On ${SHEETS.gas}: oldest first; a row begins after the last day of the one above.`,
      kind: 'fault',
    },
  ];
}

function temperatureChecks(): Check[] {
  const problems = (code: number) => ({
    formula: `COUNTIFS(${temperatureColumn(T.problem)},${code})`,
    count: ({ heating }: WorkbookResults) =>
      countOf(heating.temperatures.problem.map((problem) => problem === code)),
  });
  const known = `${temperatureColumn(T.degreeDays)},">=0"`;
  const both = `COUNTIFS(${known},${temperatureColumn(T.maxC)},">-1E+300",${temperatureColumn(T.minC)},">-1E+300")`;
  return [
    {
      name: 'Temperatures: rows that can’t be used',
      ...problems(TEMPERATURE_PROBLEM.unusable),
      advice: `On ${SHEETS.temperatures}: a real date, and the mean, or maximum and minimum the right way round.`,
      kind: 'fault',
    },
    {
      name: 'Temperatures: days repeated or out of order',
      ...problems(TEMPERATURE_PROBLEM.repeatedOrOutOfOrder),
      advice: 'Sort by day and take out repeats; a day that stands twice counts with its mean.',
      kind: 'fault',
    },
    {
      name: 'Temperatures: days whose degree days are found in another way than those of the readings',
      formula: `IF(${figureCell('degreeDayMethod')}="half-hours",COUNTIFS(${known})-${both},${both})`,
      count: ({ inputs, heating }) =>
        countOf(
          inputs.heating.temperatures.map(({ maxC, minC }, i) => {
            if (heating.temperatures.degreeDays[i] === '') return false;
            return (isNumber(maxC) && isNumber(minC)) !== (heating.settings.degreeDayMethod === 'half-hours');
          }),
        ),
      advice: `The ways differ by a few per cent: choose the like on ${SHEETS.heatingInputs}, Weather.`,
      kind: 'note',
    },
  ];
}

function monthChecks(): Check[] {
  const electricity = monthColumn('electricityKwh');
  const compared = `ISNUMBER(${electricity})`;
  const month = (r: WorkbookResults, key: string): CellValue[] =>
    r.heating.comparison.months.map((row) => row[key] ?? null);
  const missing = (key: string) => (r: WorkbookResults) =>
    countOf(month(r, 'electricityKwh').map((kwh, i) => isNumber(kwh) && !isNumber(month(r, key)[i])));
  const noteIs = (note: string): string => `SUMPRODUCT((${monthColumn('metersNote')}=${quoted(note)})*1)`;
  return [
    {
      name: 'Heating: months left out because the heat pump’s readings have gaps',
      formula: noteIs(METERS_NOTE.heatPumpGaps),
      count: (r) => countOf(r.heating.months.map((m) => m.metersNote === METERS_NOTE.heatPumpGaps)),
      advice: `Fill the missing half-hours, or lower the share on ${SHEETS.heatingInputs}, How sure.`,
      kind: 'fault',
    },
    {
      name: 'Heating: months whose heat meter has gaps',
      formula: noteIs(METERS_NOTE.heatGaps),
      count: (r) => countOf(r.heating.months.map((m) => m.metersNote === METERS_NOTE.heatGaps)),
      advice: 'Their heat is left out; estimate (a) speaks alone.',
      kind: 'note',
    },
    {
      name: 'Heating: months without heat',
      formula: `SUMPRODUCT(${compared}*(1-ISNUMBER(${monthColumn('heatKwh')})))`,
      count: missing('heatKwh'),
      advice: 'Only last year’s gas tells what the boiler would have used.',
      kind: 'note',
    },
    {
      name: 'Heating: months without degree days',
      formula: `SUMPRODUCT(${compared}*(1-ISNUMBER(${monthColumn('degreeDaysUsed')})))`,
      count: missing('degreeDaysUsed'),
      advice: `Fill outdoor temperatures, or type the month’s degree days on ${SHEETS.heatingInputs}; without them there is no estimate (a).`,
      kind: 'fault',
    },
    {
      name: 'Heating: months with a COP below 1 or above 7',
      formula: `COUNTIFS(${monthColumn('cop')},"<1")+COUNTIFS(${monthColumn('cop')},">7")`,
      count: (r) => countOf(month(r, 'cop').map((cop) => isNumber(cop) && (cop < 1 || cop > 7))),
      advice: 'Check the units of both meters, and that they cover the same machine.',
      kind: 'fault',
    },
    {
      name: 'Heat pump by month and by half-hour differ',
      formula: whole(
        `ABS(SUM(${monthColumn('heatPumpMeteredKwh')})-SUMIFS(${readingColumn(READING.heatPumpKwh)},${halfHourColumn(H.day)},">0"))>0.000001`,
      ),
      count: ({ heating, halfHours, inputs }) => {
        const { heatPumpKwh } = inputs.readings.values;
        const byHalfHour = heatPumpKwh.reduce(
          (sum, kwh, row) => sum + (halfHours.dayNumber[row]! > 0 ? kwh || 0 : 0),
          0,
        );
        const byMonth = heating.months.reduce((sum, m) => sum + m.heatPumpMeteredKwh, 0);
        return Math.abs(byMonth - byHalfHour) > 1e-6 ? 1 : 0;
      },
      advice: 'The parts do not sum to the whole: a formula was changed.',
      kind: 'fault',
    },
  ];
}

/** The checks of the heating sheets. */
export function heatingChecks(): Check[] {
  return [...inputChecks(), ...gasChecks(), ...temperatureChecks(), ...monthChecks()];
}
