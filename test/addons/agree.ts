import { expect } from 'vitest';
import type { CellScalar } from '../../src/functions/described-function.js';
import { numbersAgree } from '../engines/compare-cells.js';

/** Whether a cell holds a value: numbers to rounding, yes or no also as 1 or 0, a blank also as an empty text. */
export function agree(found: CellScalar | undefined, expected: unknown): boolean {
  const wanted =
    typeof expected === 'boolean' && typeof found === 'number' ? Number(expected) : (expected ?? '');
  if (typeof found === 'number' && typeof wanted === 'number')
    return numbersAgree(found, wanted, 1e-9, 1e-12);
  return (found ?? '') === wanted;
}

/** Fails where a value or rows of values are not those expected. */
export function expectCells(found: unknown, expected: unknown): void {
  const flat = (value: unknown) => (Array.isArray(value) ? value.flat() : [value]);
  expect(flat(found)).toHaveLength(flat(expected).length);
  flat(expected).forEach((value, index) => {
    expect(agree(flat(found)[index], value), `${flat(found)[index]}, not ${value}`).toBe(true);
  });
}
