import { InputError } from '../../errors.js';
import type { CellArgument, CellScalar, DescribedFunction } from '../../functions/described-function.js';
import { describedFunctions } from '../../functions/index.js';

/** What a custom function gives: one cell, or rows of cells. */
export type CellResult = CellScalar | readonly (readonly CellScalar[])[];

/**
 * The description of a custom function.
 *
 * @returns undefined where no function has that name
 * @example describedByCellName('ADD_VAT')?.name // 'addVat'
 */
export function describedByCellName(cellName: string): DescribedFunction | undefined {
  return byCellName.get(cellName);
}

const byCellName = new Map(describedFunctions.map((described) => [described.cellName, described]));

/**
 * Computes a custom function: the one entry of every add-on.
 *
 * @param cellName as in a cell, upper case: `UNIT_RATE`
 * @param args one a described argument, in order; blank and left out are null
 * @returns the value for the cell; rows where the description says column or table
 * @throws InputError naming the argument that can't be used, or when the result is no number that a cell can hold
 * @example callFunction('ADD_VAT', [100, 0.05]) // 105
 */
export function callFunction(cellName: string, args: readonly CellArgument[]): CellResult {
  const described = describedByCellName(cellName);
  if (described === undefined) {
    throw new InputError(`no function is called ${cellName}`, 'Check the spelling of its name.');
  }
  if (args.length > described.arguments.length) {
    throw new InputError(
      `${cellName} was given ${args.length} arguments`,
      `It takes ${described.arguments.length}: ${described.arguments.map(({ name }) => name).join(', ')}.`,
    );
  }
  const result = described.compute(described.arguments.map((_, index) => withBlanks(args[index] ?? null)));
  const cells = isRows(result) ? result.flat() : [result];
  if (cells.some((cell) => typeof cell === 'number' && !Number.isFinite(cell))) {
    throw new InputError(
      `${cellName} has no answer for these values`,
      `Check ${described.arguments.map(({ name }) => name).join(', ')}.`,
    );
  }
  return result;
}

/** An empty text is a blank: hosts use both for it. */
function withBlanks(value: CellArgument): CellArgument {
  if (!isRows(value)) return value === '' ? null : value;
  return value.map((row) => (row.includes('') ? row.map((cell) => (cell === '' ? null : cell)) : row));
}

function isRows(value: CellResult | CellArgument): value is readonly (readonly CellScalar[])[] {
  return Array.isArray(value);
}
