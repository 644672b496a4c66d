import { blankStart } from '../fill/blank-start.js';
import { SHEETS, TARIFF_COUNT } from '../layout.js';
import { declareBook } from '../model/book.js';
import { LAYOUT_CELL } from '../model/notes-sheet.js';
import type { SheetModel } from '../model/sheet-model.js';
import { workbookModel } from '../model/workbook-model.js';
import type { EarlierLayout } from './earlier-layout.js';
import { projectNames } from './project-names.js';
import { todaysLayout } from './todays-layout.js';

/** Names that layout 5 had, and today's has not. */
const GONE = [
  'car_metered_kWh_in_hours',
  'car_readings_in_hours',
  'cheaper_later_by_the_losses',
  'dearer_later_by_the_losses',
  'half_hour_reading_of_month',
  'price_of_half_hours_there_are',
  'used_beside_car',
  'water_metered_kWh_in_hours',
  'water_readings_in_hours',
];

/** Names that today's layout has, and layout 5 had not: there they could be somebody's own. */
const NEW: ReadonlySet<string> = new Set([
  'car_kWh_in_its_hours',
  'car_readings_in_its_hours',
  'car_readings_of_session',
  'car_rows_in_its_hours',
  'cheaper_later_after_losses',
  'dearer_later_after_losses',
  'half_hours_without_battery',
  'import_is_metered',
  'price_within_day',
  'rows_without_import',
  ...Array.from({ length: TARIFF_COUNT }, (_, t) => `session_at_${t + 1}`),
  'start_of_half_hour',
  'used_by_home',
  'used_kWh_of_month',
  'used_without_car',
  'water_kWh_in_its_hours',
  'water_readings_in_its_hours',
  'water_readings_of_session',
  'water_rows_in_its_hours',
]);

/** Cells that today’s layout has, and layout 5 had not: rows without import, and what lacks of a battery’s readings. */
const NEW_CELLS: Readonly<Record<string, readonly string[]>> = {
  [SHEETS.rates]: Array.from({ length: 14 }, (_, i) =>
    [...'UVW'].map((letters) => `${letters}${61 + i}`),
  ).flat(),
};

/**
 * Layout 5: every cell that there was stood where it stands today, some formulas were written otherwise. So its table is today’s; where
 * cells move, it becomes a table of its own.
 *
 * @param days days that the workbook holds
 * @returns the table, and the sheets by whose headings and labels its inputs are found in place
 */
export function layout5(days: number): { table: EarlierLayout; sheets: SheetModel[] } {
  const book = declareBook(days);
  const model = workbookModel(blankStart(), book).map((sheet) => ({
    ...sheet,
    cells: sheet.cells.filter(({ at }) => NEW_CELLS[sheet.name]?.includes(at) !== true),
  }));
  const names = [...projectNames(model).filter((name) => !NEW.has(name)), ...GONE];
  return {
    table: { ...todaysLayout(book, model, names, model), version: 5 },
    sheets: model.map((sheet) => ({
      ...sheet,
      // Which says that it is another today.
      cells: sheet.cells.filter(({ at }) => sheet.name !== SHEETS.notes || at !== LAYOUT_CELL),
    })),
  };
}
