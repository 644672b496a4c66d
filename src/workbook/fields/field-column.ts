import type { Fault } from '../../errors.js';
import type { CellPlace, Node } from '../../formula/nodes.js';
import { Column } from '../book/terms.js';
import { Field, type FieldSpec } from './field.js';
import { isOutside } from './limits.js';
import type { Refusal } from './refusal.js';
import { limitRule, type Rule, type TypedCells } from './rule.js';

/** An input field in every row of a table: declared once, and so are its limits. */
export class FieldColumn {
  /** As a term: the cell in the same row. */
  readonly column: Column;

  constructor(
    readonly spec: FieldSpec,
    { sheet, row, column }: CellPlace,
    rows: number,
  ) {
    const { label, unit, hint, style, name } = spec;
    this.column = new Column(sheet, column, row, rows, style, { label, unit, description: hint }, name);
  }

  get letters(): string {
    return this.column.letters;
  }

  /** Whether what a cell of it holds can't be used: 1 or 0, in every row. */
  get isOutside(): Node {
    return isOutside(this.spec.limits, this.spec.mayBeBlank, this.column);
  }

  /** The field in a row, from 0. */
  field(row: number): Field {
    return new Field(this.spec, this.column.cell(row));
  }
}

export type FieldColumns<Key extends string> = Readonly<Record<Key, FieldColumn>>;

/**
 * Fields side by side in every row of a table.
 *
 * @param first where the first stands in the first row
 * @param rows how many rows
 * @param specs the fields by key, in the order of their columns
 */
export function fieldColumns<Key extends string>(
  first: CellPlace,
  rows: number,
  specs: Readonly<Record<Key, FieldSpec>>,
): FieldColumns<Key> {
  return Object.fromEntries(
    Object.entries<FieldSpec>(specs).map(([key, spec], i) => [
      key,
      new FieldColumn(spec, { ...first, column: first.column + i }, rows),
    ]),
  ) as FieldColumns<Key>;
}

/** The fields of every row of a table. */
export function fieldRows<Key extends string>(
  columns: FieldColumns<Key>,
): readonly Readonly<Record<Key, Field>>[] {
  const entries = Object.entries<FieldColumn>(columns);
  return Array.from(
    { length: entries[0]?.[1].column.rows ?? 0 },
    (_, row) =>
      Object.fromEntries(entries.map(([key, column]) => [key, column.field(row)])) as Record<Key, Field>,
  );
}

/** Something that every row of a table has to keep to; a refusal names the row's cell of `of`. */
export interface RowRule {
  readonly of: FieldColumn;
  /** 0 in a row that keeps to it. */
  readonly is: Node;
  /** By default that of the field's limits. */
  readonly refusal?: Refusal;
}

/** That a field keeps to its limits in every row. */
export function limitOfRows(of: FieldColumn): RowRule {
  return { of, is: of.isOutside };
}

/**
 * Rules of a table, in a row of it.
 *
 * @param rules what every row has to keep to
 * @param row from 0
 */
function rulesOfRow(rules: readonly RowRule[], row: number): Rule[] {
  return rules.map(({ of, is, refusal }) => {
    // The limits of the row's own field are looked up for a refusal alone: there are thousands of rows that keep to them.
    return {
      at: of.column.cell(row),
      is,
      refusal: (typed) => refusal ?? limitRule(of.field(row)).refusal(typed),
    };
  });
}

/**
 * What breaks the rules of a table, in the rows in which something stands.
 *
 * @param rows what the rows hold
 * @param rules what every row has to keep to, in the order in which they are looked at
 * @param typed every input in its cell
 * @param file name of the workbook, for messages
 * @returns a fault for each that is not kept, row by row
 */
export function faultsOfRows(
  rows: readonly object[],
  rules: readonly RowRule[],
  typed: TypedCells,
  file: string,
): Fault[] {
  return rows.flatMap((cells, row) =>
    Object.values(cells).every((cell) => cell === null) ? [] : typed.faultsOf(rulesOfRow(rules, row), file),
  );
}
