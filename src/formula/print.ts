import type { BinaryOperator, CellPlace, Node } from './nodes.js';

/** How tightly an operator binds; a tighter one needs no brackets inside a looser one. */
const TIGHTNESS: Record<BinaryOperator, number> = {
  '=': 1,
  '<>': 1,
  '<': 1,
  '>': 1,
  '<=': 1,
  '>=': 1,
  '&': 2,
  '+': 3,
  '-': 3,
  '*': 4,
  '/': 4,
  '^': 5,
};
const UNARY = 6;
const PRIMARY = 7;

/**
 * A formula as it stands in a cell, without `=`.
 *
 * @param node the formula
 * @param home the cell it stands in
 * @returns text with as few brackets as keep its meaning
 */
export function printFormula(node: Node, home: CellPlace): string {
  return print(node, home, 0);
}

function print(node: Node, home: CellPlace, tightness: number): string {
  switch (node.kind) {
    case 'number':
      return node.value < 0 ? bracketed(numberText(node.value), UNARY, tightness) : numberText(node.value);
    case 'text':
      return `"${node.value.replaceAll('"', '""')}"`;
    case 'boolean':
      return node.value ? 'TRUE' : 'FALSE';
    case 'missing':
      return '';
    case 'reference':
      return node.reference.print(home);
    case 'named':
      return node.name;
    case 'range':
      return `${print(node.from, home, PRIMARY)}:${print(node.to, home, PRIMARY)}`;
    case 'call':
      return `${node.name}(${node.args.map((arg) => print(arg, home, 0)).join(',')})`;
    case 'unary':
      return bracketed(`${node.operator}${print(node.operand, home, UNARY)}`, UNARY, tightness);
    case 'binary': {
      const own = TIGHTNESS[node.operator];
      const left = print(node.left, home, own);
      const right = print(node.right, home, own + 1);
      return bracketed(`${left}${node.operator}${right}`, own, tightness);
    }
  }
}

function bracketed(text: string, own: number, asked: number): string {
  return own < asked ? `(${text})` : text;
}

/** `1E-9`, not `1e-9`: as spreadsheet programs write it. */
function numberText(value: number): string {
  return String(value).replace('e', 'E');
}
