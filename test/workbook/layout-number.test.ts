import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { PATHS } from '../../src/cli/paths.js';
import { namedFormulas } from '../../src/workbook/calculate.js';
import { parseStartingInputs } from '../../src/workbook/inputs/parse-starting-inputs.js';
import { cellFormula, columnFormula } from '../../src/workbook/model/column-text.js';
import { LAYOUT_VERSION } from '../../src/workbook/model/notes-sheet.js';
import { workbookModel } from '../../src/workbook/model/workbook-model.js';

/**
 * The layout of the workbook, by number. A workbook of another layout is refused by name; one of the same number whose
 * formulas differ looks to its user as if formulas had been altered. So: where this test fails and workbooks of the
 * number are with users, raise `LAYOUT_VERSION` and write the new pair here.
 */
const LAYOUT = { number: 8, hash: 'e8a8d7790b45eb23' };

it('has a number for its cells and formulas', () => {
  const model = workbookModel(
    parseStartingInputs(readFileSync(PATHS.startingInputs, 'utf8'), PATHS.startingInputs),
  );
  const places = model.flatMap((sheet) => [
    ...sheet.cells
      .filter(({ kind }) => kind !== 'label')
      .map((cell) => [sheet.name, cell.at, cell.kind === 'formula' ? cellFormula(sheet.name, cell) : '']),
    ...sheet.formulaColumns.map((c) => [
      sheet.name,
      c.letters,
      c.firstRow,
      c.rows,
      columnFormula(sheet.name, c, c.firstRow),
    ]),
    ...sheet.inputColumns.map((c) => [sheet.name, c.letters, c.firstRow, c.rows]),
  ]);
  const named = [...namedFormulas(model)];
  const hash = createHash('sha256')
    .update(JSON.stringify([places, named]))
    .digest('hex')
    .slice(0, 16);
  expect({ number: LAYOUT_VERSION, hash }).toEqual(LAYOUT);
});
