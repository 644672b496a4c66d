import type { CellPlace, Node } from '../../formula/nodes.js';
import { printFormula } from '../../formula/print.js';
import { f, Line } from '../book/terms.js';
import { cellAt } from '../cell-address.js';
import type { StyleName } from '../look/styles.js';
import type { CellValue, InputRule } from './cell-value.js';
import { isOutside, type Limits, type NumberLimits, USUAL_DAYS_OF_DATES } from './limits.js';

/** What an input field is, before it has a place. */
export interface FieldText {
  readonly label: string;
  readonly unit: string;
  readonly style: StyleName;
  /** Title of the help beside the cell, at most 32 characters; by default the label. */
  readonly title?: string;
  /** Help beside the cell, at most 255 characters. */
  readonly hint: string;
  /** A remark on what people get wrong. */
  readonly comment?: string;
  /** What the cell holds, in the words of a refusal: `the base rate`. */
  readonly what?: string;
  /** What to do where it can't be used; by default made from the limits. */
  readonly toDo?: string;
  /** Defined name. */
  readonly name?: string;
}

/** What an input field is, and what it may hold. */
export interface FieldSpec extends FieldText {
  readonly limits: Limits;
  readonly mayBeBlank: boolean;
}

type Spec<More> = FieldText & More & { readonly mayBeBlank?: boolean };

/** A number between bounds. */
export function numberField({
  from,
  above,
  to,
  below,
  ...text
}: Spec<Omit<NumberLimits, 'kind'>>): FieldSpec {
  const limits = {
    kind: 'number' as const,
    ...(from === undefined ? {} : { from }),
    ...(above === undefined ? {} : { above }),
    ...(to === undefined ? {} : { to }),
    ...(below === undefined ? {} : { below }),
  };
  return { mayBeBlank: false, ...text, limits };
}

/** One of some words. */
export function choiceField({ choices, ...text }: Spec<{ choices: readonly string[] }>): FieldSpec {
  return { mayBeBlank: false, ...text, limits: { kind: 'choice', choices } };
}

/** One of the names in some cells. */
export function listedField({
  list,
  blankMeans,
  ...text
}: Spec<Omit<Limits & { kind: 'listed' }, 'kind'>>): FieldSpec {
  const limits = { kind: 'listed' as const, list, ...(blankMeans === undefined ? {} : { blankMeans }) };
  return { mayBeBlank: false, ...text, limits };
}

/** A day of the years that the workbook knows; `whole` where no time of day may stand with it. */
export function dateField({ whole = false, ...text }: Spec<{ whole?: boolean }>): FieldSpec {
  return { mayBeBlank: false, ...text, limits: { kind: 'date', ...USUAL_DAYS_OF_DATES, whole } };
}

/** A time of day on the half-hour. */
export function timeField({ mayBeMidnightAfter, ...text }: Spec<{ mayBeMidnightAfter: boolean }>): FieldSpec {
  return { mayBeBlank: false, ...text, limits: { kind: 'time', mayBeMidnightAfter } };
}

/** Some text; `any` where a number will do. */
export function textField({ any = false, ...text }: Spec<{ any?: boolean }>): FieldSpec {
  return { mayBeBlank: false, ...text, limits: { kind: any ? 'any' : 'text' } };
}

/** An input field in its cell: everything that the workbook and the fill know of it. */
export class Field {
  readonly cell: Line;

  constructor(
    readonly spec: FieldSpec,
    place: CellPlace,
  ) {
    this.cell = new Line(place, spec.style, spec.name);
  }

  /** Its cell, as `C6`. */
  get at(): string {
    return cellAt(this.cell.place.column, this.cell.place.row);
  }

  /** Whether what it holds can't be used, as a formula that gives 1 or 0. */
  get isOutside(): Node {
    return isOutside(this.spec.limits, this.spec.mayBeBlank, this.cell);
  }

