import { areaReference } from '../book/terms.js';
import { SHEETS, TARIFF_COUNT } from '../layout.js';

/** Column of the first tariff on its sheet; the others stand right of it. */
export const FIRST_TARIFF_COLUMN = 3;
/** Row of the tariffs' names. */
export const TARIFF_NAME_ROW = 5;

/** The cells with the tariffs' names. */
export const TARIFF_NAMES = areaReference({
  sheet: SHEETS.tariffs,
  firstRow: TARIFF_NAME_ROW,
  lastRow: TARIFF_NAME_ROW,
  firstColumn: FIRST_TARIFF_COLUMN,
  lastColumn: FIRST_TARIFF_COLUMN + TARIFF_COUNT - 1,
});
