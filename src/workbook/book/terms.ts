import type { Area, CellPlace, Node, Reference } from '../../formula/nodes.js';
import { type Part, parseFormula } from '../../formula/parse.js';
import { columnLetters, sheetPrefix } from '../cell-address.js';
import type { StyleName } from '../look/styles.js';

/** What a line says of itself. */
export interface LineText {
  readonly label: string;
  readonly unit: string;
  readonly description: string;
}

const FIXED = { first: 0, last: 0 } as const;
const MOVING = { first: 1, last: 1 } as const;

/** A line item in one cell. */
export class Line {
  /** Without one, a cell that only holds a value. */
  is: Node | undefined;

  constructor(
    readonly place: CellPlace,
    readonly style: StyleName,
    readonly name?: string,
  ) {}

  get reference(): Reference {
    const { sheet, row, column } = this.place;
    const area = { sheet, firstRow: row, lastRow: row, firstColumn: column, lastColumn: column };
    return areaReference(area, this.name, [this]);
  }
}

/** A line item that fills a column: the same expression all the way down. */
export class Column {
  /** Without one, a column of values: typed, pasted, or constants of the shape. */
  is: Node | undefined;

  constructor(
    readonly sheet: string,
    readonly column: number,
    readonly firstRow: number,
    readonly rows: number,
    readonly style: StyleName,
    readonly text: LineText,
    readonly name?: string,
  ) {}

  get letters(): string {
    return columnLetters(this.column);
  }

  get lastRow(): number {
    return this.firstRow + this.rows - 1;
  }

  /** Cell by its place in the column, from 0; -1 is the one above the first. */
  cell(index: number): CellPlace {
    return { sheet: this.sheet, row: this.firstRow + index, column: this.column };
  }
}

/** What may stand in an expression: a column stands for its cell in the same row. */
export type Term = Line | Column | Reference | Node | number | string | boolean;

function partOf(term: Term): Node {
  if (typeof term === 'number') return { kind: 'number', value: term };
  if (typeof term === 'string') return { kind: 'text', value: term };
  if (typeof term === 'boolean') return { kind: 'boolean', value: term };
  if (term instanceof Line) return { kind: 'reference', reference: term.reference };
  if (term instanceof Column) return { kind: 'reference', reference: sameRow(term) };
  if ('kind' in term) return term;
  return { kind: 'reference', reference: term };
}

/**
 * An expression, written as a spreadsheet formula with terms in it.
 *
 * @example f`IF(${days.date}=0,0,SUM(${all(halfHours.importKwh)}))`
 */
export function f(text: TemplateStringsArray, ...terms: readonly Term[]): Node {
  const parts: Part[] = [];
  text.forEach((piece, i) => {
    if (piece !== '') parts.push(piece);
    const term = terms[i];
    if (term !== undefined) parts.push(partOf(term));
  });
  return parseFormula(parts);
}

/** Expressions joined by an operator: `joined('+', parts)`. */
export function joined(operator: '+' | '*' | '&', parts: readonly Node[]): Node {
  const [first, ...rest] = parts;
  if (first === undefined) return operator === '&' ? f`""` : f`0`;
  return rest.reduce<Node>((left, right) => ({ kind: 'binary', operator, left, right }), first);
}

/** A call with a list of arguments. */
export function call(name: string, args: readonly Term[]): Node {
  return { kind: 'call', name, args: args.map(partOf) };
}

/**
 * A part of a formula under a name of its own: cells found anew for every row, a value or an array. Shared formulas may hold
 * the name, whatever it stands for.
 *
 * @param name in plain words, one for each thing that is named
 * @param is what it stands for, seen from the row of the formula: its columns’ own row, or rows below
 */
export function named(name: string, is: Node): Node {
  return { kind: 'named', name, is };
}

/**
 * A part of a formula that is said of a column, under the column’s name with what is said after it: `price_of_day`.
 *
 * @throws RangeError where the column has no name
 */
export function namedOf({ name, text }: Column, what: string, is: Node): Node {
  if (name === undefined)
    throw new RangeError(`"${text.label}" has no name that its parts could be asked by`);
  return named(`${name}_${what}`, is);
}

/** The cell of a column of another sheet in the row that a term says, under a name. */
export function here(of: Column, row: Term): Node {
  return namedOf(of, 'here', f`INDEX(${all(of)},${row})`);
}

/**
 * Formulas of lines, which may be declared after they are first referred to. A column without one is typed; a line may
 * have one that is written as text elsewhere.
 */
function formulasOf(lines: readonly (Column | Line)[]): readonly Node[] | undefined {
  if (lines.some((line) => line instanceof Line && line.is === undefined)) return undefined;
  return lines.flatMap(({ is }) => (is === undefined ? [] : [is]));
}

