import { InputError } from '../errors.js';
import type { ArgumentDescription, CellArgument, CellScalar } from '../functions/described-function.js';

type Described = readonly ArgumentDescription[];

function scalarAt(args: readonly CellArgument[], described: Described, index: number): CellScalar {
  const given = args[index];
  if (given === undefined) return null;
  if (!Array.isArray(given)) return given as CellScalar;
  const rows = given as readonly (readonly CellScalar[])[];
  if (rows.length === 1 && rows[0]!.length === 1) return rows[0]![0]!;
  throw new InputError(`${described[index]!.name} is a range`, 'Point at one cell.');
}

/**
 * A number out of a cell argument.
 *
 * @throws InputError when the cell holds no number
 */
export function numberAt(args: readonly CellArgument[], described: Described, index: number): number {
  const value = scalarAt(args, described, index);
  if (typeof value !== 'number') {
    const argument = described[index]!;
    throw new InputError(
      `${argument.name} is ${value === null ? 'blank' : `"${value}"`}`,
      `Give a number in ${argument.unit}.`,
    );
  }
  return value;
}

/**
 * A text out of a cell argument.
 *
 * @throws InputError when the cell holds no text
 */
export function textAt(args: readonly CellArgument[], described: Described, index: number): string {
  const value = scalarAt(args, described, index);
  if (typeof value !== 'string') {
    throw new InputError(`${described[index]!.name} is ${value ?? 'blank'}`, 'Give a text.');
  }
  return value;
}

/**
 * A column out of a range argument: numbers as they are, blanks and empty texts as NaN.
 *
 * @throws InputError when a cell holds another text, or the range has more than one column
 */
export function columnAt(args: readonly CellArgument[], described: Described, index: number): number[] {
  const given = args[index];
  const name = described[index]!.name;
  const rows = Array.isArray(given)
    ? (given as readonly (readonly CellScalar[])[])
    : [[(given ?? null) as CellScalar]];
  return rows.map((row, i) => {
    if (row.length !== 1) throw new InputError(`${name} has ${row.length} columns`, 'Point at one column.');
    const value = row[0]!;
    if (value === null || value === '') return Number.NaN;
    if (typeof value !== 'number') {
      throw new InputError(
        `${name} holds "${value}"`,
        `Give numbers in ${described[index]!.unit} or blanks.`,
        {
          line: `row ${i + 1} of the range`,
        },
      );
    }
    return value;
  });
}
