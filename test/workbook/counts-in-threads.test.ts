import { describe, expect, it } from 'vitest';
import type { Area } from '../../src/formula/nodes.js';
import { blankStart } from '../../src/workbook/fill/blank-start.js';
import { FIRST_ROW, SHEETS } from '../../src/workbook/layout.js';
import { declareBook } from '../../src/workbook/model/book.js';
import { workbookModel } from '../../src/workbook/model/workbook-model.js';
import { type Formulas, formulasOf } from './reached-from.js';

const DAYS = 35;
const ROW = FIRST_ROW + 1;

/**
 * LibreOffice works a long column out in several threads unless it hangs on its own rows above. One that counts through
 * rows of other columns, asked for while those are being worked out, read rows that were not there yet and took the
 * program down (4 of 5 times, after a date was typed as text).
 */
describe('a column of half-hours that looks at several rows of another', () => {
  const halfHours = formulasOf(workbookModel(blankStart(), declareBook(DAYS))).filter(
    ({ sheet, rows }) => sheet === SHEETS.halfHours && rows > DAYS,
  );
  const areasOf = ({ sheet, column, references }: Formulas): Area[] =>
    references
      .map(({ area }) => area({ sheet, row: ROW, column }))
      .filter((area) => area.sheet === SHEETS.halfHours);
  const looksAt = (formula: Formulas, row: number, column: number): boolean =>
    areasOf(formula).some(
      (area) =>
        area.firstRow === row &&
        area.lastRow === row &&
        area.firstColumn <= column &&
        area.lastColumn >= column,
    );
  const counting = halfHours.filter((formula) =>
    areasOf(formula).some((area) => area.lastRow > area.firstRow && area.firstColumn !== formula.column),
  );

  it('exists', () => {
    expect(counting.length).toBeGreaterThan(0);
  });

  it.each(counting)('$label hangs on its own rows above', (formula) => {
    const chains = halfHours.filter(
      (other) =>
        looksAt(formula, ROW - 1, other.column) && (other === formula || looksAt(other, ROW, formula.column)),
    );
    expect(chains).not.toEqual([]);
  });
});
