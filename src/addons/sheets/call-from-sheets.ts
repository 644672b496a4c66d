import { InputError } from '../../errors.js';
import type { CellArgument, CellScalar } from '../../functions/described-function.js';
import { type CellResult, callFunction } from '../shared/call-function.js';
import { wallClockSerial } from './wall-clock-serial.js';

/**
 * Hands the values of Google Sheets to the library and its answer back.
 *
 * @throws Error, which Sheets shows as #ERROR! with the message
 */
export function call(cellName: string, args: readonly unknown[]): CellResult {
  let result: CellResult;
  try {
    const serial = wallClockSerial();
    result = callFunction(
      cellName,
      args.map((value) => fromSheets(value, serial)),
    );
  } catch (error) {
    throw error instanceof InputError ? new Error(error.message) : error;
  }
  return toSheets(result);
}

function fromSheets(value: unknown, serial: (date: Date) => number): CellArgument {
  const cell = (given: unknown): CellScalar => {
    if (given === null || given === undefined) return null;
    if (isDate(given)) return serial(given);
    if (typeof given === 'number' || typeof given === 'string' || typeof given === 'boolean') return given;
    return String(given);
  };
  return Array.isArray(value) ? value.map((row: unknown[]) => row.map(cell)) : cell(value);
}

/** A cell's date may come from another realm than the script's. */
function isDate(value: unknown): value is Date {
  return Object.prototype.toString.call(value) === '[object Date]';
}

function toSheets(result: CellResult): CellResult {
  if (!Array.isArray(result)) return result ?? '';
  return (result as readonly (readonly CellScalar[])[]).map((row) => row.map((cell) => cell ?? ''));
}
