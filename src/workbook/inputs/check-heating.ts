import { InputError, type Place } from '../../errors.js';
import { FIRST_ROW, SHEETS } from '../layout.js';
import {
  DEGREE_DAY_TABLE,
  GAS,
  gasUnit,
  RATES_TABLE,
  SENSITIVITY_TABLE,
  TEMPERATURE,
} from '../model/heating/heating-rows.js';
import { isWrongSetting, SETTING_LETTERS, SETTINGS } from '../model/heating/heating-settings.js';
import type { CellValue } from '../model/sheet-model.js';
import type { GasCells, HeatingCells, TemperatureCells } from './heating-cells.js';
import { hasName, type WorkbookInputs } from './workbook-inputs.js';

type PlaceAt = (sheet: string, letters: string, row: number) => Place;

const isNumber = (cell: CellValue | undefined): cell is number => typeof cell === 'number';
const shown = (cell: CellValue): string => (typeof cell === 'string' ? `"${cell}"` : String(cell));

/**
 * Makes sure that the inputs of the heating sheets can be worked with.
 *
 * @param inputs as the cells hold them
 * @param file name of the workbook, for messages
 * @throws InputError naming the first cell that is wrong
 */
export function checkHeatingCells(inputs: WorkbookInputs, file: string): void {
  const { heating } = inputs;
  const placeAt: PlaceAt = (sheet, letters, row) => ({ file, line: `${sheet}!${letters}${row}` });
  checkSettings(inputs, placeAt);
  checkRates(heating, placeAt);
  checkTyped(heating, placeAt);
  heating.gas.forEach((row, i) => {
    checkGasRow(row, heating.gas[i - 1], (key) => placeAt(SHEETS.gas, GAS[key], FIRST_ROW + i));
  });
  heating.temperatures.forEach((row, i) => {
    checkTemperatureRow(row, (key) => placeAt(SHEETS.temperatures, TEMPERATURE[key], FIRST_ROW + i));
  });
}

function checkSettings({ heating, tariffs }: WorkbookInputs, placeAt: PlaceAt): void {
  for (const { input, row } of SETTINGS) {
    const cell = heating.settings[input.key] ?? null;
    const place = placeAt(SHEETS.heatingInputs, SETTING_LETTERS, row);
    if (input.key === 'tariff') {
      const names = tariffs.map(({ name }) => name).filter(hasName);
      if (cell === null || names.some((name) => String(name).toLowerCase() === String(cell).toLowerCase())) {
        continue;
      }
      throw new InputError(
        `the tariff for heating, ${shown(cell)}, is none of the tariffs`,
        `Leave it blank for today's, or choose one of: ${names.join(', ')}.`,
        place,
      );
    }
    if (!isWrongSetting(input, cell)) continue;
    const limits = [
      ...(input.min === undefined ? [] : [`from ${input.min}`]),
      ...(input.max === undefined ? [] : [`up to ${input.max}`]),
    ].join(' ');
    throw new InputError(
      cell === null ? `"${input.label}" is blank` : `"${input.label}" is ${shown(cell)}`,
      input.choices === undefined
        ? `Type a number${limits === '' ? '' : ` ${limits}`} (${input.unit}).`
        : `Choose ${input.choices.join(' or ')}.`,
      place,
    );
  }
  const { agreeWithinShare, disagreeBeyondShare } = heating.settings;
  if ((disagreeBeyondShare as number) < (agreeWithinShare as number)) {
    const { row } = SETTINGS.find(({ input }) => input.key === 'disagreeBeyondShare')!;
    throw new InputError(
      'the estimates would disagree at a smaller share than they agree at',
      'Put the two shares in order.',
      placeAt(SHEETS.heatingInputs, SETTING_LETTERS, row),
    );
  }
}

function checkRates({ rates }: HeatingCells, placeAt: PlaceAt): void {
  rates.forEach((row, i) => {
    const at = (letters: string): Place => placeAt(SHEETS.heatingInputs, letters, RATES_TABLE.first + i);
    const before = rates[i - 1];
    const cells = [
      ['gas rate', row.gasRate, RATES_TABLE.gasRate],
      ['gas standing charge', row.gasStanding, RATES_TABLE.gasStanding],
      ['single rate', row.singleRate, RATES_TABLE.singleRate],
    ] as const;
    for (const [what, cell, letters] of cells) requireNotNegative(cell, what, at(letters));
    if (row.from === null) {
      if (cells.every(([, cell]) => cell === null)) return;
      throw new InputError(
        'the rates have no month',
        'Type the month from which they hold.',
        at(RATES_TABLE.from),
      );
    }
    if (!isNumber(row.from)) {
      throw new InputError(
        `the month is ${shown(row.from)}, not a date`,
        'Type a date.',
        at(RATES_TABLE.from),
      );
    }
    if (before !== undefined && !(isNumber(before.from) && before.from < row.from)) {
      throw new InputError(
        'the sets of rates are out of order',
        'List them oldest first, without a gap.',
        at(RATES_TABLE.from),
      );
    }
  });
}

