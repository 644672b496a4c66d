import type { Reference } from '../../formula/nodes.js';
import { all, Column, Line } from '../book/terms.js';

/**
 * How a term reads in the formula of another sheet: by its defined name, or by its place. A column is all of it.
 *
 * @example ref(workings.months.start) // 'month_start'
 */
export function ref(term: Line | Column | Reference): string {
  const reference = term instanceof Line ? term.reference : term instanceof Column ? all(term) : term;
  return reference.print({ sheet: '', row: 1, column: 1 });
}
