import type { FormulaValue } from '../model/sheet-model.js';
import { CellError, cellName, type WorkbookPackage } from '../package/index.js';
import type { OwnedCells } from './owned-cells.js';

/** A cell whose formula is not the project's any more. */
export interface AlteredFormula {
  sheet: string;
  cell: string;
  /** What stands there instead: a formula, a value, or nothing. */
  found: string;
}

/** A cell whose stored value is not what the library works out. */
export interface DifferingValue {
  sheet: string;
  cell: string;
  /** Undefined where no value is stored. */
  stored: string | undefined;
  expected: string;
}

/** What a sheet's formula cells hold against what they should. */
export interface SheetInspection {
  sheet: string;
  /** Owned cells whose formula is as it should be. */
  intact: number;
  altered: AlteredFormula[];
  differing: DifferingValue[];
  /** Formula cells that are not the project's. */
  others: number;
}

/** Difference up to which two figures are the same: relative from 1 on, absolute below; programs store 15 digits. */
const TOLERANCE = 1e-9;

/**
 * Compares every formula of a sheet with the project's.
 *
 * @param workbook an open workbook
 * @param owned the project's formula cells of the sheet, with the library's values
 * @param withValues whether stored values are compared too
 * @returns what differs, cell by cell
 */
export function inspectSheet(
  workbook: WorkbookPackage,
  owned: OwnedCells,
  withValues: boolean,
): SheetInspection {
  const sheet = owned.model.name;
  const inspection: SheetInspection = { sheet, intact: 0, altered: [], differing: [], others: 0 };
  const seen = new Set<number>();
  let found = 0;
  const reader = workbook.readSheet(sheet);
  while (reader.next()) {
    const { row, column } = reader;
    if (!owned.has(row, column)) {
      if (reader.hasFormula) inspection.others++;
      continue;
    }
    found++;
    seen.add(row * 16_384 + column);
    if (!owned.holdsOwn(row, column, reader)) {
      inspection.altered.push({ sheet, cell: reader.name, found: textOf(reader.formula, reader.value) });
      continue;
    }
    inspection.intact++;
    if (!withValues) continue;
    const value = owned.valueAt(row, column)!;
    // A value that was dropped is none, where an empty text belongs too.
    const same =
      reader.hasValue &&
      (typeof value === 'number'
        ? numbersAgree(reader.number, value)
        : textsAgree(reader.value, value ?? null));
    if (same) continue;
    inspection.differing.push({
      sheet,
      cell: reader.name,
      stored: reader.hasValue ? textOf(undefined, reader.value) : undefined,
      expected: textOf(undefined, value),
    });
  }
  if (found < owned.count) {
    for (const { row, column } of owned.positions()) {
      if (!seen.has(row * 16_384 + column)) {
        inspection.altered.push({ sheet, cell: cellName(row, column), found: 'nothing' });
      }
    }
  }
  return inspection;
}

function numbersAgree(stored: number, expected: number): boolean {
  const size = Math.max(Math.abs(stored), Math.abs(expected), 1);
  return Math.abs(stored - expected) <= TOLERANCE * size;
}

function textsAgree(stored: unknown, expected: FormulaValue): boolean {
  if (expected instanceof CellError) return stored instanceof CellError && stored.code === expected.code;
  return (stored ?? '') === (expected ?? '');
}

function textOf(formula: string | undefined, value: unknown): string {
  if (formula !== undefined) return `=${formula}`;
  if (value instanceof CellError) return value.code;
  return value === null || value === '' ? 'nothing' : JSON.stringify(value);
}
