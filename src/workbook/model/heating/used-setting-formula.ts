import type { HeatingInput } from '../../../heating/comparison/heating-inputs.js';
import { absoluteRow } from '../../cell-address.js';
import { SHEETS } from '../../layout.js';
import { quoted } from '../cells.js';
import { FIRST_TARIFF_LETTERS, LAST_TARIFF_LETTERS, TARIFF_ROW, TODAYS_TARIFF_CELL } from '../tariff-rows.js';
import { figureCell } from './heating-figures-rows.js';
import { GAS_LINE_LETTERS, gasColumn, settingCell, TEMPERATURE, temperatureColumn } from './heating-rows.js';

/** What the comparison takes of a setting: a wrong one counts as its initial value, and Checks says so. */
export function usedSettingFormula(input: HeatingInput): string {
  const cell = settingCell(input.key);
  switch (input.key) {
    case 'tariff':
      return tariffPlace(cell);
    case 'disagreeBeyondShare':
      return `MAX(${figureCell('agreeWithinShare')},${inRange(input, cell, cell)})`;
    case 'enteredBaseGasKwhPerDay':
      return inRange(input, cell, `IF(${summerGasTooMuch(cell)},"",${cell})`);
    case 'yearDegreeDays':
      return `IF(ISNUMBER(${cell}),IF(${cell}>=0,${cell},${yearFromTemperatures()}),${yearFromTemperatures()})`;
    default:
      return input.choices === undefined ? inRange(input, cell, cell) : choice(input, cell);
  }
}

const literal = (value: HeatingInput['initial']): string =>
  typeof value === 'number' ? String(value) : quoted(String(value ?? ''));

function inRange({ min, max, initial }: HeatingInput, cell: string, then: string): string {
  const limits = [
    ...(min === undefined ? [] : [`${cell}>=${min}`]),
    ...(max === undefined ? [] : [`${cell}<=${max}`]),
  ].join(',');
  const otherwise = literal(initial);
  const inside = limits === '' ? then : `IF(AND(${limits}),${then},${otherwise})`;
  return `IF(ISNUMBER(${cell}),${inside},${otherwise})`;
}

function choice({ choices = [], initial }: HeatingInput, cell: string): string {
  return choices.reduceRight(
    (otherwise, text) => `IF(${cell}=${quoted(text)},${quoted(text)},${otherwise})`,
    literal(initial),
  );
}

function tariffPlace(cell: string): string {
  const names = absoluteRow(SHEETS.tariffs, FIRST_TARIFF_LETTERS, LAST_TARIFF_LETTERS, TARIFF_ROW.name);
  const todays = `${SHEETS.tariffs}!$${TODAYS_TARIFF_CELL.replace(/(\d+)/, '$$$1')}`;
  return `IFERROR(MATCH(IF(ISBLANK(${cell}),${todays},${cell}),${names},0),0)`;
}

/** Whether a summer gas a day comes to more than all gas that was metered. */
export function summerGasTooMuch(cell: string): string {
  const over = (key: string): string =>
    `SUMIF(${gasColumn(GAS_LINE_LETTERS.gasKwhPerDay!)},">=0",${gasColumn(GAS_LINE_LETTERS[key]!)})`;
  return `AND(${over('gasDays')}>0,${over('gasKwh')}-${cell}*${over('gasDays')}<0)`;
}

/** Degree days of the last days of the temperatures sheet, where none of a year is missing. */
function yearFromTemperatures(): string {
  const dates = temperatureColumn(TEMPERATURE.date);
  const degreeDays = temperatureColumn(TEMPERATURE.degreeDays);
  const days = figureCell('yearDays');
  const last = `${dates},">="&(MAX(${dates})-${days}+1)`;
  return `IF(COUNTIFS(${last},${degreeDays},">-1E+300")=${days},SUMIFS(${degreeDays},${last}),"")`;
}
