/** A cell by sheet, row and column, both from 1. */
export interface CellPlace {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

/** A rectangle of cells. */
export interface Area {
  readonly sheet: string;
  readonly firstRow: number;
  readonly lastRow: number;
  readonly firstColumn: number;
  readonly lastColumn: number;
}

/** Something that a formula refers to: it knows how it is written, and which cells it is. */
export interface Reference {
  /** As it stands in the formula of a cell. */
  print(home: CellPlace): string;
  /** The cells it is, seen from the cell of the formula. */
  area(home: CellPlace): Area;
  /** Defined name that it is written by from other sheets, where it has one. */
  readonly name?: string;
  /** How many rows its first and last row move on for each row that a formula is filled down; 0 where they stay. */
  readonly moves: { readonly first: number; readonly last: number };
  /** Formulas of the lines whose cells it is, none where they are typed; undefined where they are not known. */
  readonly formulas?: readonly Node[] | undefined;
}

export type BinaryOperator = '+' | '-' | '*' | '/' | '^' | '&' | '=' | '<>' | '<' | '>' | '<=' | '>=';

/**
 * Part of a formula that has a defined name of its own, and is written by it: cells that are found anew for every row, such
 * as the half-hours of the day of the row, a value or an array.
 */
export interface Named {
  readonly kind: 'named';
  readonly name: string;
  readonly is: Node;
}

/** A formula, taken apart. */
export type Node =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'text'; readonly value: string }
  | { readonly kind: 'boolean'; readonly value: boolean }
  | { readonly kind: 'missing' }
  | { readonly kind: 'reference'; readonly reference: Reference }
  | { readonly kind: 'range'; readonly from: Node; readonly to: Node }
  | Named
  | { readonly kind: 'call'; readonly name: string; readonly args: readonly Node[] }
  | { readonly kind: 'unary'; readonly operator: '-' | '+'; readonly operand: Node }
  | {
      readonly kind: 'binary';
      readonly operator: BinaryOperator;
      readonly left: Node;
      readonly right: Node;
    };

/** Every reference in a formula. */
export function* referencesIn(node: Node): Generator<Reference> {
  switch (node.kind) {
    case 'reference':
      yield node.reference;
      break;
    default:
      for (const part of partsOf(node)) yield* referencesIn(part);
  }
}

/** Every part of a formula that has a name of its own, and those within it. */
export function* namedIn(node: Node): Generator<Named> {
  if (node.kind === 'named') yield node;
  for (const part of partsOf(node)) yield* namedIn(part);
}

/** What a formula is put together from, one level down. */
function partsOf(node: Node): readonly Node[] {
  switch (node.kind) {
    case 'range':
      return [node.from, node.to];
    case 'named':
      return [node.is];
    case 'call':
      return node.args;
    case 'unary':
      return [node.operand];
    case 'binary':
      return [node.left, node.right];
    default:
      return [];
  }
}
