import type { InputTerms } from '../sheets/input-terms.js';
import { type Shape, shapeOf } from '../sheets/shape.js';
import { type Workings, workings } from '../sheets/workings.js';
import { inputTerms } from './input-terms.js';

/** What every sheet is declared with: how much the workbook holds, its inputs, and the lines between. */
export interface Book {
  shape: Shape;
  inputs: InputTerms;
  workings: Workings;
}

/**
 * Declares inputs and workings of a workbook.
 *
 * @param days calendar days that it holds
 */
export function declareBook(days: number): Book {
  return bookOf(shapeOf(days));
}

/** The same for a shape. */
export function bookOf(shape: Shape): Book {
  const inputs = inputTerms(shape);
  return { shape, inputs, workings: workings(inputs, shape) };
}
