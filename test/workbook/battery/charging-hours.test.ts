import ExcelJS from 'exceljs';
import { describe, expect, it } from 'vitest';
import { chargingHours } from '../../../src/workbook/evaluate/battery/profile-lines.js';
import { FIRST_ROW, SEED_ROW } from '../../../src/workbook/layout.js';
import {
  LAST_PROFILE_ROW,
  PROFILE,
  profileSheet,
} from '../../../src/workbook/model/battery/profile-sheet.js';
import { describeWithCalc, describeWithGnumeric } from '../../engines/availability.js';
import { assertCellsEqual, compareCells, type EngineResult } from '../../engines/compare-cells.js';
import { recalculateWithGnumeric } from '../../engines/gnumeric.js';
import { recalculateWithCalc } from '../../engines/libreoffice.js';
import { withFile } from '../../engines/with-file.js';

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

describe('the hours in which the battery charges, on the average day', () => {
  it.each(DAYS)('%s', (_, extraKwh, hours) => {
    expect(chargingHours(extraKwh).hoursInWords).toBe(hours);
  });
});

/** A sheet a day: import without and with the battery, and the formulas beside what the library says. */
async function workbook(): Promise<Uint8Array> {
  const columns = profileSheet().formulaColumns;
  const formulaOf = (letters: string, row: number): string =>
    columns.find((column) => column.letters === letters)!.formula(row);
  const book = new ExcelJS.Workbook();
  for (const [name, extraKwh] of DAYS) {
    const sheet = book.addWorksheet(name);
    const lines = chargingHours(extraKwh);
    const put = (cell: string, formula: string, result: number | string): void => {
      sheet.getCell(cell).value = { formula, result };
    };
    put(
      `${PROFILE.chargesFromGrid}${SEED_ROW}`,
      `$${PROFILE.chargesFromGrid}$${LAST_PROFILE_ROW}`,
      lines.chargesFromGrid[47]!,
    );
    sheet.getCell(`${PROFILE.runLength}${LAST_PROFILE_ROW + 1}`).value = 0;
    extraKwh.forEach((extra, slot) => {
      const row = FIRST_ROW + slot;
      sheet.getCell(`${PROFILE.importWithout}${row}`).value = 0;
      sheet.getCell(`${PROFILE.importWith}${row}`).value = extra;
      for (const key of ['chargesFromGrid', 'runLength', 'hours'] as const) {
        put(`${PROFILE[key]}${row}`, formulaOf(PROFILE[key], row), lines[key][slot]!);
      }
      put(`${PROFILE.extra}${row}`, formulaOf(PROFILE.extra, row), extra);
    });
  }
  return new Uint8Array(await book.xlsx.writeBuffer());
}

async function compareWith(recalculate: (path: string) => Promise<EngineResult>): Promise<void> {
  const file = await workbook();
  await withFile(file, async (path) =>
    assertCellsEqual(compareCells(file, await recalculate(path)), DAYS.length * 48 * 4),
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
