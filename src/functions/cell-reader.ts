import { InputError } from '../errors.js';
import type { ArgumentDescription, CellArgument, CellScalar } from './described-function.js';

/** Takes the arguments of a custom function out of cells, by name; each wrong one gets a message that names it. */
export interface CellReader {
  /** One number. */
  number(name: string): number;
  /** One number, or what stands in for a blank. */
  numberOr(name: string, blank: number): number;
  /** One text; blank is ''. */
  text(name: string): string;
  /** A column of numbers, none of them blank. */
  numbers(name: string): Float64Array;
  /** The rows of a table as they are. */
  rows(name: string): readonly (readonly CellScalar[])[];
}

/**
 * @param args as the cell gives them
 * @param described the arguments' descriptions, in the same order
 * @returns the reader; its methods throw InputError when an argument can't be used
 * @example cellReader([27.5], [{ name: 'unitRatePence', ... }]).number('unitRatePence') // 27.5
 */
export function cellReader(
  args: readonly CellArgument[],
  described: readonly ArgumentDescription[],
): CellReader {
  const argumentCalled = (name: string): { given: CellArgument; unit: string } => {
    const index = described.findIndex((argument) => argument.name === name);
    const argument = described[index];
    if (argument === undefined) throw new RangeError(`no argument is called ${name}`);
    return { given: args[index] ?? null, unit: argument.unit };
  };
  const scalar = (name: string): CellScalar => {
    const { given } = argumentCalled(name);
    if (!isRange(given)) return given;
    const [row = [], ...otherRows] = given;
    const [cell, ...otherCells] = row;
    if (cell !== undefined && otherCells.length === 0 && otherRows.length === 0) return cell;
    throw new InputError(`${name} is a range`, 'Point at one cell.');
  };
  const number = (name: string): number => finite(scalar(name), name, argumentCalled(name).unit, undefined);
  return {
    number,
    numberOr: (name, blank) => (isBlank(scalar(name)) ? blank : number(name)),
    text: (name) => {
      const value = scalar(name);
      if (value === null || typeof value === 'string') return value ?? '';
      throw new InputError(`${name} is ${String(value)}`, 'Give a text.');
    },
    numbers: (name) => {
      const { given, unit } = argumentCalled(name);
      const rows = isRange(given) ? given : [[given]];
      return Float64Array.from(rows, (row, i) => {
        const cell = row[0];
        if (cell === undefined || row.length > 1) {
          throw new InputError(`${name} has ${row.length} columns`, 'Point at one column.');
        }
        return finite(cell, name, unit, i + 1);
      });
    },
    rows: (name) => {
      const { given } = argumentCalled(name);
      if (isRange(given)) return given;
      throw new InputError(`${name} is one cell`, 'Point at the whole table.');
    },
  };
}

function isRange(given: CellArgument): given is readonly (readonly CellScalar[])[] {
  return Array.isArray(given);
}

function isBlank(value: CellScalar): boolean {
  return value === null || (typeof value === 'string' && value.trim() === '');
}

function finite(value: CellScalar, name: string, unit: string, row: number | undefined): number {
  if (typeof value === 'number' && Number.isFinite(value)) return value;
  const found = isBlank(value) ? 'blank' : JSON.stringify(value);
  const where = row === undefined ? '' : ` in row ${row} of the range`;
  const kind = /^(date|time)/.test(unit) ? `a real ${unit}, not text` : `a number (${unit})`;
  throw new InputError(`${name} is ${found}${where}`, `Give ${kind}.`);
}
