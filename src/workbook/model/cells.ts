import type { Node } from '../../formula/nodes.js';
import type { StyleName } from '../look/styles.js';
import { CELL } from './columns.js';
import type { Cell, CellValue, FormulaCell, InputCell, InputRule, LabelCell } from './sheet-model.js';

/** Marks in a label that stand for the user's currency: `{major}` pounds, `{minor}` pence. */
const UNIT_MARK = /\{(major|minor)\}/;

/** A label; one that speaks of money takes the currency from *Tariffs*, so it is a formula. */
export function label(at: string, value: CellValue, style: StyleName, more: Partial<LabelCell> = {}): Cell {
  if (typeof value === 'string' && UNIT_MARK.test(value)) {
    return {
      kind: 'formula',
      at,
      formula: unitFormula(value),
      style,
      ...(more.mergeTo === undefined ? {} : { mergeTo: more.mergeTo }),
    };
  }
  return { kind: 'label', at, value, style, ...more };
}

export function input(
  at: string,
  value: CellValue,
  style: StyleName,
  rule?: InputRule,
  more: Partial<InputCell> = {},
): InputCell {
  return { kind: 'input', at, value, style, ...(rule === undefined ? {} : { rule }), ...more };
}

export function formula(
  at: string,
  is: Node | string,
  style: StyleName,
  more: Partial<FormulaCell> = {},
): FormulaCell {
  return { kind: 'formula', at, formula: is, style, ...more };
}

/** Address of the cell with a defined name, among cells of a sheet. */
export function cellNamed(cells: readonly Cell[], name: string): string {
  const found = cells.find((cell) => 'name' in cell && cell.name === name);
  if (found === undefined) throw new RangeError(`no cell is called ${name}`);
  return found.at;
}

/** A text literal of a formula. */
export function quoted(text: string): string {
  return `"${text.replaceAll('"', '""')}"`;
}

/** `all-in, {minor}/kWh` as a formula that takes the unit words from *Tariffs*. */
export function unitFormula(text: string): string {
  return text
    .split(/(\{major\}|\{minor\})/)
    .filter((part) => part !== '')
    .map((part) => (part === '{major}' ? CELL.currency : part === '{minor}' ? CELL.minorUnit : quoted(part)))
    .join('&');
}

/** Whether a text holds a currency mark. */
export function speaksOfMoney(text: string): boolean {
  return UNIT_MARK.test(text);
}
