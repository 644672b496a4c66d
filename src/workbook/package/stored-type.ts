import type { CellError } from './cell-value.js';
import { CellType } from './sheet-scanner.js';

/** Shortest text that reads back as the same double; minus zero is written as zero. */
export function numberText(value: number): string {
  return String(value).replace('e', 'E');
}

/** How a typed value is stored: a text stands in the cell itself. */
export function inputType(value: number | string | boolean): CellType {
  if (typeof value === 'string') return CellType.inline;
  return typeof value === 'boolean' ? CellType.boolean : CellType.number;
}

/** How a formula's result is stored. */
export function cachedType(value: number | string | boolean | CellError): CellType {
  if (typeof value === 'number') return CellType.number;
  if (typeof value === 'string') return CellType.text;
  return typeof value === 'boolean' ? CellType.boolean : CellType.error;
}

/** The attribute that says how a value is stored; numbers need none. */
export function typeAttribute(type: CellType): string {
  switch (type) {
    case CellType.text:
      return ' t="str"';
    case CellType.inline:
      return ' t="inlineStr"';
    case CellType.boolean:
      return ' t="b"';
    case CellType.error:
      return ' t="e"';
    default:
      return '';
  }
}
