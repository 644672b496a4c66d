import { type Fault, InputError } from '../../errors.js';
import { CHANNELS } from '../../readings/channels.js';
import { columnNumber } from '../cell-address.js';
import { FIRST_ROW, SHEETS } from '../layout.js';
import { READING } from '../model/columns.js';
import type { WorkbookPackage } from '../package/index.js';
import { blankReadings } from './blank-readings.js';
import { carryCall } from './carry-call.js';
import { uncalculated } from './read-cells.js';
import type { ReadingRows } from './workbook-inputs.js';

/**
 * Reads the rows of the readings sheet as they stand, right or wrong.
 *
 * @param workbook an open workbook
 * @param capacity rows that the sheet has for them
 * @param unreadable where it is noted which formulas hold no result
 * @returns one entry a row of the sheet
 * @throws InputError when there are readings below the rows that the workbook holds
 */
export function readReadings(workbook: WorkbookPackage, capacity: number, unreadable: Fault[]): ReadingRows {
  const rows = blankReadings(capacity);
  const lastRow = FIRST_ROW + capacity - 1;
  const startColumn = columnNumber(READING.start);
  const offsetColumn = columnNumber(READING.offset);
  const markColumn = columnNumber(READING.mark);
  const byColumn = new Map(CHANNELS.map((channel) => [columnNumber(READING[channel]), rows.values[channel]]));
  const reader = workbook.readSheet(SHEETS.readings);
  while (reader.next()) {
    if (reader.row < FIRST_ROW || reader.column > markColumn) continue;
    if (!reader.hasValue) {
      if (reader.hasFormula) {
        unreadable.push(uncalculated({ file: workbook.fileName, line: `${SHEETS.readings}!${reader.name}` }));
      }
      continue;
    }
    const row = reader.row - FIRST_ROW;
    if (reader.row > lastRow) {
      throw new InputError(
        `there is a reading below row ${lastRow}, the last that the workbook counts`,
        `Carry the workbook over into one that holds more: ${carryCall(workbook.fileName)}.`,
        { file: workbook.fileName, line: `${SHEETS.readings}!${reader.name}` },
      );
    }
    const { number } = reader;
    const isText = Number.isNaN(number);
    if (isText && reader.value === '') continue;
    rows.count = row + 1;
    if (reader.column === startColumn) {
      if (isText) rows.startIsText[row] = 1;
      else rows.startSerial[row] = number;
    } else if (reader.column === offsetColumn) rows.offsetHours[row] = number;
    else if (reader.column === markColumn) {
      if (isText && /^e/i.test(String(reader.value))) rows.estimated[row] = 1;
    } else if (isText) rows.textValues[row]!++;
    else byColumn.get(reader.column)![row] = number;
  }
  return rows;
}
