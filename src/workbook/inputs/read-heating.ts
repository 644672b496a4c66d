import { InputError } from '../../errors.js';
import { columnNumber } from '../cell-address.js';
import { HEATING_TABLES } from '../fields/heating-fields.js';
import { SETTING_FIELDS } from '../fields/heating-settings.js';
import { readFields } from '../fields/rule.js';
import { FIRST_ROW, SHEETS } from '../layout.js';
import { GAS, LAST_TEMPERATURE_ROW, TEMPERATURE } from '../model/heating/heating-rows.js';
import type { CellValue } from '../model/sheet-model.js';
import type { WorkbookPackage } from '../package/index.js';
import { BLANK_TEMPERATURE, GAS_ROWS, type HeatingCells, TEMPERATURE_ROWS } from './heating-cells.js';
import { inputValue, readCells } from './read-cells.js';

/**
 * The inputs of the heating sheets.
 *
 * @param workbook an open workbook
 * @returns the inputs as the cells hold them, right or wrong
 * @throws InputError when a cell holds an error value or a formula without a result, or rows lie below the last
 */
export function readHeating(workbook: WorkbookPackage): HeatingCells {
  const sheet = (name: string): ((letters: string, row: number) => CellValue) => {
    const cells = readCells(workbook, name);
    return (letters, row) => inputValue(cells, `${letters}${row}`, { file: workbook.fileName, sheet: name });
  };
  const cellsOfInputs = readCells(workbook, SHEETS.heatingInputs);
  const inputs = (at: string): CellValue =>
    inputValue(cellsOfInputs, at, { file: workbook.fileName, sheet: SHEETS.heatingInputs });
  const gas = sheet(SHEETS.gas);
  const rows = <Row>(count: number, first: number, read: (row: number) => Row): Row[] =>
    Array.from({ length: count }, (_, i) => read(first + i));
  return {
    settings: readFields(SETTING_FIELDS, inputs),
    ...readFields(HEATING_TABLES, inputs),
    gas: rows(GAS_ROWS, FIRST_ROW, (row) => ({
      firstDay: gas(GAS.firstDay, row),
      lastDay: gas(GAS.lastDay, row),
      kwh: gas(GAS.kwh, row),
      volume: gas(GAS.volume, row),
      volumeUnit: gas(GAS.volumeUnit, row),
      calorificValue: gas(GAS.calorificValue, row),
      degreeDays: gas(GAS.degreeDays, row),
    })),
    temperatures: readTemperatures(workbook),
  };
}

function readTemperatures(workbook: WorkbookPackage): HeatingCells['temperatures'] {
  const cells = readCells(workbook, SHEETS.temperatures);
  const lastColumn = columnNumber(TEMPERATURE.minC);
  const place = { file: workbook.fileName, sheet: SHEETS.temperatures };
  for (const name of cells.keys()) {
    const [, letters, row] = /^([A-Z]+)(\d+)$/.exec(name)!;
    if (Number(row) > LAST_TEMPERATURE_ROW && columnNumber(letters!) <= lastColumn) {
      throw new InputError(
        `there is a temperature below row ${LAST_TEMPERATURE_ROW}, the last that the workbook counts`,
        'Take out the oldest days.',
        { file: workbook.fileName, line: `${SHEETS.temperatures}!${name}` },
      );
    }
  }
  return Array.from({ length: TEMPERATURE_ROWS }, (_, i) => {
    const row = FIRST_ROW + i;
    const value = (letters: string): CellValue => inputValue(cells, `${letters}${row}`, place);
    const found = {
      date: value(TEMPERATURE.date),
      meanC: value(TEMPERATURE.meanC),
      maxC: value(TEMPERATURE.maxC),
      minC: value(TEMPERATURE.minC),
    };
    return Object.values(found).every((cell) => cell === null) ? BLANK_TEMPERATURE : found;
  });
}
