import type { CellScalar } from '../../../src/functions/described-function.js';
import {
  compareHeating,
  HEATING_BLOCKS,
  type HeatingComparison,
  type HeatingFigures,
} from '../../../src/heating/compare-heating.js';
import { HEATING_INPUTS } from '../../../src/heating/comparison/heating-inputs.js';
import { SENSITIVITY_ROWS } from '../../../src/heating/comparison/sensitivity-lines.js';
import { calculateWorkbook } from '../../../src/workbook/calculate-inputs.js';
import { columnNumber } from '../../../src/workbook/cell-address.js';
import { GAS_ROWS } from '../../../src/workbook/fields/gas-fields.js';
import type { WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { FIRST_ROW, SHEETS, USUAL_DAYS } from '../../../src/workbook/layout.js';
import { declareBook } from '../../../src/workbook/model/book.js';
import { figureName } from '../../../src/workbook/model/heating/heating-figures-rows.js';
import { monthLetters } from '../../../src/workbook/model/heating/heating-months-rows.js';
import { GAS_LINE_LETTERS, heatingRows } from '../../../src/workbook/model/heating/heating-rows.js';
import { workbookModel } from '../../../src/workbook/model/workbook-model.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';

const book = declareBook(USUAL_DAYS);

/** What typed inputs come to. */
export function workedOut(inputs: WorkbookInputs): WorkbookValues {
  return { inputs, book, calculated: calculateWorkbook(workbookModel(inputs, book), book, inputs) };
}

/** A single figure of the heating sheets. */
export function figure({ calculated }: WorkbookValues, key: string): CellScalar {
  return calculated.named(figureName(key)) as CellScalar;
}

function keyed(keys: readonly string[], figureOf: (key: string) => unknown): HeatingFigures {
  return Object.fromEntries(keys.map((key) => [key, figureOf(key) as CellScalar]));
}

function rowsOf(
  { calculated }: WorkbookValues,
  sheet: string,
  rows: number,
  lettersOf: Record<string, string>,
): HeatingFigures[] {
  const columns = Object.entries(lettersOf).map(([key, letters]) => {
    const place = { sheet, column: columnNumber(letters), firstRow: FIRST_ROW, rows };
    return [key, calculated.column(place)] as const;
  });
  return Array.from({ length: rows }, (_, row) =>
    Object.fromEntries(columns.map(([key, values]) => [key, values[row] as CellScalar])),
  );
}

/** Figures of the heating months sheet, a row a month; more than the comparison's, by key. */
export function heatingMonths(values: WorkbookValues, more: readonly string[] = []): HeatingFigures[] {
  const keys = [...inputsAndLines('months'), ...more];
  const letters = Object.fromEntries(keys.map((key) => [key, monthLetters(key)]));
  return rowsOf(values, SHEETS.heatingMonths, book.shape.monthRows, letters);
}

function inputsAndLines(block: 'gasMonths' | 'months'): string[] {
  const { inputs, lines } = HEATING_BLOCKS[block];
  return [...inputs, ...lines].map(({ key }) => key);
}
const keysOf = (block: 'gasFit' | 'totals' | 'year'): string[] =>
  HEATING_BLOCKS[block].lines.map(({ key }) => key);

/** Every line of the comparison as the workbook has it. */
export function comparisonOf(values: WorkbookValues): HeatingComparison {
  const figures = (keys: readonly string[]): HeatingFigures => keyed(keys, (key) => figure(values, key));
  const first = heatingRows(book.shape).sensitivity + 2;
  const at = (letters: string, row: number): CellScalar =>
    values.calculated.at(SHEETS.heating, `${letters}${first + row}`) as CellScalar;
  return {
    settings: figures(HEATING_INPUTS.map(({ key }) => key)),
    gasMonths: rowsOf(values, SHEETS.gas, GAS_ROWS, GAS_LINE_LETTERS),
    gasFit: figures(keysOf('gasFit')),
    months: heatingMonths(values),
    totals: figures(keysOf('totals')),
    year: figures(keysOf('year')),
    sensitivity: SENSITIVITY_ROWS.map(({ sensitivityKind }, row) => ({
      sensitivityKind,
      sensitivityValue: at('B', row),
      sensitivityFromMeterPounds: at('C', row),
      sensitivityFromHeatPounds: at('D', row),
    })),
  };
}

/** The comparison by the library, from what the workbook's comparison takes in. */
export function libraryComparison(found: HeatingComparison): HeatingComparison {
  const inputsIn = (row: HeatingFigures, inputs: readonly { key: string }[]): HeatingFigures =>
    Object.fromEntries(inputs.map(({ key }) => [key, row[key] === '' ? null : row[key]!]));
  return compareHeating({
    settings: inputsIn(found.settings, HEATING_INPUTS),
    gasMonths: found.gasMonths.map((row) => inputsIn(row, HEATING_BLOCKS.gasMonths.inputs)),
    months: found.months.map((row) => inputsIn(row, HEATING_BLOCKS.months.inputs)),
    sensitivity: SENSITIVITY_ROWS.map((row, i) => ({
      ...row,
      sensitivityValue: found.sensitivity[i]!.sensitivityValue as number,
    })),
  });
}

/** Numbers to nine digits: the library and the formulas add in another order. */
export function rounded(figures: unknown): unknown {
  return JSON.parse(
    JSON.stringify(figures, (_, value) =>
      typeof value === 'number' ? Number(value.toPrecision(9)) : value === null ? '' : value,
    ),
  );
}