/**
 * An area as a reference that stays where it is; by its name from other sheets.
 *
 * @param area the cells
 * @param name their defined name
 * @param lines lines whose cells they are
 */
export function areaReference(area: Area, name?: string, lines?: readonly (Column | Line)[]): Reference {
  const { sheet, firstRow, lastRow, firstColumn, lastColumn } = area;
  const from = `$${columnLetters(firstColumn)}$${firstRow}`;
  const to = `$${columnLetters(lastColumn)}$${lastRow}`;
  const own = from === to ? from : `${from}:${to}`;
  return {
    print: (home) => (home.sheet === sheet ? own : (name ?? `${sheetPrefix(sheet)}${own}`)),
    area: () => area,
    moves: FIXED,
    get formulas() {
      return lines === undefined ? undefined : formulasOf(lines);
    },
    ...(name === undefined ? {} : { name }),
  };
}

/** A whole column. */
export function all(column: Column): Reference {
  return stretch(column, 0, column.rows - 1, column.name);
}

/** Cells of a column by their places, from 0. */
export function stretch(column: Column, first: number, last: number, name?: string): Reference {
  return areaReference(
    {
      sheet: column.sheet,
      firstRow: column.firstRow + first,
      lastRow: column.firstRow + last,
      firstColumn: column.column,
      lastColumn: column.column,
    },
    name,
    [column],
  );
}

/** One cell of a column by its place, from 0. */
export function cellOf(column: Column, index: number): Reference {
  return stretch(column, index, index);
}

/** Columns or lines that stand beside one another, as one rectangle. */
export function across(terms: readonly (Column | Line)[], name?: string): Reference {
  const areas = terms.map((term) => (term instanceof Column ? all(term) : term.reference).area(anywhere));
  const [first] = areas;
  if (first === undefined) throw new RangeError('nothing to stand side by side');
  areas.forEach((area, i) => {
    if (area.firstColumn !== first.firstColumn + i || area.firstRow !== first.firstRow) {
      throw new RangeError(`the parts of ${name ?? first.sheet} do not stand side by side`);
    }
  });
  return areaReference({ ...first, lastColumn: first.firstColumn + terms.length - 1 }, name, terms);
}

const anywhere: CellPlace = { sheet: '', row: 1, column: 1 };

/** The cell of a column some rows further down (or up, below 0), seen from the row of the formula. */
export function rowsDown(column: Column, rows: number): Reference {
  return movingStretch(column, rows, rows);
}
/** The cell in the same row. */
export const sameRow = (column: Column): Reference => rowsDown(column, 0);
/** The cell one row up. */
export const up = (column: Column): Reference => rowsDown(column, -1);
/** The cell one row down. */
export const down = (column: Column): Reference => rowsDown(column, 1);

/** Cells of a column from so many rows down to so many, both seen from the row of the formula. */
export function movingStretch(column: Column, first: number, last: number): Reference {
  return beside([column], first, last);
}

/** Cells of neighbouring columns that move along with the row. */
export function beside(columns: readonly Column[], first = 0, last = first): Reference {
  const [left] = columns;
  const right = columns.at(-1);
  if (left === undefined || right === undefined) throw new RangeError('no columns');
  const from = `$${left.letters}`;
  const to = `$${right.letters}`;
  return {
    print: (home) => {
      if (home.row + first < 1) throw new RangeError(`${left.text.label} is asked for above the first row`);
      const prefix = home.sheet === left.sheet ? '' : sheetPrefix(left.sheet);
      const own = `${from}${home.row + first}`;
      const single = from === to && first === last;
      return `${prefix}${own}${single ? '' : `:${to}${home.row + last}`}`;
    },
    area: (home) => ({
      sheet: left.sheet,
      firstRow: home.row + first,
      lastRow: home.row + last,
      firstColumn: left.column,
      lastColumn: right.column,
    }),
    moves: MOVING,
    get formulas() {
      return formulasOf(columns);
    },
  };
}

/**
 * The stretch of a column that belongs to the row of the formula, where each row has as many cells as the others: the
 * first row has the first `rows` cells.
 */
export function blockOf(column: Column, rows: number, firstHomeRow: number): Reference {
  const firstRow = (home: CellPlace): number => column.firstRow + (home.row - firstHomeRow) * rows;
  return {
    print: (home) => {
      const first = firstRow(home);
      const own = `$${column.letters}$${first}:$${column.letters}$${first + rows - 1}`;
      return home.sheet === column.sheet ? own : `${sheetPrefix(column.sheet)}${own}`;
    },
    area: (home) => ({
      sheet: column.sheet,
      firstRow: firstRow(home),
      lastRow: firstRow(home) + rows - 1,
      firstColumn: column.column,
      lastColumn: column.column,
    }),
    moves: { first: rows, last: rows },
    get formulas() {
      return formulasOf([column]);
    },
  };
}
