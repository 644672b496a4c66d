import { blankReadings } from '../inputs/blank-readings.js';
import { checkInputs } from '../inputs/check-inputs.js';
import { clockTable } from '../model/clock-table.js';
import type { StartingInputs } from '../model/workbook-model.js';

/**
 * Makes sure that a workbook can be built with inputs: that a fill would not refuse them.
 *
 * @param start the inputs, with a time zone that is one
 * @param file name of the file that they come from, for messages
 * @throws InputError naming the first cell that is wrong
 * @example checkStart(parseStartingInputs(json, 'starting-inputs.json'), 'starting-inputs.json')
 */
export function checkStart(start: StartingInputs, file: string): void {
  const clock = clockTable(String(start.home.timeZone));
  checkInputs({ ...start, readings: blankReadings(0), clock }, file);
}
