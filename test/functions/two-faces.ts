import ExcelJS from 'exceljs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CellArgument, CellScalar, DescribedFunction } from '../../src/functions/described-function.js';
import { cellName, columnName } from '../../src/workbook/package/cell-reference.js';
import { describeWithCalc, describeWithGnumeric } from '../engines/availability.js';
import {
  compareCells,
  describeComparison,
  type EngineResult,
  numbersAgree,
} from '../engines/compare-cells.js';
import { recalculateWithGnumeric } from '../engines/gnumeric.js';
import { loadIronCalc } from '../engines/ironcalc.js';
import { recalculateWithCalc } from '../engines/libreoffice.js';
import { withFile } from '../engines/with-file.js';

/** Argument lists to sample for one function; the values as cells hold them. */
export type ArgumentLists = fc.Arbitrary<readonly CellArgument[]>;

export interface TwoFacesOptions {
  /** Argument lists sampled for each function, beside its example. Default 60. */
  casesEach?: number;
  /** Default 20240115; the same seed gives the same cases. */
  seed?: number;
}

/** A workbook in which every case is a formula whose stored value is what the library computed. */
export interface TwoFaces {
  file: Uint8Array;
  /** The cases by the cell of their formula on the sheet `Faces`. */
  cases: Map<string, FaceCase>;
}

export interface FaceCase {
  name: string;
  formula: string;
  arguments: readonly CellArgument[];
}

const FACES = 'Faces';
const ARGUMENTS = 'Arguments';
/** Every so many cases single values stand in the formula itself instead of in cells. */
const LITERALS_EVERY = 4;
/** Cases of one function to print where many differ. */
const SHOWN_EACH = 2;
const TOLERANCE = { relativeTolerance: 1e-9, absoluteTolerance: 1e-12 };

/**
 * Defines the tests that hold each function's computation and its spreadsheet formula together: its example, and
 * sampled arguments in every spreadsheet engine there is.
 *
 * @param functions the descriptions
 * @param argumentLists by name of function, one for each that has a formula
 */
export function describeTwoFaces(
  title: string,
  functions: readonly DescribedFunction[],
  argumentLists: Readonly<Record<string, ArgumentLists>>,
  options: TwoFacesOptions = {},
): void {
  describe(`${title}: the example in the description`, () => {
    it.each(functions.map((described) => ({ name: described.name, described })))(
      'of $name is right',
      ({ described }) => {
        expectExampleToHold(described);
      },
    );
  });

  let faces: Promise<TwoFaces> | undefined;
  const laidOut = () => {
    faces ??= layOutFaces(functions, argumentLists, options);
    return faces;
  };

  describe(`${title}: computation and formula agree`, () => {
    it('in the in-process engine', async () => {
      const { file, cases } = await laidOut();
      expectFacesToAgree({ file, cases }, loadIronCalc(file).result());
    }, 60_000);
  });

  describeWithCalc(`${title}: computation and formula agree`, () => {
    it('in LibreOffice', async () => {
      const laid = await laidOut();
      await withFile(laid.file, async (path) => expectFacesToAgree(laid, await recalculateWithCalc(path)));
    }, 60_000);
  });

  describeWithGnumeric(`${title}: computation and formula agree`, () => {
    it('in Gnumeric', async () => {
      const laid = await laidOut();
      await withFile(laid.file, async (path) =>
        expectFacesToAgree(laid, await recalculateWithGnumeric(path)),
      );
    }, 60_000);
  });
}

/** Fails where a description's example is not what its computation gives. */
export function expectExampleToHold({ name, example, compute }: DescribedFunction): void {
  const computed = compute(example.arguments);
  if (!valuesAgree(computed, example.result)) {
    expect.fail(
      `${name}(${show(example.arguments)}): the example says ${show(example.result)}, computed ${show(computed)}`,
    );
  }
}

/**
 * Samples arguments, computes each case with the library, and writes all cases into one workbook.
 * @throws Error where a function with a formula has no argument lists, or its computation refuses sampled ones
 */
export async function layOutFaces(
  functions: readonly DescribedFunction[],
  argumentLists: Readonly<Record<string, ArgumentLists>>,
  options: TwoFacesOptions = {},
): Promise<TwoFaces> {
  const { casesEach = 60, seed = 20_240_115 } = options;
  const workbook = new ExcelJS.Workbook();
  const faces = workbook.addWorksheet(FACES);
  const layer = new ArgumentSheet(workbook.addWorksheet(ARGUMENTS));
  const cases = new Map<string, FaceCase>();
  for (const described of functions) {
    if (described.formula === undefined) continue;
    const lists = argumentLists[described.name];
    if (lists === undefined)
      throw new Error(`${described.name} has a formula, but no argument lists to try it with`);
    if (described.result.shape !== 'cell') {
      throw new Error(`${described.name} has a formula, but its result is no single cell`);
    }
    const sampled = fc.sample(lists, { numRuns: casesEach, seed });
    for (const [index, values] of [described.example.arguments, ...sampled].entries()) {
      const references = layer.add(values, index % LITERALS_EVERY === LITERALS_EVERY - 1);
      const formula = described.formula(references);
      const row = cases.size + 1;
      faces.getCell(row, 1).value = described.name;
      faces.getCell(row, 2).value = {
        formula,
        result: computeOne(described, values),
      } as ExcelJS.CellFormulaValue;
      cases.set(cellName(row, 2), { name: described.name, formula, arguments: values });
    }
  }
  return { file: new Uint8Array(await workbook.xlsx.writeBuffer()), cases };
}

