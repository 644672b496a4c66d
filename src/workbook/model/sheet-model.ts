import type { Node } from '../../formula/nodes.js';
import type { CellValue, InputRule } from '../fields/cell-value.js';
import type { SheetName } from '../layout.js';
import type { StyleName } from '../look/styles.js';
import type { CellError } from '../package/index.js';

export type { CellValue, InputRule };
/** What a formula gives: a value, or an error value such as `#N/A`, which leaves a gap in a chart. */
export type FormulaValue = CellValue | CellError;

/** A text or number that stays as it is. */
export interface LabelCell {
  kind: 'label';
  at: string;
  value: CellValue;
  style: StyleName;
  /** Address of a cell in this workbook to jump to. */
  link?: string;
  /** Last cell of a merged block. */
  mergeTo?: string;
}

/** A cell the user fills in. */
export interface InputCell {
  kind: 'input';
  at: string;
  /** Starting value of the template. */
  value: CellValue;
  style: StyleName;
  rule?: InputRule;
  comment?: string;
  /** Defined name, in plain words. */
  name?: string;
  mergeTo?: string;
}

/** A line item: its formula is its only declaration, the value that is stored beside it is worked out from it. */
export interface FormulaCell {
  kind: 'formula';
  at: string;
  /** An expression, or its text without the leading `=`. */
  formula: Node | string;
  style: StyleName;
  name?: string;
  mergeTo?: string;
}

export type Cell = LabelCell | InputCell | FormulaCell;

/** A line item that fills a column, one formula all the way down. */
export interface FormulaColumn {
  /** Column letters. */
  letters: string;
  firstRow: number;
  rows: number;
  label: string;
  unit: string;
  description: string;
  /** An expression for the first row, which moves along; or the text of a row's formula, without `=`. */
  formula: Node | ((row: number) => string);
  style: StyleName;
  /** Defined name of the whole column, in plain words. */
  name?: string;
}

/** Columns that the user pastes into and the fill writes. */
export interface InputColumn {
  letters: string;
  firstRow: number;
  rows: number;
  style: StyleName;
  rule?: InputRule;
  /** Defined name of the whole column. */
  name?: string;
}

/** Values that stay, down a column. */
export interface ValueColumn {
  letters: string;
  firstRow: number;
  values: ArrayLike<number | string>;
  style: StyleName;
  /** Defined name of the whole column. */
  name?: string;
}

export interface ConditionalStyle {
  range: string;
  /** Formula relative to the first cell of the range. */
  formula: string;
  style: 'bad' | 'good' | 'quiet' | 'best';
}

/** Cells coloured by their value, from the least to the most; text stays as it is. */
export interface ColourScale {
  range: string;
  most: 'import' | 'export';
}

export interface SheetModel {
  name: SheetName;
  tab: 'answer' | 'input' | 'workings' | 'notes';
  /** Widths by column letters, in characters. */
  widths: Readonly<Record<string, number>>;
  heights?: Readonly<Record<number, number>>;
  freeze?: { columns: number; rows: number };
  protected: boolean;
  /** A range, or several with `&&` between them. */
  printArea?: string;
  printTitleRows?: string;
  landscape: boolean;
  cells: readonly Cell[];
  formulaColumns: readonly FormulaColumn[];
  inputColumns: readonly InputColumn[];
  valueColumns?: readonly ValueColumn[];
  conditional: readonly ConditionalStyle[];
  colourScales?: readonly ColourScale[];
  /** Cells of this sheet to select at once by a defined name: ranges by name. No formula looks at them. */
  selections?: Readonly<Record<string, readonly string[]>>;
}
