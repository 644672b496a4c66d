import { compileFormula } from '../formula/compile.js';
import { Grid } from '../formula/grid.js';
import type { Area, CellPlace, Node } from '../formula/nodes.js';
import { namedIn, referencesIn } from '../formula/nodes.js';
import { parseFormulaText } from '../formula/parse-text.js';
import { printFormula } from '../formula/print.js';
import { FormulaError, type Value } from '../formula/values.js';
import type { Column, Line } from './book/terms.js';
import { columnNumber, parseCell } from './cell-address.js';
import type { FormulaCell, FormulaColumn, FormulaValue, SheetModel } from './model/sheet-model.js';
import { CellError } from './package/index.js';

const ANYWHERE: CellPlace = { sheet: '', row: 1, column: 1 };

/** The values of a workbook, worked out from its formulas when they are asked for. */
export class Calculated {
  constructor(
    private readonly grid: Grid,
    private readonly names: ReadonlyMap<string, Area>,
  ) {}

  /** Types a value into an input cell; what looks at it must not have been asked for before. */
  type({ sheet, row, column }: CellPlace, value: Exclude<Value, FormulaError>): void {
    this.grid.column(sheet, column).setValue(row, value);
  }

  /** Types another value into an input cell, and forgets what was worked out. */
  retype(place: CellPlace, value: Exclude<Value, FormulaError>): void {
    this.grid.forget();
    this.type(place, value);
  }

  /** Value of a cell by sheet and address. */
  at(sheet: string, address: string): FormulaValue {
    return this.value({ sheet, ...parseCell(address) });
  }

  /** Value of a cell. */
  value(place: CellPlace): FormulaValue {
    return outside(this.grid.value(place));
  }

  /** Value of a line item. */
  of(line: Line): FormulaValue {
    return this.value(line.place);
  }

  /** Value of the cell with a defined name. */
  named(name: string): FormulaValue {
    const area = this.names.get(name);
    if (area === undefined) throw new RangeError(`"${name}" is no name of this workbook`);
    return this.value({ sheet: area.sheet, row: area.firstRow, column: area.firstColumn });
  }

  /** Values of a column from its first row. */
  column({
    sheet,
    column,
    firstRow,
    rows,
  }: Pick<Column, 'sheet' | 'column' | 'firstRow' | 'rows'>): FormulaValue[] {
    const cells = this.grid.column(sheet, column);
    return Array.from({ length: rows }, (_, i) => outside(cells.get(firstRow + i)));
  }

  /** The numbers of a column, 0 where a cell holds none. */
  numbers(column: Pick<Column, 'sheet' | 'column' | 'firstRow' | 'rows'>): Float64Array {
    return Float64Array.from(this.column(column), (value) => (typeof value === 'number' ? value : 0));
  }
}

function outside(value: Value): FormulaValue {
  return value instanceof FormulaError ? new CellError(value.code) : value;
}

/** Every defined name of a workbook with the cells that it stands for. */
export function definedNames(model: readonly SheetModel[]): Map<string, Area> {
  const names = new Map<string, Area>();
  const define = (name: string | undefined, area: Area): void => {
    if (name === undefined) return;
    const known = names.get(name);
    if (known !== undefined && JSON.stringify(known) !== JSON.stringify(area)) {
      throw new Error(`the name ${name} stands for two places`);
    }
    names.set(name, area);
  };
  const single = (sheet: string, at: string): Area => {
    const { row, column } = parseCell(at);
    return { sheet, firstRow: row, lastRow: row, firstColumn: column, lastColumn: column };
  };
  for (const sheet of model) {
    for (const cell of sheet.cells) {
      if ('name' in cell) define(cell.name, single(sheet.name, cell.at));
    }
    for (const column of [...sheet.formulaColumns, ...sheet.inputColumns]) {
      define(column.name, {
        sheet: sheet.name,
        firstRow: column.firstRow,
        lastRow: column.firstRow + column.rows - 1,
        firstColumn: columnNumber(column.letters),
        lastColumn: columnNumber(column.letters),
      });
    }
    for (const { letters, firstRow, values, name } of sheet.valueColumns ?? []) {
      define(name, {
        sheet: sheet.name,
        firstRow,
        lastRow: firstRow + values.length - 1,
        firstColumn: columnNumber(letters),
        lastColumn: columnNumber(letters),
      });
    }
    for (const node of nodesOf(sheet)) {
      for (const { name, area } of referencesIn(node)) define(name, area(ANYWHERE));
    }
  }
  return names;
}

/**
 * Every name of a workbook that stands for a part of formulas, with its text.
 *
 * @param model every sheet
 * @returns the text of each without `=`, as it reads from the first row: what moves with the row moves from there
 * @throws Error where a name stands for two things
 */
