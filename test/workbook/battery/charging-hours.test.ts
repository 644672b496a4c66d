import ExcelJS from 'exceljs';
import { describe, expect, it } from 'vitest';
import { type Calculated, calculate } from '../../../src/workbook/calculate.js';
import { columnNumber } from '../../../src/workbook/cell-address.js';
import { FIRST_ROW, SEED_ROW, USUAL_DAYS } from '../../../src/workbook/layout.js';
import {
  LAST_PROFILE_ROW,
  PROFILE,
  profileSheet,
} from '../../../src/workbook/model/battery/profile-sheet.js';
import { declareBook } from '../../../src/workbook/model/book.js';
import { cellFormula, columnFormula } from '../../../src/workbook/model/column-text.js';
import { describeWithCalc, describeWithGnumeric } from '../../engines/availability.js';
import { assertCellsEqual, compareCells, type EngineResult } from '../../engines/compare-cells.js';
import { recalculateWithGnumeric } from '../../engines/gnumeric.js';
import { recalculateWithCalc } from '../../engines/libreoffice.js';
import { withFile } from '../../engines/with-file.js';

/** Defined name of the times at which it charges, in words. */
const WORDS = 'battery_charging_hours';

/** A day whose import rises by so much between two times, in half-hours from midnight. */
function day(...spells: [from: number, to: number, kwh: number][]): Float64Array {
  const extra = new Float64Array(48);
  for (const [from, to, kwh] of spells) extra.fill(kwh, from, to);
  return extra;
}

const DAYS: [name: string, extraKwh: Float64Array, hours: string][] = [
  ['no charging from the grid', day([34, 40, -1]), ''],
  ['one spell at night', day([1, 11, 1.5], [34, 40, -0.8]), '00:30–05:30'],
  ['a night and an afternoon', day([1, 9, 1.5], [27, 31, 1]), '00:30–04:30, 13:30–15:30'],
  ['a spell across midnight', day([47, 48, 1.2], [0, 7, 1.2]), '23:30–03:30'],
  ['a spell that ends at midnight', day([44, 48, 1]), '22:00–24:00'],
  ['a spell from midnight', day([0, 4, 1]), '00:00–02:00'],
  ['rises too small to be charging', day([1, 5, 1], [20, 24, 0.05]), '00:30–02:30'],
  ['crumbs of sums', day([3, 9, 1e-9]), ''],
  ['the whole day', day([0, 48, 0.4]), 'all day'],
];

const PROFILE_SHEET = profileSheet(declareBook(USUAL_DAYS));
/** The columns that tell when it charges from import without and with the battery. */
const COLUMNS = PROFILE_SHEET.formulaColumns.filter(({ letters }) =>
  [PROFILE.extra, PROFILE.chargesFromGrid, PROFILE.runLength, PROFILE.until, PROFILE.hours].some(
    (of) => of === letters,
  ),
);
/** What stands above and below them, and the words in which they end. */
const CELLS = PROFILE_SHEET.cells.filter(
  (cell) =>
    (cell.kind === 'formula' &&
      (cell.name === WORDS || cell.at === `${PROFILE.chargesFromGrid}${SEED_ROW}`)) ||
    cell.at === `${PROFILE.runLength}${LAST_PROFILE_ROW + 1}`,
);

/** These columns worked out for a day. */
function workedOut(extraKwh: Float64Array): Calculated {
  const column = (letters: string, values: ArrayLike<number>) => ({
    sheet: PROFILE_SHEET.name,
    column: columnNumber(letters),
    firstRow: FIRST_ROW,
    values,
  });
  return calculate(
    [{ ...PROFILE_SHEET, cells: CELLS, formulaColumns: COLUMNS }],
    [column(PROFILE.importWithout, new Float64Array(48)), column(PROFILE.importWith, extraKwh)],
  );
}

describe('the hours in which the battery charges, on the average day', () => {
  it('are told by the columns of the profile', () => {
    expect(COLUMNS).toHaveLength(5);
    expect(CELLS).toHaveLength(3);
  });

  it.each(DAYS)('%s', (_, extraKwh, hours) => {
    expect(workedOut(extraKwh).named(WORDS)).toBe(hours);
  });
});

/** A sheet a day: import without and with the battery, and the formulas beside what the library says. */
async function workbook(): Promise<Uint8Array> {
  const book = new ExcelJS.Workbook();
  for (const [name, extraKwh] of DAYS) {
    const sheet = book.addWorksheet(name);
    const calculated = workedOut(extraKwh);
    const put = (cell: string, formula: string): void => {
      const result = calculated.at(PROFILE_SHEET.name, cell) as number | string;
      sheet.getCell(cell).value = { formula, result };
    };
    for (const cell of CELLS) {
      if (cell.kind === 'formula') put(cell.at, cellFormula(PROFILE_SHEET.name, cell));
      else sheet.getCell(cell.at).value = cell.value;
    }
    extraKwh.forEach((extra, slot) => {
      const row = FIRST_ROW + slot;
      sheet.getCell(`${PROFILE.importWithout}${row}`).value = 0;
      sheet.getCell(`${PROFILE.importWith}${row}`).value = extra;
      for (const column of COLUMNS)
        put(`${column.letters}${row}`, columnFormula(PROFILE_SHEET.name, column, row));
    });
  }
  return new Uint8Array(await book.xlsx.writeBuffer());
}

async function compareWith(recalculate: (path: string) => Promise<EngineResult>): Promise<void> {
  const file = await workbook();
  await withFile(file, async (path) =>
    assertCellsEqual(compareCells(file, await recalculate(path)), DAYS.length * (48 * 5 + 2)),
  );
}

describe('the hours in which the battery charges: library and formulas agree', () => {
  describeWithCalc('in a full-size engine', () => {
    it('LibreOffice', () => compareWith(recalculateWithCalc));
  });
  describeWithGnumeric('in a second one', () => {
    it('Gnumeric', () => compareWith((path) => recalculateWithGnumeric(path)));
  });
});
