import type { EngineCell, SheetValues } from '../../scripts/lib/calc/sheet-values.js';
import { readStoredWorkbook, type StoredCell } from './stored-cells.js';

/** What one engine made of a workbook. */
export interface EngineResult {
  /** Name for the printed line, for example `LibreOffice`. */
  engine: string;
  values: ReadonlyMap<string, SheetValues>;
  /** Why the engine cannot calculate a formula cell, by `Sheet!A1`; such cells are counted and not compared. */
  unsupported?: ReadonlyMap<string, string>;
}

export interface CellMismatch {
  sheet: string;
  cell: string;
  /** Value in the file; null where a formula cell carries none. */
  stored: number | string | boolean | null;
  engine: number | string | boolean | null;
}

export interface CellComparison {
  engine: string;
  cellsCompared: number;
  cellsUnsupported: number;
  mismatchCount: number;
  /** The first 20, or as many as asked for. */
  mismatches: CellMismatch[];
  /** Formula cells compared on each sheet. */
  bySheet: Map<string, number>;
}

export interface CompareOptions {
  /** Default 1e-9, of the larger of the two. */
  relativeTolerance?: number;
  /** Default 1e-9, in the cell's own unit. */
  absoluteTolerance?: number;
  /** How many mismatches to list. Default 20. */
  mismatchesListed?: number;
  /** What of a text has to agree. Default: all of it. */
  ofText?: (text: string) => string;
}

/**
 * Compares the value that an .xlsx stores in every formula cell with the value that an engine calculated for it.
 * Numbers agree within the tolerance; texts, booleans and errors must be the same. A formula cell without a
 * stored value is a mismatch, because a reader that does not calculate would show nothing.
 *
 * @param file path or bytes of the .xlsx
 * @param result the engine's values of the same workbook
 */
export function compareCells(
  file: string | Uint8Array,
  result: EngineResult,
  options: CompareOptions = {},
): CellComparison {
  const {
    relativeTolerance = 1e-9,
    absoluteTolerance = 1e-9,
    mismatchesListed = 20,
    ofText = (text) => text,
  } = options;
  const comparison: CellComparison = {
    engine: result.engine,
    cellsCompared: 0,
    cellsUnsupported: 0,
    mismatchCount: 0,
    mismatches: [],
    bySheet: new Map(),
  };
  for (const sheet of readStoredWorkbook(file).sheets) {
    const values = result.values.get(sheet.name);
    if (values === undefined) throw new Error(`${result.engine} has no sheet named ${sheet.name}`);
    let compared = 0;
    const toAgree = <Cell extends StoredCell | EngineCell>(cell: Cell): Cell =>
      cell.kind === 'text' ? { ...cell, value: ofText(String(cell.value)) } : cell;
    for (const stored of sheet.cells()) {
      if (stored.formula === undefined) continue;
      if (result.unsupported?.has(`${sheet.name}!${stored.ref}`)) {
        comparison.cellsUnsupported++;
        continue;
      }
      compared++;
      const calculated = values.at(stored.row, stored.column);
      if (!agree(toAgree(stored), toAgree(calculated), relativeTolerance, absoluteTolerance)) {
        comparison.mismatchCount++;
        if (comparison.mismatches.length < mismatchesListed) {
          comparison.mismatches.push({
            sheet: sheet.name,
            cell: stored.ref,
            stored: stored.value,
            engine: calculated.value,
          });
        }
      }
    }
    comparison.bySheet.set(sheet.name, compared);
    comparison.cellsCompared += compared;
  }
  return comparison;
}

function agree(stored: StoredCell, calculated: EngineCell, relative: number, absolute: number): boolean {
  if (stored.kind === 'number' && calculated.kind === 'number') {
    return numbersAgree(stored.value as number, calculated.value as number, relative, absolute);
  }
  // LibreOffice's booleans are the numbers 0 and 1 with a format.
  if (stored.kind === 'boolean' && calculated.kind === 'number')
    return Number(stored.value) === calculated.value;
  return stored.kind !== 'blank' && stored.kind === calculated.kind && stored.value === calculated.value;
}

/** Whether two numbers differ by no more than the relative or the absolute tolerance; NaN agrees with nothing. */
export function numbersAgree(a: number, b: number, relative = 1e-9, absolute = 1e-9): boolean {
  return Math.abs(a - b) <= Math.max(relative * Math.max(Math.abs(a), Math.abs(b)), absolute);
}

/** One line for the test output, for example `LibreOffice: 350,123 formula cells equal`. */
export function describeComparison(comparison: CellComparison): string {
  const { engine, cellsCompared, cellsUnsupported, mismatchCount } = comparison;
  const count = (n: number) => n.toLocaleString('en-GB');
  const parts = [
    mismatchCount === 0
      ? `${count(cellsCompared)} formula cells equal`
      : `${count(mismatchCount)} of ${count(cellsCompared)} formula cells differ`,
  ];
  if (cellsUnsupported > 0) parts.push(`${count(cellsUnsupported)} beyond this engine, not compared`);
  return `${engine}: ${parts.join('; ')}`;
}

/**
 * Prints the line, and throws with the differing cells where there are any.
 * @param leastCells fails where fewer formula cells were compared, so that an empty comparison never passes
 */
export function assertCellsEqual(comparison: CellComparison, leastCells = 1): void {
  console.info(describeComparison(comparison));
  if (comparison.mismatchCount > 0) {
    const lines = comparison.mismatches.map(
      ({ sheet, cell, stored, engine }) =>
        `  ${sheet}!${cell}: stored ${JSON.stringify(stored)}, calculated ${JSON.stringify(engine)}`,
    );
    throw new Error(`${describeComparison(comparison)}\n${lines.join('\n')}`);
  }
  if (comparison.cellsCompared < leastCells) {
    throw new Error(
      `${comparison.engine} compared ${comparison.cellsCompared} formula cells, expected at least ${leastCells}`,
    );
  }
}
