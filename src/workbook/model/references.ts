import type { Node, Reference } from '../../formula/nodes.js';
import { printFormula } from '../../formula/print.js';
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

/** An expression as text, to be put into a formula that is one: its references name their sheets. */
export function textOf(node: Node): string {
  return printFormula(node, { sheet: '', row: 1, column: 1 });
}
