/** An error value of a cell, for example `#N/A`. */
export class CellError {
  constructor(
    /** The error as a spreadsheet writes it, for example `#DIV/0!`. */
    readonly code: string,
  ) {}

  toString(): string {
    return this.code;
  }
}

/** What a cell shows: a number (dates are serials), a text, true or false, an error, or nothing (`null`). */
export type CellValue = number | string | boolean | CellError | null;

/** Answer of a cached-value callback: take the stored result of this formula away, so that it is calculated on load. */
export const DROP: unique symbol = Symbol('drop the cached value');

/** The stored result of a formula: a value, or {@link DROP}, or `undefined` to leave it as it is. */
export type CachedValue = number | string | boolean | CellError | typeof DROP | undefined;

/** What is typed in a cell: `null` empties it, `undefined` leaves it as it is. */
export type InputValue = number | string | boolean | null | undefined;
