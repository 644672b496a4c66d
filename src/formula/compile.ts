import { FUNCTIONS } from './functions.js';
import type { Compute, Grid, GridColumn } from './grid.js';
import type { Area, CellPlace, Node } from './nodes.js';
import { Cells, pairUp, type Rows, rowsOf } from './operands.js';
import { negated, OPERATORS } from './operators.js';
import { FormulaError, toCondition, toNumber, type Value } from './values.js';

type CellsOf = (row: number) => Cells | FormulaError;
type RowsOf = (row: number) => Rows | FormulaError;

/** Turns formulas into functions of the row, over one grid. */
class Compiler {
  constructor(
    private readonly grid: Grid,
    private readonly home: CellPlace,
  ) {}

  /** One value: what a cell with this formula holds. */
  scalar(node: Node): Compute {
    switch (node.kind) {
      case 'number':
      case 'text':
      case 'boolean': {
        const { value } = node;
        return () => value;
      }
      case 'missing':
        return () => null;
      case 'reference':
        return this.cell(node.reference.area(this.home), node.reference.moves);
      case 'range':
        return () => FormulaError.value;
      case 'named':
        return this.scalar(node.is);
      case 'unary': {
        const operand = this.scalar(node.operand);
        return node.operator === '+' ? operand : (row) => negated(operand(row));
      }
      case 'binary': {
        const [left, right, work] = [
          this.scalar(node.left),
          this.scalar(node.right),
          OPERATORS[node.operator],
        ];
        return (row) => work(left(row), right(row));
      }
      case 'call':
        return this.call(node.name, node.args);
    }
  }

  private cell(area: Area, moves: { first: number }): Compute {
    if (area.firstRow !== area.lastRow || area.firstColumn !== area.lastColumn) {
      return () => FormulaError.value;
    }
    const column = this.grid.column(area.sheet, area.firstColumn);
    const { firstRow } = area;
    const { row: homeRow } = this.home;
    if (moves.first === 0) return () => column.get(firstRow);
    return (row) => column.get(firstRow + moves.first * (row - homeRow));
  }

  private call(name: string, args: readonly Node[]): Compute {
    switch (name) {
      case 'IF': {
        const [condition, yes, no] = this.scalars(args);
        if (condition === undefined || yes === undefined)
          throw new SyntaxError('IF needs a condition and a value');
        const otherwise = no ?? (() => false);
        return (row) => {
          const holds = toCondition(condition(row));
          if (holds instanceof FormulaError) return holds;
          return (holds ? yes : otherwise)(row);
        };
      }
      case 'IFERROR': {
        const [value, otherwise] = this.scalars(args);
        if (value === undefined || otherwise === undefined) throw new SyntaxError('IFERROR needs two values');
        return (row) => {
          const found = value(row);
          return found instanceof FormulaError ? otherwise(row) : found;
        };
      }
      case 'CHOOSE': {
        const [index, ...choices] = this.scalars(args);
        if (index === undefined) throw new SyntaxError('CHOOSE needs an index');
        return (row) => {
          const number = toNumber(index(row));
          if (number instanceof FormulaError) return number;
          return choices[Math.trunc(number) - 1]?.(row) ?? FormulaError.value;
        };
      }
      case 'INDEX': {
        const cells = this.indexed(args);
        return (row) => {
          const found = cells(row);
          if (found instanceof FormulaError) return found;
          return found.size === 1 ? found.at(0, 0) : FormulaError.value;
        };
      }
      case 'ROW': {
        if (args.length === 0) return (row) => row;
        const cells = this.cells(args[0] ?? { kind: 'missing' });
        return (row) => {
          const found = cells(row);
          return found instanceof FormulaError ? found : found.firstRow;
        };
      }
      case 'SUMPRODUCT': {
        const factors = args.map((arg) => this.rows(arg));
        return (row) => sumOfProducts(factors.map((factor) => factor(row)));
      }
    }
    const description = FUNCTIONS[name];
    if (description === undefined) throw new SyntaxError(`${name} is no function of this language`);
    const { takes, work } = description;
    const operands = args.map((arg, i) => {
      const kind = takes[Math.min(i, takes.length - 1)];
      return kind === 'cells' ? this.cellsOrValue(arg) : this.scalar(arg);
    });
    return (row) => work(operands.map((operand) => operand(row)));
  }

  private scalars(args: readonly Node[]): Compute[] {
    return args.map((arg) => this.scalar(arg));
  }

  /** An argument of a function that takes cells: cells where it refers to some, else its value. */
  private cellsOrValue(node: Node): (row: number) => Cells | Value {
    return isCells(node) ? this.cells(node) : this.scalar(node);
  }

