import { describe, expect, it } from 'vitest';
import { blankStart } from '../../src/workbook/fill/blank-start.js';
import { declareBook } from '../../src/workbook/model/book.js';
import type { SheetModel } from '../../src/workbook/model/sheet-model.js';
import { workbookModel } from '../../src/workbook/model/workbook-model.js';

const DAYS = 35;

/** Every cell of a sheet that says something, as often as something is said there. */
function places({ cells, formulaColumns, valueColumns = [] }: SheetModel): string[] {
  const down = (letters: string, firstRow: number, rows: number): string[] =>
    Array.from({ length: rows }, (_, i) => `${letters}${firstRow + i}`);
  return [
    ...cells.map(({ at }) => at),
    ...formulaColumns.flatMap(({ letters, firstRow, rows }) => down(letters, firstRow, rows)),
    ...valueColumns.flatMap(({ letters, firstRow, values }) => down(letters, firstRow, values.length)),
  ];
}

describe('no cell is declared twice, so that nothing vanishes below something else', () => {
  for (const sheet of workbookModel(blankStart(), declareBook(DAYS))) {
    it(sheet.name, () => {
      const seen = new Set<string>();
      const twice = places(sheet).filter((place) => seen.has(place) || !seen.add(place));
      expect(twice).toEqual([]);
    });
  }
});
