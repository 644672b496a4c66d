import type { Fault } from '../../errors.js';
import { compileFormula } from '../../formula/compile.js';
import { Grid } from '../../formula/grid.js';
import type { CellPlace, Node, Reference } from '../../formula/nodes.js';
import { f, joined, type Line } from '../book/terms.js';
import { cellAt } from '../cell-address.js';
import type { CellValue } from './cell-value.js';
import { type CellsOf, type Field, fieldPairs, ofFields } from './field.js';
import { type Refusal, refusalOf } from './refusal.js';

/**
 * Something that inputs have to keep to. Its formula is its only declaration: the workbook shows it as a flag, the fill
 * works it out and refuses where the flag would show.
 */
export interface Rule {
  /** The cell that a refusal names. */
  readonly at: CellPlace;
  /** 0 where the rule is kept. */
  readonly is: Node;
  readonly refusal: (typed: TypedCells) => Refusal;
}

/** That a field keeps to its limits, where they count. */
export function limitRule(field: Field, counts?: Node): Rule {
  const { spec, cell } = field;
  return {
    at: cell.place,
    is: counts === undefined ? field.isOutside : f`IF(${counts},${field.isOutside},0)`,
    refusal: (typed) =>
      refusalOf(field, typed.of(cell), spec.limits.kind === 'listed' ? typed.texts(spec.limits.list) : []),
  };
}

/** How many rules are broken. */
export function brokenIn(rules: readonly Pick<Rule, 'is'>[]): Node {
  return joined(
    '+',
    rules.map(({ is }) => is),
  );
}

/** What stands in the cells of fields. */
export class TypedCells {
  private readonly grid = new Grid();

  /** Puts what the cells hold in their places. */
  put<T>(fields: T, cells: CellsOf<T>): this {
    for (const [{ cell }, value] of fieldPairs(fields, cells)) {
      const { sheet, row, column } = cell.place;
      if (value !== null && value !== '') this.grid.column(sheet, column).setValue(row, value);
    }
    return this;
  }

  /** What a cell holds. */
  of({ place }: Line): CellValue {
    return this.grid.value(place) as CellValue;
  }

  /** The texts in some cells, without blanks. */
  texts(list: Reference): string[] {
    const { sheet, firstRow, lastRow, firstColumn, lastColumn } = list.area({ sheet: '', row: 1, column: 1 });
    const found: string[] = [];
    for (let row = firstRow; row <= lastRow; row++) {
      for (let column = firstColumn; column <= lastColumn; column++) {
        const value = this.grid.value({ sheet, row, column });
        if (value !== null) found.push(String(value));
      }
    }
    return found;
  }

  /** Whether a rule is kept. */
  keeps({ is, at }: Rule): boolean {
    return compileFormula(is, at, this.grid)(at.row) === 0;
  }

  /**
   * What breaks rules.
   *
   * @param rules in the order in which they are looked at
   * @param file name of the workbook, for messages
   * @returns a fault for each that is not kept; none where all are
   */
  faultsOf(rules: readonly Rule[], file: string): Fault[] {
    return rules
      .filter((rule) => !this.keeps(rule))
      .map((rule) => {
        const { sheet, row, column } = rule.at;
        return { ...rule.refusal(this), place: { file, line: `${sheet}!${cellAt(column, row)}` } };
      });
  }
}

/** Cells of fields that hold nothing. */
export function blankCells<T>(fields: T): CellsOf<T> {
  return ofFields(fields, (): CellValue => null, null as CellValue) as CellsOf<T>;
}

/** Reads the cells of fields. */
export function readFields<T>(fields: T, read: (at: string) => CellValue): CellsOf<T> {
  return ofFields(fields, (field) => read(field.at), null as CellValue) as CellsOf<T>;
}
