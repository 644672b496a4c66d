/** A value as a spreadsheet cell holds it; blank is null; times and dates are serial days. */
export type CellScalar = number | string | boolean | null;
/** An argument: one cell, or a range as rows of cells. */
export type CellArgument = CellScalar | readonly (readonly CellScalar[])[];

export type ArgumentKind = 'number' | 'text' | 'yesNo' | 'time' | 'date' | 'dateTime';

export interface ColumnDescription {
  name: string;
  unit: string;
  kind: ArgumentKind;
  /** May be blank in a row where other columns are not. */
  optional?: boolean;
}

export interface ArgumentDescription {
  /** camelCase, unit in the name where it has one, for example `unitRatePence`. */
  name: string;
  /** Unit in words: `p/kWh`, `kWh`, `£`, `share 0–1`, `days`; `none` for names and flags. */
  unit: string;
  kind: ArgumentKind;
  /** `cell`: one value; `column`: a range of one column; `table`: several columns, named in `columns`. */
  shape: 'cell' | 'column' | 'table';
  /** Columns of a table in order, each with its unit. */
  columns?: readonly ColumnDescription[];
  optional?: boolean;
  description: string;
}

/**
 * One public function in its two faces, with the one description from which notes, documentation and
 * custom functions are made.
 */
export interface DescribedFunction {
  /** Name of the exported library function. */
  name: string;
  /** Name in a cell, upper case with underscores. */
  cellName: string;
  category: 'time' | 'rates' | 'charges' | 'shares' | 'break-even' | 'heating' | 'battery' | 'timers';
  /** One sentence. */
  summary: string;
  arguments: readonly ArgumentDescription[];
  result: { unit: string; shape: 'cell' | 'column' | 'table'; description: string };
  /** Published source, or `common practice, no source`, or `arithmetic`. */
  source: string;
  /** A worked example: arguments as cells hold them, and the value to expect. */
  example: { arguments: readonly CellArgument[]; result: CellScalar | readonly (readonly CellScalar[])[] };
  /**
   * The library's computation on cell values.
   * @throws InputError naming the argument when one can't be used
   */
  compute: (args: readonly CellArgument[]) => CellScalar | readonly (readonly CellScalar[])[];
  /**
   * The native spreadsheet formula, without `=`, given a reference or literal per argument; absent where no native
   * formula can say it. A method, so that a function may name the references it can't do without:
   * `([kwh, days]: readonly [string, ...string[]]) => …`.
   */
  formula?(references: readonly string[]): string;
}
