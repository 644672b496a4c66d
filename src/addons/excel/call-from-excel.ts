import { InputError } from '../../errors.js';
import type { CellArgument, CellScalar } from '../../functions/described-function.js';
import { type CellResult, callFunction, describedByCellName } from '../shared/call-function.js';
import { restoreBlankCells, restoreBlankRanges } from '../shared/restore-blanks.js';

/** The part of Excel's runtime that a custom function needs. */
declare const CustomFunctions: {
  Error: new (code: string, message?: string) => Error;
  ErrorCode: { invalidValue: string };
};

/**
 * Hands Excel's values to the library and its answer back.
 *
 * @throws CustomFunctions.Error, which Excel shows as #VALUE! with the message beside the cell
 */
export function call(cellName: string, args: readonly unknown[]): CellResult {
  const described = describedByCellName(cellName)?.arguments ?? [];
  // Excel for the desktop hands over blank cells as 0.
  const cells = restoreBlankRanges(restoreBlankCells(args.map(fromExcel), described), described);
  let result: CellResult;
  try {
    result = callFunction(cellName, cells);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    throw new CustomFunctions.Error(CustomFunctions.ErrorCode.invalidValue, error.message);
  }
  return toExcel(result);
}

function fromExcel(value: unknown): CellArgument {
  return Array.isArray(value) ? value.map((row: unknown[]) => row.map(cellFromExcel)) : cellFromExcel(value);
}

/** Errors and formatted values come as objects that hold what the cell shows. */
function cellFromExcel(value: unknown): CellScalar {
  if (value === null || value === undefined) return null;
  if (typeof value === 'number' || typeof value === 'string' || typeof value === 'boolean') return value;
  const { basicValue, code } = value as { basicValue?: CellScalar; code?: string };
  return basicValue ?? code ?? String(value);
}

/** Excel would show a blank as 0. */
function toExcel(result: CellResult): CellResult {
  if (!Array.isArray(result)) return result ?? '';
  return (result as readonly (readonly CellScalar[])[]).map((row) => row.map((cell) => cell ?? ''));
}
