import type {
  ArgumentDescription,
  CellScalar,
  DescribedFunction,
} from '../../functions/described-function.js';
import { cellName } from '../../workbook/package/cell-reference.js';

type Rows = readonly (readonly CellScalar[])[];

/** One argument or result of an example as a rectangle of cells. */
export interface ExampleArea {
  /** Row and column of its first value, from 1. */
  row: number;
  column: number;
  values: Rows;
  /** A heading for each of its columns. */
  headings: readonly string[];
}

/** Where a function's example stands on its sheet. */
export interface ExampleBlock {
  described: DescribedFunction;
  /** First row: the function's name. */
  row: number;
  /** One a described argument; undefined where the example leaves an optional one out. */
  arguments: readonly (ExampleArea | undefined)[];
  result: ExampleArea;
  expected: ExampleArea;
  /** The live formula without `=`, names of functions as the host's files write them. */
  formula: string;
  /** The same as a person types it. */
  typedFormula: string;
}

/** How a host writes the functions' names. */
export interface HostNames {
  /** Before a name in a file. */
  inFile: (name: string) => string;
  /** Before a name as a person types it. */
  typed: (name: string) => string;
}

/** First column of an example's values; the one before it holds labels. */
const FIRST_COLUMN = 2;
const ROWS_ABOVE_ARGUMENTS = 2;
const HEADING_ROWS = 2;
const ROWS_BETWEEN = 2;

/**
 * Gives every function's example its place on one sheet, one below the other.
 *
 * @param firstRow row of the first function, from 1
 */
export function layOutExamples(
  functions: readonly DescribedFunction[],
  host: HostNames,
  firstRow: number,
): ExampleBlock[] {
  let row = firstRow;
  return functions.map((described) => {
    const block = layOut(described, host, row);
    const height = Math.max(
      block.result.values.length,
      ...block.arguments.map((area) => area?.values.length ?? 0),
    );
    row = block.result.row + height + ROWS_BETWEEN;
    return block;
  });
}

/** The cells of an area as a reference: `B7`, or `B7:D9`. */
export function areaReference({ row, column, values }: ExampleArea): string {
  const first = cellName(row, column);
  const last = cellName(row + values.length - 1, column + values[0]!.length - 1);
  return values.length === 1 && values[0]!.length === 1 ? first : `${first}:${last}`;
}

function layOut(described: DescribedFunction, host: HostNames, row: number): ExampleBlock {
  const valuesRow = row + ROWS_ABOVE_ARGUMENTS + described.arguments.length + HEADING_ROWS;
  let column = FIRST_COLUMN;
  const place = (values: Rows, headings: readonly string[]): ExampleArea => {
    const area = { row: valuesRow, column, values, headings };
    column += values[0]!.length;
    return area;
  };
  const areas = described.arguments.map((argument, index) => {
    const given = described.example.arguments[index];
    if (given === undefined) return undefined;
    const rows = asRows(given);
    return place(rows, argumentHeadings(argument, rows[0]!.length));
  });
  const references = areas.flatMap((area) => (area === undefined ? [] : [areaReference(area)]));
  const expectedValues = asRows(described.example.result);
  const width = expectedValues[0]!.length;
  const headings = (label: string) => Array.from({ length: width }, (_, c) => (c === 0 ? label : ''));
  const result = place(expectedValues, headings('result'));
  const expected = place(expectedValues, headings('value to expect'));
  const write = (name: string) => `${name}(${references.join(',')})`;
  return {
    described,
    row,
    arguments: areas,
    result,
    expected,
    formula: write(host.inFile(described.cellName)),
    typedFormula: write(host.typed(described.cellName)),
  };
}

function asRows(value: CellScalar | Rows): Rows {
  return Array.isArray(value) ? (value as Rows) : [[value as CellScalar]];
}

function argumentHeadings({ name, columns }: ArgumentDescription, width: number): string[] {
  return Array.from({ length: width }, (_, c) => columns?.[c]?.name ?? (c === 0 ? name : ''));
}
