import ExcelJS from 'exceljs';
import { unzipSync, zipSync } from 'fflate';
import { type Area, type Node, referencesIn } from '../../../src/formula/nodes.js';
import { printFormula } from '../../../src/formula/print.js';
import { FormulaError, type Value } from '../../../src/formula/values.js';
import type { SheetBuilder } from '../../../src/workbook/book/sheet-builder.js';
import { all, type Column } from '../../../src/workbook/book/terms.js';
import { defineNames } from '../../../src/workbook/build/define-names.js';
import { namesOfParts } from '../../../src/workbook/calculate.js';
import { isShareable } from '../../../src/workbook/model/column-text.js';
import { comparableFormula } from '../../../src/workbook/package/index.js';
import type { Case } from './workings-case.js';

/** Formula of a cell of a column, by its place from 0. */
export function formulaOf(column: Column, index: number): string {
  return column.is === undefined ? '' : printFormula(column.is, column.cell(index));
}

/** A workbook of workings and inputs, every formula with the value that the language gives. */
export async function workingsWorkbook(worked: Case): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  // Builders may share a sheet, side by side.
  for (const name of new Set(worked.sheets.map(({ name }) => name))) workbook.addWorksheet(name);
  const sheet = (name: string): ExcelJS.Worksheet => {
    const found = workbook.getWorksheet(name);
    if (found === undefined) throw new Error(`there is no sheet ${name}`);
    return found;
  };
  for (const { sheet: name, row, column, value } of worked.typed)
    sheet(name).getCell(row, column).value = value;
  for (const builder of worked.sheets) writeSheet(sheet(builder.name), builder, worked);
  const entries = unzipSync(new Uint8Array(await workbook.xlsx.writeBuffer()));
  const part = entries['xl/workbook.xml'];
  if (part === undefined) throw new Error('the workbook has no workbook part');
  entries['xl/workbook.xml'] = defineNames(
    part,
    new Map<string, Area | string>([
      ...definedNames(worked.sheets),
      ...namesOfParts(formulasOf(worked.sheets)),
    ]),
  );
  return zipSync(entries, { level: 1 });
}

function writeSheet(sheet: ExcelJS.Worksheet, builder: SheetBuilder, worked: Case): void {
  for (const { row, column, value } of builder.labels) sheet.getCell(row, column).value = value;
  for (const [column, values] of builder.values) {
    for (let i = 0; i < values.length; i++)
      sheet.getCell(column.firstRow + i, column.column).value = values[i] ?? null;
  }
  for (const { line } of builder.lines) {
    if (line.is === undefined) continue;
    const { row, column } = line.place;
    sheet.getCell(row, column).value = formulaCell(printFormula(line.is, line.place), worked.of(line));
  }
  for (const column of builder.columns) {
    if (column.is === undefined) continue;
    const first = formulaOf(column, 0);
    const top = `${column.letters}${column.firstRow}`;
    const at = (i: number) =>
      comparableFormula(formulaOf(column, i), `${column.letters}${column.firstRow + i}`);
    const isShared = isShareable(first) && at(0) === at(Math.min(1, column.rows - 1));
    for (let i = 0; i < column.rows; i++) {
      const cell = sheet.getCell(column.firstRow + i, column.column);
      const value = worked.at(column, i);
      if (!isShared) cell.value = formulaCell(formulaOf(column, i), value);
      else if (i === 0) {
        const shared = { shareType: 'shared', ref: `${top}:${column.letters}${column.lastRow}` };
        cell.value = { ...(formulaCell(first, value) as object), ...shared } as never;
      } else cell.value = { sharedFormula: top, result: result(value) } as never;
    }
  }
}

function formulaCell(formula: string, value: Value): ExcelJS.CellFormulaValue {
  return { formula, result: result(value) } as ExcelJS.CellFormulaValue;
}

function result(value: Value): unknown {
  return value instanceof FormulaError ? { error: value.code } : (value ?? '');
}

/** Every formula of the sheets. */
function formulasOf(sheets: readonly SheetBuilder[]): Node[] {
  return sheets
    .flatMap(({ columns, lines }) => [...columns, ...lines.map(({ line }) => line)])
    .flatMap(({ is }) => (is === undefined ? [] : [is]));
}

/** Every defined name, with the cells that it stands for. */
export function definedNames(sheets: readonly SheetBuilder[]): Map<string, Area> {
  const names = new Map<string, Area>();
  const define = (name: string | undefined, area: Area): void => {
    if (name === undefined) return;
    const known = names.get(name);
    if (known !== undefined && JSON.stringify(known) !== JSON.stringify(area)) {
      throw new Error(`the name ${name} stands for two places`);
    }
    names.set(name, area);
  };
  const anywhere = { sheet: '', row: 1, column: 1 };
  for (const { columns, lines } of sheets) {
    for (const column of columns) define(column.name, all(column).area(anywhere));
    for (const { line } of lines) define(line.name, line.reference.area(anywhere));
  }
  for (const node of formulasOf(sheets)) {
    for (const { name, area } of referencesIn(node)) if (name !== undefined) define(name, area(anywhere));
  }
  return names;
}