  /** The cells that a formula refers to. */
  private cells(node: Node): CellsOf {
    switch (node.kind) {
      case 'named':
        return this.cells(node.is);
      case 'reference': {
        const area = node.reference.area(this.home);
        const columns = this.columnsOf(area);
        const { moves } = node.reference;
        if (moves.first === 0 && moves.last === 0) {
          const fixed = new Cells(columns, area.firstRow, area.lastRow);
          return () => fixed;
        }
        const { row: homeRow } = this.home;
        return (row) => {
          const shift = row - homeRow;
          return new Cells(columns, area.firstRow + moves.first * shift, area.lastRow + moves.last * shift);
        };
      }
      case 'range': {
        const [from, to] = [this.cells(node.from), this.cells(node.to)];
        return (row) => {
          const a = from(row);
          if (a instanceof FormulaError) return a;
          const b = to(row);
          if (b instanceof FormulaError) return b;
          const columns = a.columns[0] === b.columns[0] ? a.columns : [...a.columns, ...b.columns];
          return new Cells(columns, Math.min(a.firstRow, b.firstRow), Math.max(a.lastRow, b.lastRow));
        };
      }
      case 'call': {
        if (node.name === 'INDEX') return this.indexed(node.args);
        if (node.name === 'CHOOSE') {
          const [index, ...choices] = node.args;
          const number = this.scalar(index ?? { kind: 'missing' });
          const ofChoices = choices.map((choice) => this.cells(choice));
          return (row) => {
            const chosen = toNumber(number(row));
            if (chosen instanceof FormulaError) return chosen;
            return ofChoices[Math.trunc(chosen) - 1]?.(row) ?? FormulaError.value;
          };
        }
        if (node.name === 'IF') {
          const [condition, yes, no] = node.args;
          const holds = this.scalar(condition ?? { kind: 'missing' });
          const then = this.cells(yes ?? { kind: 'missing' });
          const otherwise = this.cells(no ?? { kind: 'missing' });
          return (row) => {
            const value = toCondition(holds(row));
            return value instanceof FormulaError ? value : (value ? then : otherwise)(row);
          };
        }
      }
    }
    return () => FormulaError.value;
  }

  private columnsOf(area: Area): GridColumn[] {
    return Array.from({ length: area.lastColumn - area.firstColumn + 1 }, (_, i) =>
      this.grid.column(area.sheet, area.firstColumn + i),
    );
  }

  /** INDEX: one cell of a rectangle; row or column 0 is all of them. */
  private indexed(args: readonly Node[]): CellsOf {
    const [of, rowArg, columnArg] = args;
    const cells = this.cells(of ?? { kind: 'missing' });
    const rowOf = this.scalar(rowArg ?? { kind: 'missing' });
    const columnOf = columnArg === undefined ? undefined : this.scalar(columnArg);
    return (row) => {
      const found = cells(row);
      if (found instanceof FormulaError) return found;
      let down = toNumber(rowOf(row));
      let across = columnOf === undefined ? 0 : toNumber(columnOf(row));
      if (down instanceof FormulaError) return down;
      if (across instanceof FormulaError) return across;
      // With one number, it counts along the only row.
      if (columnOf === undefined && found.rows === 1 && found.columns.length > 1) [down, across] = [1, down];
      down = Math.trunc(down);
      across = Math.trunc(across);
      if (down < 0 || across < 0 || down > found.rows || across > found.columns.length) {
        return FormulaError.reference;
      }
      const columns = across === 0 ? found.columns : found.columns.slice(across - 1, across);
      const first = down === 0 ? found.firstRow : found.firstRow + down - 1;
      return new Cells(columns, first, down === 0 ? found.lastRow : first);
    };
  }

  /** Row-by-row values, as SUMPRODUCT works with them. */
  private rows(node: Node): RowsOf {
    if (isCells(node)) {
      const cells = this.cells(node);
      return (row) => {
        const found = cells(row);
        return found instanceof FormulaError ? found : rowsOf(found);
      };
    }
    if (node.kind === 'named') return this.rows(node.is);
    if (node.kind === 'binary') {
      const [left, right, work] = [this.rows(node.left), this.rows(node.right), OPERATORS[node.operator]];
      return (row) => {
        const a = left(row);
        if (a instanceof FormulaError) return a;
        const b = right(row);
        return b instanceof FormulaError ? b : pairUp(a, b, work);
      };
    }
    if (node.kind === 'unary') {
      const operand = this.rows(node.operand);
      if (node.operator === '+') return operand;
      return (row) => {
        const found = operand(row);
        return found instanceof FormulaError ? found : { ...found, values: found.values.map(negated) };
      };
    }
    const single = this.scalar(node);
    return (row) => ({ rows: 1, columns: 1, values: [single(row)] });
  }
}

/** Whether a part of a formula stands for cells rather than for a value. */
function isCells(node: Node): boolean {
  if (node.kind === 'reference' || node.kind === 'range') return true;
  if (node.kind === 'named') return isCells(node.is);
  if (node.kind !== 'call') return false;
  if (node.name === 'INDEX') return true;
  if (node.name === 'CHOOSE') return node.args.slice(1).every(isCells);
  return node.name === 'IF' && node.args.length === 3 && node.args.slice(1).every(isCells);
}

function sumOfProducts(factors: readonly (Rows | FormulaError)[]): Value {
  const found: Rows[] = [];
  for (const factor of factors) {
    if (factor instanceof FormulaError) return factor;
    found.push(factor);
  }
  const [first, ...others] = found;
  if (first === undefined) return FormulaError.value;
  if (others.some((other) => other.rows !== first.rows || other.columns !== first.columns)) {
    return FormulaError.value;
  }
  let sum = 0;
  for (let i = 0; i < first.values.length; i++) {
    let product = 1;
    for (const { values } of found) {
      const value = values[i] ?? null;
      if (value instanceof FormulaError) return value;
      // What is no number counts as 0, unless an operator has made one of it.
      product *= typeof value === 'number' ? value : 0;
    }
    sum += product;
  }
  return sum;
}

/** A formula that comes to a blank cell shows 0. */
function nothingIsZero(value: Value): Value {
  return value ?? 0;
}

/**
 * Turns a formula into a function of the row it stands in.
 *
 * @param node the formula
 * @param home the cell it is written for; in other rows of the column its references move along
 * @param grid where the cells are that it refers to
 * @returns works the formula out for a row
 * @throws SyntaxError when it uses a function that the language does not have
 */
export function compileFormula(node: Node, home: CellPlace, grid: Grid): Compute {
  const compute = new Compiler(grid, home).scalar(node);
  return (row) => nothingIsZero(compute(row));
}
