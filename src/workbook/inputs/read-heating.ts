import { type Fault, InputError } from '../../errors.js';
import { columnNumber } from '../cell-address.js';
import { GAS_FIELDS } from '../fields/gas-fields.js';
import { HEATING_TABLES } from '../fields/heating-fields.js';
import { SETTING_FIELDS } from '../fields/heating-settings.js';
import { readFields } from '../fields/rule.js';
import { TEMPERATURE_COLUMNS, TEMPERATURE_FIELDS } from '../fields/temperature-fields.js';
import { SHEETS } from '../layout.js';
import { LAST_TEMPERATURE_ROW } from '../model/heating/heating-rows.js';
import type { CellValue } from '../model/sheet-model.js';
import type { WorkbookPackage } from '../package/index.js';
import { BLANK_TEMPERATURE, type HeatingCells } from './heating-cells.js';
import { inputValue, readCells } from './read-cells.js';

/**
 * The inputs of the heating sheets.
 *
 * @param workbook an open workbook
 * @param unreadable where it is noted which cells hold an error value or a formula without a result
 * @returns the inputs as the cells hold them, right or wrong
 * @throws InputError when rows lie below the last
 */
export function readHeating(workbook: WorkbookPackage, unreadable: Fault[]): HeatingCells {
  const cellsOf = (sheet: string): ((at: string) => CellValue) => {
    const cells = readCells(workbook, sheet);
    return (at) => inputValue(cells, at, { file: workbook.fileName, sheet }, unreadable);
  };
  const inputs = cellsOf(SHEETS.heatingInputs);
  return {
    settings: readFields(SETTING_FIELDS, inputs),
    ...readFields(HEATING_TABLES, inputs),
    gas: readFields(GAS_FIELDS, cellsOf(SHEETS.gas)),
    temperatures: readTemperatures(workbook, unreadable),
  };
}

function readTemperatures(workbook: WorkbookPackage, unreadable: Fault[]): HeatingCells['temperatures'] {
  const cells = readCells(workbook, SHEETS.temperatures);
  const lastColumn = TEMPERATURE_COLUMNS.minC.column.column;
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
  return readFields(TEMPERATURE_FIELDS, (at) => inputValue(cells, at, place, unreadable)).map((row) =>
    Object.values(row).every((cell) => cell === null) ? BLANK_TEMPERATURE : row,
  );
}
