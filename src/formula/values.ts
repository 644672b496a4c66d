/** An error value of a spreadsheet, such as `#N/A`. */
export class FormulaError {
  private constructor(readonly code: string) {}

  static readonly value = new FormulaError('#VALUE!');
  static readonly notAvailable = new FormulaError('#N/A');
  static readonly divisionByZero = new FormulaError('#DIV/0!');
  static readonly reference = new FormulaError('#REF!');
  static readonly number = new FormulaError('#NUM!');

  toString(): string {
    return this.code;
  }
}

/** What a cell holds; null is a blank cell. */
export type Value = number | string | boolean | null | FormulaError;

/** A value as a number: blanks are 0, TRUE is 1, text is `#VALUE!` even where it looks like a number. */
export function toNumber(value: Value): number | FormulaError {
  if (typeof value === 'number') return value;
  if (value === null) return 0;
  if (typeof value === 'boolean') return value ? 1 : 0;
  return value instanceof FormulaError ? value : FormulaError.value;
}

/** A value as text: blanks are empty, numbers as short as they can be. */
export function toText(value: Value): string | FormulaError {
  if (typeof value === 'string' || value instanceof FormulaError) return value;
  if (value === null) return '';
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  return String(value);
}

/** A value as a condition: 0 and blanks are false, text is `#VALUE!`. */
export function toCondition(value: Value): boolean | FormulaError {
  if (typeof value === 'boolean') return value;
  const number = toNumber(value);
  return number instanceof FormulaError ? number : number !== 0;
}

/**
 * Order of two values: numbers before text before TRUE and FALSE, text without regard to case; a blank is what it is
 * compared with would be if it were empty.
 *
 * @returns below, equal to or above 0
 */
export function compareValues(
  left: Exclude<Value, FormulaError>,
  right: Exclude<Value, FormulaError>,
): number {
  const a = left ?? emptyLike(right);
  const b = right ?? emptyLike(left);
  if (typeof a === 'number' && typeof b === 'number') return a - b;
  const kinds = rankOf(a) - rankOf(b);
  if (kinds !== 0) return kinds;
  if (typeof a === 'string' && typeof b === 'string') {
    const [x, y] = [a.toUpperCase(), b.toUpperCase()];
    return x < y ? -1 : x > y ? 1 : 0;
  }
  return Number(a) - Number(b);
}

function emptyLike(other: Exclude<Value, FormulaError>): number | string | boolean {
  return typeof other === 'string' ? '' : typeof other === 'boolean' ? false : 0;
}

function rankOf(value: number | string | boolean): number {
  return typeof value === 'number' ? 0 : typeof value === 'string' ? 1 : 2;
}
