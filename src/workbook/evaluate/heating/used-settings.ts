import type { HeatingInput } from '../../../heating/comparison/heating-inputs.js';
import type { CellValue } from '../../model/sheet-model.js';

/**
 * What the comparison takes of a setting's cell: a wrong one counts as its initial value, and Checks says so.
 *
 * @param input what the setting may be
 * @param cell what its cell holds
 * @returns the value taken; null where it may be blank and is
 */
export function usedSetting(input: HeatingInput, cell: CellValue): CellValue {
  if (input.choices !== undefined) {
    const text = typeof cell === 'string' ? cell.toLowerCase() : '';
    return input.choices.find((choice) => choice === text) ?? input.initial;
  }
  return isUsable(input, cell) ? cell : input.initial;
}

/** Whether a setting's cell is wrong. */
export function isWrongSetting(input: HeatingInput, cell: CellValue): boolean {
  if (cell === null) return input.optional !== true;
  if (input.choices !== undefined) {
    return !(typeof cell === 'string' && input.choices.includes(cell.toLowerCase()));
  }
  return !isUsable(input, cell);
}

function isUsable({ min, max }: HeatingInput, cell: CellValue): cell is number {
  return typeof cell === 'number' && cell >= (min ?? cell) && cell <= (max ?? cell);
}