export function namedFormulas(model: readonly SheetModel[]): Map<string, string> {
  return namesOfParts(model.flatMap((sheet) => [...nodesOf(sheet)]));
}

/** The same of formulas, whatever sheets they stand on. */
export function namesOfParts(formulas: readonly Node[]): Map<string, string> {
  const names = new Map<string, string>();
  const seen = new Set<Node>();
  for (const part of formulas.flatMap((formula) => [...namedIn(formula)])) {
    if (seen.has(part)) continue;
    seen.add(part);
    const text = printFormula(part.is, ANYWHERE);
    const known = names.get(part.name) ?? text;
    if (known !== text) throw new Error(`the name ${part.name} stands for ${known} and for ${text}`);
    names.set(part.name, text);
  }
  return names;
}

/**
 * Every defined name of a workbook with what it stands for: cells, or a part of formulas as a text.
 *
 * @param model every sheet
 * @throws Error where a name stands for two things
 */
export function workbookNames(model: readonly SheetModel[]): Map<string, Area | string> {
  const areas = definedNames(model);
  const formulas = namedFormulas(model);
  const twice = [...formulas.keys()].find((name) => areas.has(name));
  if (twice !== undefined) throw new Error(`the name ${twice} stands for cells and for a part of formulas`);
  return new Map<string, Area | string>([...areas, ...formulas]);
}

function* nodesOf(sheet: SheetModel): Generator<Node> {
  for (const cell of sheet.cells) {
    if (cell.kind === 'formula' && typeof cell.formula !== 'string') yield cell.formula;
  }
  for (const { formula } of sheet.formulaColumns) if (typeof formula !== 'function') yield formula;
}

/**
 * Works a workbook out from its formulas.
 *
 * @param model every sheet, with what its input cells hold
 * @param typed columns of inputs that the user pastes or a fill writes, by sheet
 * @returns values, worked out on demand
 */
export function calculate(model: readonly SheetModel[], typed: readonly TypedColumn[]): Calculated {
  const grid = new Grid();
  const names = definedNames(model);
  for (const sheet of model) {
    for (const cell of sheet.cells) {
      const { row, column } = parseCell(cell.at);
      if (cell.kind === 'formula') putFormula(grid, names, sheet.name, cell, { row, column });
      else if (cell.value !== null && cell.value !== '')
        grid.column(sheet.name, column).setValue(row, cell.value);
    }
    for (const column of sheet.formulaColumns) putColumn(grid, names, sheet.name, column);
    for (const { letters, firstRow, values } of sheet.valueColumns ?? []) {
      grid.column(sheet.name, columnNumber(letters)).setValues(firstRow, values);
    }
  }
  for (const { sheet, column, firstRow, values } of typed) {
    const cells = grid.column(sheet, column);
    for (let i = 0; i < values.length; i++) {
      const value = values[i];
      if (value !== null && value !== undefined && !Number.isNaN(value)) cells.setValue(firstRow + i, value);
    }
  }
  return new Calculated(grid, names);
}

/** Values of an input column from its first row; blank where null or NaN. */
export interface TypedColumn {
  sheet: string;
  column: number;
  firstRow: number;
  values: ArrayLike<number | string | boolean | null>;
}

function putFormula(
  grid: Grid,
  names: ReadonlyMap<string, Area>,
  sheet: string,
  cell: FormulaCell,
  { row, column }: { row: number; column: number },
): void {
  const home = { sheet, row, column };
  const node = typeof cell.formula === 'string' ? read(cell.formula, home, names) : cell.formula;
  grid.column(sheet, column).setFormulas(row, row, compile(node, home, grid));
}

function putColumn(grid: Grid, names: ReadonlyMap<string, Area>, sheet: string, column: FormulaColumn): void {
  const home = { sheet, row: column.firstRow, column: columnNumber(column.letters) };
  const node =
    typeof column.formula === 'function'
      ? read(column.formula(column.firstRow), home, names)
      : column.formula;
  const last = column.firstRow + column.rows - 1;
  grid.column(sheet, home.column).setFormulas(column.firstRow, last, compile(node, home, grid));
}

function read(text: string, home: CellPlace, names: ReadonlyMap<string, Area>): Node {
  try {
    return parseFormulaText(text, home, names);
  } catch (error) {
    throw new Error(`${home.sheet}, row ${home.row}, column ${home.column}: ${String(error)}: ${text}`);
  }
}

function compile(node: Node, home: CellPlace, grid: Grid) {
  try {
    return compileFormula(node, home, grid);
  } catch (error) {
    throw new Error(`${home.sheet}, row ${home.row}, column ${home.column}: ${String(error)}`);
  }
}
