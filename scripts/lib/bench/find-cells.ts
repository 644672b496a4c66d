import { openWorkbookPackage, type WorkbookPackage } from '../../../src/workbook/package/index.js';

/** A cell to type into. */
export interface InputPlace {
  sheet: string;
  /** For example `D44`. */
  cell: string;
  /** The number that stands there. */
  value: number;
}

/** The tariff whose rate is changed, in the order of the columns: the sample home's own. */
const CHANGED_TARIFF = 2;

/**
 * The cell of a unit rate, found by its label on the sheet of tariffs: in the first row of base rates, that of the second
 * tariff that has one.
 *
 * @param bytes the .xlsx file
 * @throws Error where there is none, so that no other cell is changed unseen
 */
export function rateCell(bytes: Uint8Array): InputPlace {
  return inputBeside(openWorkbookPackage(bytes, 'workbook'), 'Tariffs', /^base rate\b/i, CHANGED_TARIFF);
}

/**
 * The cell of the battery's usable capacity: by its defined name, or by its label on the sheet of the battery.
 *
 * @param bytes the .xlsx file
 * @throws Error where there is none, or the workbook has no battery to switch off
 */
export function batteryCapacityCell(bytes: Uint8Array): InputPlace {
  const workbook = openWorkbookPackage(bytes, 'workbook');
  const place =
    namedInput(workbook, /^(?:.*_)?usable_kwh$/i) ??
    inputBeside(workbook, 'Battery', /^usable capacity\b/i, 1);
  if (place.value > 0) return place;
  throw new Error(
    `${place.sheet}!${place.cell} holds ${place.value} kWh: there is no battery to switch off, fill a home that has one`,
  );
}

/** Labels stand in the first columns of a sheet, inputs to their right. */
const LABEL_COLUMNS = 2;

/** The n-th typed number (from 1) in the first row whose label fits. */
function inputBeside(workbook: WorkbookPackage, sheet: string, label: RegExp, nth: number): InputPlace {
  const cells = workbook.readSheet(sheet);
  let labelRow = 0;
  let count = 0;
  while (cells.next()) {
    const { row, column, value } = cells;
    if (labelRow === 0 && column <= LABEL_COLUMNS && typeof value === 'string' && label.test(value))
      labelRow = row;
    if (labelRow === 0 || column <= LABEL_COLUMNS) continue;
    if (row > labelRow) break;
    if (typeof value !== 'number' || cells.hasFormula) continue;
    count++;
    if (count === nth) return { sheet, cell: cells.name, value };
  }
  throw new Error(
    labelRow === 0
      ? `no label of sheet ${sheet} fits ${label}`
      : `row ${labelRow} of sheet ${sheet} holds ${count} typed numbers beside its label, expected at least ${nth}`,
  );
}

/** The first cell with a name that fits where a number is typed. */
function namedInput(workbook: WorkbookPackage, name: RegExp): InputPlace | undefined {
  for (const defined of workbook.definedNames()) {
    const place = name.test(defined.name) ? workbook.namedRange(defined.name) : undefined;
    if (place === undefined) continue;
    const { firstRow, firstColumn } = place.range;
    const cells = workbook.readSheet(place.sheet);
    while (cells.next() && cells.row <= firstRow) {
      if (cells.row !== firstRow || cells.column !== firstColumn || cells.hasFormula) continue;
      const { value } = cells;
      if (typeof value === 'number') return { sheet: place.sheet, cell: cells.name, value };
    }
  }
  return undefined;
}
