import { workbookNames } from '../calculate.js';
import type { SheetModel } from '../model/sheet-model.js';

/**
 * Every defined name that the project gives a workbook: those of cells and of parts of formulas, and those that only select
 * cells.
 *
 * @param model its sheets
 */
export function projectNames(model: readonly SheetModel[]): string[] {
  const selections = model.flatMap(({ selections = {} }) => Object.keys(selections));
  return [...workbookNames(model).keys(), ...selections];
}
