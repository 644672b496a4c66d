import { describe, expect, it } from 'vitest';
import type { CellPlace, Node } from '../../../src/formula/nodes.js';
import { printFormula } from '../../../src/formula/print.js';
import { columnNumber, parseCell } from '../../../src/workbook/cell-address.js';
import { blankStart } from '../../../src/workbook/fill/blank-start.js';
import { USUAL_DAYS } from '../../../src/workbook/layout.js';
import { declareBook } from '../../../src/workbook/model/book.js';
import { gasSheet } from '../../../src/workbook/model/heating/gas-sheet.js';
import { heatingDaysSheet } from '../../../src/workbook/model/heating/heating-days-sheet.js';
import { heatingFiguresSheet } from '../../../src/workbook/model/heating/heating-figures-sheet.js';
import { heatingInputsSheet } from '../../../src/workbook/model/heating/heating-inputs-sheet.js';
import { heatingMonthsSheet } from '../../../src/workbook/model/heating/heating-months-sheet.js';
import { heatingSheet } from '../../../src/workbook/model/heating/heating-sheet.js';
import { temperaturesSheet } from '../../../src/workbook/model/heating/temperatures-sheet.js';
import type { SheetModel } from '../../../src/workbook/model/sheet-model.js';

/** Longest formula that a reader can follow, characters. */
const LONGEST = 300;

/** Every formula of a sheet as its cell shows it; of a column, that of its last row. */
function* formulasOf(sheet: SheetModel): Generator<[at: string, text: string]> {
  const textOf = (formula: Node | string, place: CellPlace): string =>
    typeof formula === 'string' ? formula : printFormula(formula, place);
  for (const cell of sheet.cells) {
    if (cell.kind !== 'formula') continue;
    yield [cell.at, textOf(cell.formula, { sheet: sheet.name, ...parseCell(cell.at) })];
  }
  for (const { letters, firstRow, rows, formula } of sheet.formulaColumns) {
    const row = firstRow + rows - 1;
    const place = { sheet: sheet.name, row, column: columnNumber(letters) };
    yield [`${letters}${row}`, typeof formula === 'function' ? formula(row) : textOf(formula, place)];
  }
}

describe('the formulas of the heating sheets', () => {
  it('are none longer than a reader can follow', () => {
    const book = declareBook(USUAL_DAYS);
    const { heating } = blankStart();
    const sheets = [
      heatingSheet(book),
      heatingInputsSheet(book, heating),
      heatingFiguresSheet(book),
      heatingMonthsSheet(book),
      heatingDaysSheet(book),
      gasSheet(book, heating),
      temperaturesSheet(book),
    ];
    const tooLong = sheets.flatMap((sheet) =>
      [...formulasOf(sheet)]
        .filter(([, text]) => text.length > LONGEST)
        .map(([at, text]) => `${sheet.name}!${at}: ${text.length}`),
    );
    expect(tooLong).toEqual([]);
  });
});
