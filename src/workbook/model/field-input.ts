import type { CellValue } from '../fields/cell-value.js';
import type { Field } from '../fields/field.js';
import { input } from './cells.js';
import type { InputCell } from './sheet-model.js';

/** The cell of an input field. */
export function fieldInput(field: Field, value: CellValue): InputCell {
  const { style, comment, name } = field.spec;
  return input(field.at, value, style, field.rule, {
    ...(name === undefined ? {} : { name }),
    ...(comment === undefined ? {} : { comment }),
  });
}