function checkTyped({ monthDegreeDays, sensitivity }: HeatingCells, placeAt: PlaceAt): void {
  monthDegreeDays.forEach(({ month, degreeDays }, i) => {
    const row = DEGREE_DAY_TABLE.first + i;
    if (month === null && degreeDays === null) return;
    if (!isNumber(month)) {
      throw new InputError(
        month === null ? 'the degree days have no month' : `the month is ${shown(month)}, not a date`,
        'Type any day of the month.',
        placeAt(SHEETS.heatingInputs, DEGREE_DAY_TABLE.month, row),
      );
    }
    const place = placeAt(SHEETS.heatingInputs, DEGREE_DAY_TABLE.degreeDays, row);
    if (degreeDays === null) throw new InputError('the degree days are missing', 'Type them.', place);
    requireNotNegative(degreeDays, 'degree days figure', place);
  });
  sensitivity.forEach((cell, i) => {
    if (isNumber(cell) && cell > 0) return;
    throw new InputError(
      cell === null ? 'the what-if figure is missing' : `the what-if figure is ${shown(cell)}`,
      'Type a number above 0.',
      placeAt(SHEETS.heatingInputs, SENSITIVITY_TABLE.value, SENSITIVITY_TABLE.first + i),
    );
  });
}

function checkGasRow(row: GasCells, above: GasCells | undefined, at: (key: keyof GasCells) => Place): void {
  const { firstDay, lastDay, kwh, volume, volumeUnit, calorificValue, degreeDays } = row;
  if ([firstDay, lastDay, kwh, volume, degreeDays].every((cell) => cell === null)) return;
  for (const [key, cell] of [
    ['firstDay', firstDay],
    ['lastDay', lastDay],
  ] as const) {
    if (isNumber(cell)) continue;
    throw new InputError(
      cell === null ? 'the gas has no date here' : `the date is ${shown(cell)}, not a date`,
      'Give first and last day; both count.',
      at(key),
    );
  }
  if (Math.floor(lastDay as number) < Math.floor(firstDay as number)) {
    throw new InputError('the last day is before the first', 'Swap the two.', at('lastDay'));
  }
  requireNotNegative(kwh, 'gas', at('kwh'));
  requireNotNegative(volume, 'gas volume', at('volume'));
  requireNotNegative(degreeDays, 'degree days figure', at('degreeDays'));
  if (kwh === null && volume === null) {
    throw new InputError('the row has no gas', 'Give kWh, or a volume with its unit.', at('kwh'));
  }
  if (gasUnit(volumeUnit) === undefined) {
    throw new InputError(`the unit is ${shown(volumeUnit)}`, 'Choose m3, ft3 or 100ft3.', at('volumeUnit'));
  }
  if (calorificValue !== null && !(isNumber(calorificValue) && calorificValue > 0)) {
    throw new InputError(
      `the calorific value is ${shown(calorificValue)}`,
      'Give MJ/m³ from the bill, about 39, or clear the cell.',
      at('calorificValue'),
    );
  }
  if (isNumber(above?.lastDay) && (firstDay as number) <= above.lastDay) {
    throw new InputError(
      'the row begins before the one above has ended',
      'List the gas oldest first, without an overlap.',
      at('firstDay'),
    );
  }
}

function checkTemperatureRow(row: TemperatureCells, at: (key: keyof TemperatureCells) => Place): void {
  const { date, meanC, maxC, minC } = row;
  if ([date, meanC, maxC, minC].every((cell) => cell === null)) return;
  if (!isNumber(date) || !Number.isInteger(date)) {
    throw new InputError(
      date === null ? 'the temperature has no day' : `the day is ${shown(date)}, not a whole date`,
      'Type the date of the day.',
      at('date'),
    );
  }
  for (const key of ['meanC', 'maxC', 'minC'] as const) {
    const cell = row[key];
    if (cell === null || isNumber(cell)) continue;
    throw new InputError(
      `the temperature is ${shown(cell)}, not a number`,
      'Type °C, or clear the cell.',
      at(key),
    );
  }
  if (isNumber(maxC) && isNumber(minC) && maxC < minC) {
    throw new InputError('the maximum is below the minimum', 'Swap the two.', at('maxC'));
  }
}

function requireNotNegative(cell: CellValue, what: string, place: Place): void {
  if (cell === null || (isNumber(cell) && cell >= 0)) return;
  throw new InputError(
    `the ${what} is ${shown(cell)}`,
    'Type a number, 0 or more, or clear the cell.',
    place,
  );
}
