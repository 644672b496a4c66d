import type { Node } from './nodes.js';

/** Which arguments of a function are handed on as its result. */
const HANDED_ON: Readonly<Record<string, (args: readonly Node[]) => readonly Node[]>> = {
  IF: (args) => args.slice(1),
  CHOOSE: (args) => args.slice(1),
  IFERROR: (args) => args,
  INDEX: (args) => args.slice(0, 1),
};

/**
 * Whether a formula may say nothing: give an empty text, as `IF(A1="","",A1*2)` does, or `NA()`; itself, or because a line
 * whose value it hands on does, or may for all that is known. Errors that no formula gives on purpose are not asked for.
 *
 * @param node the formula
 * @param seen lines that were looked at, which may look at themselves
 * @returns true where its result may be such
 */
export function saysNothing(node: Node, seen: Set<Node> = new Set()): boolean {
  const any = (nodes: readonly Node[]): boolean => nodes.some((part) => saysNothing(part, seen));
  switch (node.kind) {
    case 'text':
      return node.value === '';
    case 'named':
      return any([node.is]);
    case 'range':
      return any([node.from, node.to]);
    case 'binary':
      // Each side looks for itself: what one says nothing by, the other may too.
      return (
        node.operator === '&' && [node.left, node.right].every((side) => saysNothing(side, new Set(seen)))
      );
    case 'call':
      return node.name === 'NA' || any(HANDED_ON[node.name]?.(node.args) ?? []);
    case 'reference': {
      const { formulas } = node.reference;
      if (formulas === undefined) return true;
      const unseen = formulas.filter((formula) => !seen.has(formula));
      for (const formula of unseen) seen.add(formula);
      return any(unseen);
    }
    default:
      return false;
  }
}
