import { columnLetters } from '../cell-address.js';
import { fieldPairs } from '../fields/field.js';
import { HOME_FIELDS } from '../fields/home-fields.js';
import type { HomeCells } from '../inputs/workbook-inputs.js';
import type { SheetName } from '../layout.js';
import { label } from './cells.js';
import { fieldInput } from './field-input.js';
import type { Cell } from './sheet-model.js';

/**
 * The facts of the home that stand on a sheet, each with its label.
 *
 * @param sheet the sheet
 * @param start what they hold
 * @param side where the label stands: left of its cell, or above it
 */
export function homeCells(sheet: SheetName, start: HomeCells, side: 'left' | 'above'): Cell[] {
  return fieldPairs(HOME_FIELDS, start).flatMap(([field, value]) => {
    const { row, column } = field.cell.place;
    if (field.cell.place.sheet !== sheet) return [];
    const { label: text, unit } = field.spec;
    const at = side === 'left' ? `${columnLetters(column - 1)}${row}` : `${columnLetters(column)}${row - 1}`;
    return [
      label(at, side === 'left' ? text : `${text}, ${unit}`, side === 'left' ? 'labelWrap' : 'label'),
      fieldInput(field, value),
    ];
  });
}
