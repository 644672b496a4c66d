import { InputError } from '../errors.js';
import { cellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription, CellArgument } from '../functions/described-function.js';

type Described = readonly ArgumentDescription[];

/**
 * One number out of the arguments of a custom function.
 *
 * @throws InputError when the cell holds no number
 */
export function numberAt(args: readonly CellArgument[], described: Described, index: number): number {
  return cellReader(args, described).number(described[index]!.name);
}

/**
 * One text out of the arguments of a custom function.
 *
 * @throws InputError when the cell holds no text
 */
export function textAt(args: readonly CellArgument[], described: Described, index: number): string {
  return cellReader(args, described).text(described[index]!.name);
}

/**
 * A column with gaps out of the arguments of a custom function: blanks and empty texts as NaN.
 *
 * @throws InputError when a cell holds another text, or the range has more than one column
 */
export function columnAt(args: readonly CellArgument[], described: Described, index: number): number[] {
  const { name, unit } = described[index]!;
  return cellReader(args, described)
    .rows(name)
    .map((row, i) => {
      if (row.length !== 1) throw new InputError(`${name} has ${row.length} columns`, 'Point at one column.');
      const value = row[0]!;
      if (value === null || value === '') return Number.NaN;
      if (typeof value === 'number') return value;
      throw new InputError(
        `${name} is ${JSON.stringify(value)} in row ${i + 1} of the range`,
        `Give numbers (${unit}) or blanks.`,
      );
    });
}
