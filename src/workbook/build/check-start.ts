import { type Fault, refuse } from '../../errors.js';
import { blankReadings } from '../inputs/blank-readings.js';
import { inspectInputs } from '../inputs/check-inputs.js';
import { clockTable } from '../model/clock-table.js';
import type { StartingInputs } from '../model/workbook-model.js';

/**
 * Makes sure that a workbook can be built with inputs: that a fill would not refuse them.
 *
 * @param start the inputs, with a time zone that is one
 * @param file name of the file that they come from, for messages
 * @throws InputError naming the cell that is wrong; InputErrors where several are
 * @example checkStart(parseStartingInputs(json, 'starting-inputs.json'), 'starting-inputs.json')
 */
export function checkStart(start: StartingInputs, file: string): void {
  refuse(faultsOfStart(start, file));
}

/**
 * What a fill would refuse in a workbook built with inputs.
 *
 * @param start the inputs, with a time zone that is one
 * @param file name of the file that they come from, for messages
 * @returns the faults, each with its cell
 */
export function faultsOfStart(start: StartingInputs, file: string): Fault[] {
  const clock = clockTable(String(start.home.timeZone));
  return inspectInputs({ ...start, readings: blankReadings(0), clock }, file).faults;
}
