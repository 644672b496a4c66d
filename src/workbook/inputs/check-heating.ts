import { InputError, type Place } from '../../errors.js';
import { FIRST_ROW, SHEETS } from '../layout.js';
import { GAS, gasUnit, TEMPERATURE } from '../model/heating/heating-rows.js';
import type { CellValue } from '../model/sheet-model.js';
import type { GasCells, TemperatureCells } from './heating-cells.js';
import type { WorkbookInputs } from './workbook-inputs.js';

type PlaceAt = (sheet: string, letters: string, row: number) => Place;

const isNumber = (cell: CellValue | undefined): cell is number => typeof cell === 'number';
const shown = (cell: CellValue): string => (typeof cell === 'string' ? `"${cell}"` : String(cell));

/**
 * Makes sure that gas and temperatures can be worked with.
 *
 * @param inputs as the cells hold them
 * @param file name of the workbook, for messages
 * @throws InputError naming the first cell that is wrong
 */
export function checkHeatingCells(inputs: Pick<WorkbookInputs, 'heating'>, file: string): void {
  const { heating } = inputs;
  const placeAt: PlaceAt = (sheet, letters, row) => ({ file, line: `${sheet}!${letters}${row}` });
  heating.gas.forEach((row, i) => {
    checkGasRow(row, heating.gas[i - 1], (key) => placeAt(SHEETS.gas, GAS[key], FIRST_ROW + i));
  });
  heating.temperatures.forEach((row, i) => {
    checkTemperatureRow(row, (key) => placeAt(SHEETS.temperatures, TEMPERATURE[key], FIRST_ROW + i));
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