/** Prints the count, and fails with function, arguments and both values where an engine differs from the library. */
export function expectFacesToAgree({ file, cases }: TwoFaces, result: EngineResult): void {
  const comparison = compareCells(file, result, { ...TOLERANCE, mismatchesListed: cases.size });
  const functions = new Set([...cases.values()].map(({ name }) => name));
  console.info(`${describeComparison(comparison)} (${functions.size} functions)`);
  if (comparison.mismatchCount > 0) {
    const shown = new Map<string, number>();
    const lines: string[] = [];
    for (const { cell, stored, engine } of comparison.mismatches) {
      const { name, formula, arguments: values } = cases.get(cell)!;
      const count = (shown.get(name) ?? 0) + 1;
      shown.set(name, count);
      if (count > SHOWN_EACH) continue;
      lines.push(
        `  ${name}(${show(values)})`,
        `    computed ${show(stored)}, ${result.engine} gives ${show(engine)} for =${formula}`,
      );
    }
    const counts = [...shown].map(([name, count]) => `${name} ${count}`).join(', ');
    lines.push(`  cases that differ: ${counts}`);
    expect.fail(`${describeComparison(comparison)}\n${lines.join('\n')}`);
  }
  expect(comparison.cellsCompared + comparison.cellsUnsupported).toBe(cases.size);
}

function computeOne(described: DescribedFunction, values: readonly CellArgument[]): CellScalar {
  let computed: unknown;
  try {
    computed = described.compute(values);
  } catch (error) {
    throw new Error(
      `${described.name}(${show(values)}): the computation refuses sampled arguments: ${error}`,
    );
  }
  if (Array.isArray(computed) || (typeof computed === 'number' && !Number.isFinite(computed))) {
    throw new Error(`${described.name}(${show(values)}): computed ${computed}, which no cell can hold`);
  }
  // A formula cannot give a blank; the nearest to it is the empty text.
  return (computed as CellScalar) ?? '';
}

/** Puts the arguments of one case below those of the case before, each in columns of its own. */
class ArgumentSheet {
  private nextRow = 1;

  constructor(private readonly sheet: ExcelJS.Worksheet) {}

  /** Returns a reference for each argument, or the value itself for single ones where literals are asked for. */
  add(values: readonly CellArgument[], literals: boolean): string[] {
    const firstRow = this.nextRow;
    let column = 1;
    let height = 1;
    const references = values.map((value) => {
      if (!isTable(value) && literals && value !== null) return literal(value);
      const table = isTable(value) ? value : [[value]];
      const width = Math.max(1, ...table.map((row) => row.length));
      for (const [r, row] of table.entries()) {
        for (const [c, cell] of row.entries()) {
          if (cell !== null) this.sheet.getCell(firstRow + r, column + c).value = cell;
        }
      }
      const first = absolute(firstRow, column);
      const last = absolute(firstRow + Math.max(1, table.length) - 1, column + width - 1);
      column += width + 1;
      height = Math.max(height, table.length);
      // A column of one row is still a range: not every engine takes a single cell for one.
      return isTable(value) ? `${ARGUMENTS}!${first}:${last}` : `${ARGUMENTS}!${first}`;
    });
    this.nextRow += height + 1;
    return references;
  }
}

function absolute(row: number, column: number): string {
  return `$${columnName(column)}$${row}`;
}

function literal(value: number | string | boolean): string {
  if (typeof value === 'string') return `"${value.replaceAll('"', '""')}"`;
  return String(value).toUpperCase();
}

function isTable(value: CellArgument): value is readonly (readonly CellScalar[])[] {
  return Array.isArray(value);
}

type Result = ReturnType<DescribedFunction['compute']>;

function valuesAgree(a: Result, b: Result): boolean {
  if (typeof a === 'number' && typeof b === 'number') {
    return numbersAgree(a, b, TOLERANCE.relativeTolerance, TOLERANCE.absoluteTolerance);
  }
  if (Array.isArray(a) && Array.isArray(b)) {
    return a.length === b.length && a.every((part, index) => valuesAgree(part as Result, b[index] as Result));
  }
  return a === b;
}

function show(value: unknown): string {
  const text = JSON.stringify(value);
  const inner = Array.isArray(value) ? text.slice(1, -1) : text;
  return inner.length > 600 ? `${inner.slice(0, 600)}…` : inner;
}