  /** What a spreadsheet program lets be typed, with its help. */
  get rule(): InputRule {
    const { limits, hint, label, title = label } = this.spec;
    const told = { title, message: hint };
    switch (limits.kind) {
      case 'choice':
        return { kind: 'list', choices: limits.choices, ...told };
      case 'listed':
        return { kind: 'list', choices: limits.list.print({ sheet: '', row: 1, column: 1 }), ...told };
      case 'text':
      case 'any':
        return { kind: 'any', ...told };
      case 'number': {
        const { from, to } = limits;
        if (from === undefined || to === undefined) break;
        return { kind: 'number', minimum: from, maximum: to, ...told };
      }
      case 'date':
        if (limits.whole) break;
        return { kind: 'date', minimum: limits.from, maximum: limits.to, ...told };
    }
    const formula = printFormula(f`${isOutside(limits, true, this.cell)}=0`, this.cell.place);
    return { kind: 'formula', formula, ...told };
  }
}

/** Fields in any arrangement of records and lists; `undefined` where a cell of the arrangement is not there. */
export type FieldTree = Field | undefined | readonly FieldTree[] | { readonly [key: string]: FieldTree };

/** The same arrangement of something else. */
export type Arranged<T, Leaf, Absent = Leaf> = T extends Field
  ? Leaf
  : T extends undefined
    ? Absent
    : T extends readonly (infer Item)[]
      ? Arranged<Item, Leaf, Absent>[]
      : { -readonly [Key in keyof T]: Arranged<T[Key], Leaf, Absent> };

/** What the cells of fields hold, in the same arrangement; null where a cell is not there. */
export type CellsOf<T> = Arranged<T, CellValue>;

/**
 * Something of every field, in the same arrangement.
 *
 * @param tree the fields
 * @param of what to take of each
 * @param absent what to take where a cell is not there
 */
export function ofFields<T, Leaf, Absent>(
  tree: T,
  of: (field: Field) => Leaf,
  absent: Absent,
): Arranged<T, Leaf, Absent> {
  const map = (part: unknown): unknown => {
    if (part instanceof Field) return of(part);
    if (part === undefined) return absent;
    if (Array.isArray(part)) return part.map(map);
    return Object.fromEntries(Object.entries(part as object).map(([key, value]) => [key, map(value)]));
  };
  return map(tree) as Arranged<T, Leaf, Absent>;
}

/** Every field with what of the same arrangement belongs to it, in the order of their declaration. */
export function fieldPairs<T>(tree: T, cells: CellsOf<T>): [field: Field, value: CellValue][] {
  const walk = (part: unknown, value: unknown): [Field, CellValue][] => {
    if (part instanceof Field) return [[part, (value ?? null) as CellValue]];
    if (part === undefined) return [];
    return Object.entries(part as object).flatMap(([key, item]) =>
      walk(item, (value as Record<string, unknown>)[key]),
    );
  };
  return walk(tree, cells);
}

/** Every field, in the order of their declaration. */
export function listFields(tree: FieldTree): Field[] {
  if (tree instanceof Field) return [tree];
  if (tree === undefined) return [];
  return Object.values(tree).flatMap(listFields);
}

/**
 * Fields one below the other, each in the next row.
 *
 * @param first where the first stands
 * @param specs the fields by key, in the order of their rows
 */
export function fieldsDown<Key extends string>(
  first: CellPlace,
  specs: Readonly<Record<Key, FieldSpec>>,
): Readonly<Record<Key, Field>> {
  const { sheet, row, column } = first;
  return Object.fromEntries(
    Object.entries<FieldSpec>(specs).map(([key, spec], i) => [
      key,
      new Field(spec, { sheet, row: row + i, column }),
    ]),
  ) as Record<Key, Field>;
}

/** Fields side by side, each in the next column. */
export function fieldsAcross<Key extends string>(
  first: CellPlace,
  specs: Readonly<Record<Key, FieldSpec>>,
): Readonly<Record<Key, Field>> {
  const { sheet, row, column } = first;
  return Object.fromEntries(
    Object.entries<FieldSpec>(specs).map(([key, spec], i) => [
      key,
      new Field(spec, { sheet, row, column: column + i }),
    ]),
  ) as Record<Key, Field>;
}
