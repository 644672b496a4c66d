import ExcelJS from 'exceljs';
import type { CellScalar } from '../../src/functions/described-function.js';
import {
  compareHeating,
  HEATING_BLOCKS,
  type HeatingFigures,
  type HeatingInputs,
} from '../../src/heating/compare-heating.js';
import { HEATING_INPUTS } from '../../src/heating/comparison/heating-inputs.js';
import type { HeatingLine, LineReferences } from '../../src/heating/comparison/heating-line.js';
import {
  SENSITIVITY_KEYS,
  SENSITIVITY_LINES,
  type SensitivityKind,
} from '../../src/heating/comparison/sensitivity-lines.js';
import { columnName } from '../../src/workbook/package/cell-reference.js';

/** A table: a column for each input and line, a row for each row of figures. */
interface Table {
  sheet: string;
  keys: string[];
  rows: HeatingFigures[];
}

/**
 * Writes a comparison as a plain workbook: each line as its native formula, with the library's value stored beside
 * it, so that engines can be asked whether they agree.
 */
export async function comparisonWorkbook(inputs: HeatingInputs): Promise<Uint8Array> {
  const comparison = compareHeating(inputs);
  const workbook = new ExcelJS.Workbook();
  const single = workbook.addWorksheet('Figures');
  const cellOf = new Map<string, string>();
  const table = (sheet: 'gasMonths' | 'months', rows: HeatingFigures[], inputKeys: string[]): Table => ({
    sheet,
    rows,
    keys: [...inputKeys, ...HEATING_BLOCKS[sheet].lines.map((line) => line.key)],
  });
  const keysOf = (list: readonly { key: string }[]): string[] => list.map(({ key }) => key);
  const gas = table('gasMonths', comparison.gasMonths, keysOf(HEATING_BLOCKS.gasMonths.inputs));
  const months = table('months', comparison.months, keysOf(HEATING_BLOCKS.months.inputs));
  const sensitivity: Table = {
    sheet: 'sensitivity',
    rows: comparison.sensitivity,
    keys: ['sensitivityKind', 'sensitivityValue', ...SENSITIVITY_KEYS],
  };

  const columnOf = ({ sheet, keys, rows }: Table, key: string): string => {
    const index = keys.indexOf(key);
    if (index < 0) throw new RangeError(`${sheet} has no ${key}`);
    const letter = columnName(index + 1);
    return `${sheet}!$${letter}$2:$${letter}$${Math.max(2, rows.length + 1)}`;
  };
  const references = (of: Table | null, row: number, columns: Table): LineReferences => ({
    cell: (key) => {
      const index = of?.keys.indexOf(key) ?? -1;
      if (index >= 0) return `$${columnName(index + 1)}${row}`;
      const cell = cellOf.get(key);
      if (cell === undefined) throw new RangeError(`no cell is called ${key}`);
      return cell;
    },
    column: (key) => columnOf(columns, key),
  });

  let nextRow = 1;
  /** Single figures that a table before them reads. */
  const placed = new Map<string, ExcelJS.Cell>();
  const place = (key: string): ExcelJS.Cell => {
    single.getCell(nextRow, 1).value = key;
    cellOf.set(key, `Figures!$B$${nextRow}`);
    return single.getCell(nextRow++, 2);
  };
  const writeSingles = (lines: readonly HeatingLine[], figures: HeatingFigures, columns: Table): void => {
    const cells = lines.map((line) => placed.get(line.key) ?? place(line.key));
    for (const [i, line] of lines.entries()) {
      cells[i]!.value = formulaCell(line.formula(references(null, 0, columns)), figures[line.key]!);
    }
  };
  const writeTable = (block: Table, linesOf: (row: HeatingFigures) => readonly HeatingLine[]): void => {
    const sheet = workbook.addWorksheet(block.sheet);
    sheet.addRow(block.keys);
    for (const [i, figures] of block.rows.entries()) {
      const row = i + 2;
      for (const [c, key] of block.keys.entries()) {
        const line = linesOf(figures).find((candidate) => candidate.key === key);
        const value = figures[key]!;
        sheet.getCell(row, c + 1).value =
          line === undefined ? value : formulaCell(line.formula(references(block, row, block)), value);
      }
    }
  };

  for (const { key } of HEATING_INPUTS) place(key).value = comparison.settings[key]!;
  writeTable(gas, () => HEATING_BLOCKS.gasMonths.lines);
  writeSingles(HEATING_BLOCKS.gasFit.lines, comparison.gasFit, gas);
  for (const { key } of HEATING_BLOCKS.totals.lines) placed.set(key, place(key));
  writeTable(months, () => HEATING_BLOCKS.months.lines);
  writeSingles(HEATING_BLOCKS.totals.lines, comparison.totals, months);
  writeSingles(HEATING_BLOCKS.year.lines, comparison.year, months);
  writeTable(sensitivity, (row) => SENSITIVITY_LINES[row.sensitivityKind as SensitivityKind]);
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}

function formulaCell(formula: string, result: CellScalar): ExcelJS.CellFormulaValue {
  return { formula, result } as ExcelJS.CellFormulaValue;
}
